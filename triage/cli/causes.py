"""``triage causes``: the dependency graph, and what several boats have in common."""

from __future__ import annotations

from pathlib import Path

import click

from triage.cli.printing import tell, tell_json, tell_markup

FORMATS = {"svg": ".svg", "dot": ".dot", "graphml": ".graphml", "json": ".json"}


@click.group()
def causes() -> None:
    """Show what may have done it, what it leaves, and where else it sends people to look."""


@causes.command()
@click.option("--around", metavar="NAME", help="Only what lies near this cause or place; default: everything.")
@click.option("--steps", default=1, show_default=True, type=click.IntRange(1, 9), help="How near, in links.")
@click.option("--format", "-f", "form", type=click.Choice(list(FORMATS)), help="Default: svg, or what OUTPUT ends in.")
@click.option("--output", "-o", type=click.Path(dir_okay=False, path_type=Path), help="A file; default: here.")
@click.option("--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Draw the rules in here.")
def graph(around: str | None, steps: int, form: str | None, output: Path | None, rules: Path | None) -> None:
    """Draw causes, the marks they leave and the checks they demand, or write them for other programs."""
    from triage.causes import graph as knowledge
    from triage.causes.export import as_dot, as_graphml, as_json
    from triage.drawing.diagram import neighbourhood, overview
    from triage.drawing.picture import draw
    from triage.files import write_whole
    from triage.knowledge.store.load import load_knowledge

    if form is None:
        form = next((name for name, suffix in FORMATS.items() if output and output.suffix == suffix), "svg")
    kb = load_knowledge(rules)
    whole = knowledge.graph_of(kb)
    part = knowledge.around(whole, around, steps) if around else whole
    if form == "svg":
        text = draw(
            kb,
            neighbourhood(kb, part, whole.nodes[knowledge.centre_of(whole, around)]["name"])
            if around
            else overview(kb, whole),
        )
    else:
        text = {"dot": as_dot, "graphml": as_graphml, "json": as_json}[form](part)
    if output is not None:
        write_whole(output, text)
        tell(f"Written to {output}")
    elif form == "json":
        tell_json(text)
    else:
        tell_markup(text)


@causes.command()
@click.argument("files", nargs=-1, required=True, metavar="FILE…", type=click.Path(path_type=Path))
@click.option("--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Use the rules in here.")
def shared(files: tuple[Path, ...], rules: Path | None) -> None:
    """Tell which causes the boats surveyed in FILE… have in common, and what that sends you to look at."""
    from triage import assess_survey, load_knowledge, read_survey
    from triage.causes.shared import shared_causes

    kb = load_knowledge(rules)
    found = shared_causes([assess_survey(read_survey(file, kb), kb) for file in files], kb)
    if not found:
        tell("No cause is likely on one of these boats and possible on another.")
    for one in found:
        tell(f"{one.name}: {', '.join(f'{boat.boat} ({boat.likelihood})' for boat in one.boats)}")
        tell(f"  {one.happens}")
        if one.tell:
            tell(f"  It goes on if this is so: {one.tell} Then: {one.cure}")
        for boat in one.boats:
            for line in boat.look:
                side = f", {line.side}" if line.side else ""
                tell(f"  - {boat.boat}: {line.name} at {line.place}{side}")
        tell()
