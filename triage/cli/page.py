"""``triage page``: the program as a page for a phone, which needs no network once it was opened."""

from __future__ import annotations

from pathlib import Path

import click

from triage.cli.printing import tell


@click.command()
@click.argument("folder", metavar="DIR", required=False, type=click.Path(path_type=Path, file_okay=False))
@click.option("--one", metavar="FILE", type=click.Path(path_type=Path, dir_okay=False), help="Write one file instead.")
@click.option(
    "--rules", type=click.Path(exists=True, file_okay=False, path_type=Path), help="Reason with the rules in here."
)
@click.option(
    "--runtime",
    metavar="FOLDER",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="Take what Python for browsers is made of from here, and fetch nothing.",
)
def page(folder: Path | None, one: Path | None, rules: Path | None, runtime: Path | None) -> None:
    """Write the program as a page into DIR, for any web space.

    Opened once on a phone it works without a network, and what is answered stays on that phone. With --one it becomes a
    single file to send or to carry, which opens from the disk.

    Python for browsers is fetched the first time, with npm and pip, and kept.
    """
    from triage import load_knowledge
    from triage.page.build import build_folder, build_one, gzipped
    from triage.phrases import page as phrases

    if (folder is None) == (one is None):
        raise click.UsageError("Name a folder to write the page into, or a file with --one.")
    kb = load_knowledge(rules)
    if folder is not None:
        files = build_folder(kb, folder, runtime)
        tell(
            phrases.written(
                str(folder), len(files), _megabytes(sum(map(len, files.values()))), _megabytes(gzipped(files))
            )
        )
    elif one is not None:
        body = build_one(kb, one, runtime)
        tell(phrases.written(str(one), 1, _megabytes(len(body)), _megabytes(gzipped({"": body}))))


def _megabytes(count: int) -> float:
    return count / 1_000_000
