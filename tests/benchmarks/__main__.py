"""How quick the engines are, beside each other: ``python -m tests.benchmarks``.

Everything that is compared is measured in turns, in one process, and told as the median over the turns of the ratio
within a turn: times wander with whatever else the machine is doing, ratios much less. Nothing here is a test.
"""

from __future__ import annotations

import os
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from functools import partial

from tests.benchmarks import naive_experta
from tests.conftest import ROOT
from tests.engines import clips
from triage.inference import experta_rules
from triage.inference.compiled import compiled
from triage.inference.evaluate import evaluate
from triage.inference.evaluation import BOUNDS
from triage.inference.forward import forward
from triage.inference.masks import Tables, tables
from triage.inference.program import compile_rules, program_of
from triage.knowledge.model import KnowledgeBase
from triage.knowledge.store.load import knowledge_from_texts, load_knowledge
from triage.survey.model import Boat, Finding, Reading

TURNS = 11
FINDINGS = 15
IMPORTS = (
    "import collections, collections.abc; collections.Mapping = collections.abc.Mapping; "
    "import experta, pydantic, jinja2, networkx"
)
EXAMPLES = ("examples/owner-one-crack.yaml", "examples/club-boat.yaml")

Work = Callable[[], object]
Maker = Callable[[int], Work]
"""Prepares the work of a turn, whose number it is given."""

Turn = dict[str, float]


def seconds(work: Work) -> float:
    """Processor time, here and in processes started from here: what else the machine does counts for little."""
    begun = processor_time()
    work()
    return processor_time() - begun


def processor_time() -> float:
    started = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + started.ru_utime + started.ru_stime


def in_turns(makers: Mapping[str, Maker], turns: int = TURNS) -> list[Turn]:
    """How long each piece of work takes, turn by turn. What prepares it (its maker) is not counted."""
    return [{name: seconds(make(turn)) for name, make in makers.items()} for turn in range(turns)]


def table(title: str, turns: list[Turn], against: str) -> None:
    """Median times, and how many times as long as ``against``."""
    say(f"\n{title}", "", f"| | ms | times {against} |", "|---|--:|--:|")
    for name in turns[0]:
        middle = statistics.median(turn[name] for turn in turns) * 1e3
        ratio = statistics.median(turn[name] / turn[against] for turn in turns)
        say(f"| {name} | {middle:.2f} | {ratio:.2f} |")


def some_boat(kb: KnowledgeBase, count: int, chance: random.Random) -> tuple[Boat, list[Finding]]:
    """A boat with marks anywhere, about half of their scales answered, and most of those well."""
    findings = []
    for number in range(count):
        zone = chance.choice([zone for zone in kb.zones if kb.offers[zone]])
        sign = chance.choice(kb.offers[zone])
        side = chance.choice(["port", "starboard"]) if kb.zones[zone].sided else None
        readings = {}
        for scale in kb.applicable(zone, sign):
            least, worst = kb.best(sign, scale), kb.worst(sign, scale)
            if chance.random() < 0.5:
                level = least if chance.random() < 0.7 else chance.randint(least, worst)
                readings[scale] = Reading.at(level)
        findings.append(Finding(f"f{number}", zone, sign, side, readings))
    return Boat("Wagtail", {"deck": "single", "spar": "alloy"}), findings


def engines(kb: KnowledgeBase, count: int) -> Mapping[str, Maker]:
    """Each engine on the same boats, one boat a turn; CLIPS in an environment that has seen no other boat."""
    naive = naive_experta.build(kb)
    boats = [some_boat(kb, count, random.Random(turn)) for turn in range(TURNS)]
    if not all(map(all, agreed := agreement(kb, naive, boats))):
        raise SystemExit(f"forward, compiled, naive experta, CLIPS agree with evaluate: {agreed}")

    def in_clips(turn: int) -> Work:
        environment = clips.build(kb)
        return lambda: clips.run(environment, kb, *boats[turn])

    def clips_itself(turn: int) -> Work:
        environment = clips.build(kb)
        clips.tell(environment, kb, *boats[turn])
        return lambda: environment.run()  # the method alone would not keep its environment alive

    return {
        "evaluate, with trace": lambda turn: partial(evaluate, kb, *boats[turn]),
        "compiled, with trace": lambda turn: partial(compiled, kb, *boats[turn]),
        "forward (experta), with trace": lambda turn: partial(forward, kb, *boats[turn]),
        "naive experta": lambda turn: partial(naive_experta.judge, naive, kb, *boats[turn]),
        "CLIPS, told, run and read back": in_clips,
        "CLIPS, its own run alone": clips_itself,
    }


def agreement(kb: KnowledgeBase, naive: object, boats: list[tuple[Boat, list[Finding]]]) -> list[tuple[bool, ...]]:
    """For each boat whether forward, compiled, naive experta and CLIPS say what evaluate says.

    It also lets every engine prepare what it prepares once.
    """
    told_alike: list[tuple[bool, ...]] = []
    for boat, findings in boats:
        judged = evaluate(kb, boat, findings)
        fired = {(n, b, f.rule.id) for n, one in enumerate(judged) for b in BOUNDS for f in one.end(b).firings}
        told = clips.judge(kb, boat, findings)
        agreed = (
            judged == forward(kb, boat, findings),
            judged == compiled(kb, boat, findings),
            fired == naive_experta.judge(naive, kb, boat, findings),
            fired == {(n, b, rule) for n, one in enumerate(told) for b in BOUNDS for rule in one[b].fired},
        )
        told_alike.append(agreed)
    return told_alike


def building(kb: KnowledgeBase) -> Mapping[str, Maker]:
    """What each engine does once for a knowledge base."""
    rules = ROOT / "rules"
    texts = {file.relative_to(rules).as_posix(): file.read_bytes() for file in rules.rglob("*.yaml")}
    work: dict[str, Work] = {
        "reading the knowledge": lambda: knowledge_from_texts(texts),
        "evaluate": lambda: compile_rules(kb),
        "compiled, every sign in every zone": lambda: all_tables(kb),
        "forward (experta)": lambda: experta_rules.build(program_of(kb))(),
        "naive experta": lambda: naive_experta.build(kb),
        "CLIPS": lambda: clips.build(kb),
    }
    return {name: always(one) for name, one in work.items()}


def all_tables(kb: KnowledgeBase) -> list[Tables]:
    return [tables(kb, zone, sign) for zone, signs in kb.offers.items() for sign in signs]


def cold(cache: str) -> Mapping[str, Maker]:
    """A fresh process that assesses a boat, against one that only imports the libraries."""
    here = {**os.environ, "TRIAGE_CACHE_DIR": cache}
    arguments = {
        "importing the libraries": ["-c", IMPORTS],
        "triage --help": ["-m", "triage", "--help"],
        **{f"triage assess {path}": ["-m", "triage", "assess", path] for path in EXAMPLES},
    }

    def process(given: list[str]) -> Work:
        return lambda: subprocess.run([sys.executable, *given], cwd=ROOT, env=here, capture_output=True, check=False)

    return {name: always(process(given)) for name, given in arguments.items()}


def always(work: Work) -> Maker:
    """The same work in every turn."""
    return lambda _: work


def say(*lines: str) -> None:
    sys.stdout.write("".join(f"{line}\n" for line in lines))
    sys.stdout.flush()


def main() -> None:
    """Print every table as Markdown."""
    kb = load_knowledge(ROOT / "rules")
    say(f"{len(kb.rules)} rules, {len(kb.presumptions)} presumptions; medians of {TURNS} turns")
    for count, title in ((1, "One finding"), (FINDINGS, f"A boat with {FINDINGS} findings")):
        turns = in_turns(engines(kb, count))
        table(title, turns, "evaluate, with trace")
        times = _times(turns, "naive experta", "forward (experta), with trace")
        say(f"\nnaive experta takes {times} as long as forward")
        times = _times(turns, "compiled, with trace", "CLIPS, its own run alone")
        say(f"compiled takes {times} as long as CLIPS's own run")
    table("Building, once for a knowledge base", in_turns(building(kb)), "evaluate")
    table("A fresh process that reads the rules", in_turns(cold("")), "importing the libraries")
    with tempfile.TemporaryDirectory() as folder:
        turns = in_turns(cold(folder), TURNS + 1)[1:]  # the first one reads the rules and remembers them
    table("A fresh process that remembers them", turns, "importing the libraries")


def _times(turns: list[Turn], name: str, against: str) -> str:
    return f"{statistics.median(turn[name] / turn[against] for turn in turns):.1f} times"


if __name__ == "__main__":
    main()
