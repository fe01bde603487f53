"""``triage rules prove``: proofs about every survey there can be."""

from __future__ import annotations

import sys
import time
from pathlib import Path
from typing import Any

import click

from triage.cli.codes import BAD_INPUT, SETTLED_AND_FIT
from triage.cli.printing import tell

PROVED, NOT_PROVED = SETTLED_AND_FIT, BAD_INPUT


@click.command()
@click.argument("folder", required=False, type=click.Path(exists=True, file_okay=False, path_type=Path))
@click.option("--fresh", is_flag=True, help="Ask everything again, whatever was proved before.")
@click.option("--workers", type=click.IntRange(min=1), help="Processes to share the work; default: one a processor.")
def prove(folder: Path | None, fresh: bool, workers: int | None) -> None:
    """Prove the promises and the laws for the shipped rules, or for those in FOLDER.

    What breaks a promise is shown as a survey that `triage assess` reads. Answers are remembered, so that after a
    change only what depends on it is asked again.

    \b
    Exit codes:
      0  everything proved
      2  something is broken or could not be proved, or the rules cannot be used
    """
    from triage.errors import BadRules, MissingExtra
    from triage.knowledge.store.load import load_knowledge

    began = time.monotonic()
    try:
        from triage.proof.cache import AnswerCache, default_file
        from triage.proof.report import report
        from triage.proof.run import prove_rules

        kb = load_knowledge(folder)
        bases = [kb, *filter(None, [kb.purchase.judging])]
        cache = AnswerCache(default_file(), fresh=fresh)
    except (BadRules, MissingExtra) as error:
        tell(str(error), err=True)
        raise SystemExit(NOT_PROVED) from None
    proved = True
    for base in bases:
        with click.progressbar(length=1, label="Proving", file=sys.stderr) as bar:

            def moved(done: int, of: int, bar: Any = bar) -> None:
                bar.length = of
                bar.update(done - bar.pos)

            outcomes = prove_rules(base, cache=cache, workers=workers, progress=moved)
        if base is not kb:
            tell("\nRules of buying")
        for line in report(base, outcomes):
            tell(line)
        proved = proved and all(outcome.holds for outcome in outcomes)
    tell(f"{time.monotonic() - began:.0f} s")
    raise SystemExit(PROVED if proved else NOT_PROVED)
