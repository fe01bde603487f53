"""Try every mutant of `triage/inference` and tell how many the tests notice: ``python -m tests.mutation [NAME…]``.

mutmut (configured in pyproject.toml) makes the mutants in ``mutants/``, copies the tests there and remembers what it
tried: a run that was stopped goes on where it was, and one with names (``*`` stands for anything) tries these again.
To count anew, delete ``mutants/``. ``mutmut show NAME`` shows a mutant.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

import libcst as cst
from mutmut.__main__ import cli
from mutmut.mutation import file_mutation
from mutmut.mutation.data import SourceFileMutationData
from mutmut.mutation.file_mutation import Mutation, MutationVisitor
from mutmut.mutation.mutators import mutation_operators, operator_arg_removal
from mutmut.utils.file_utils import walk_mutatable_files

OPENED = ("property", "cached_property", "per_knowledge")
NOTICED = {1: "killed", 3: "killed", -11: "killed", -24: "too slow", 24: "too slow", 152: "too slow"}
"""What pytest's exit code says of a mutant: a test failed, pytest or Python crashed, time ran out. Else it lives."""

Statements = Sequence[file_mutation.MODULE_STATEMENT]
skips = MutationVisitor._skip_node_and_children
arranges = file_mutation.function_trampoline_arrangement


def skips_less(self: MutationVisitor, node: cst.CSTNode) -> bool:
    """By itself mutmut leaves out what is decorated; a property is as good a place for a mistake as any."""
    skipped = skips(self, node) or _is_strict(node)
    if isinstance(node, cst.FunctionDef) and _opened(node) and node.name.value not in self.ignored_functions:
        return False
    return skipped


def arranges_decorated(
    function: cst.FunctionDef, mutants: Iterable[Mutation], class_name: str | None
) -> tuple[Statements, Statements, Statements, Sequence[str]]:
    """The decorators go to the function that chooses among the mutants, not to each of these."""
    if not _opened(function):
        return arranges(function, mutants, class_name)
    before, (chooser, *others), after, names = arranges(function.with_changes(decorators=()), mutants, class_name)
    assert isinstance(chooser, cst.FunctionDef)
    chooser = chooser.with_changes(decorators=[*function.decorators, *chooser.decorators])
    return before, [chooser, *others], after, names


def leaves_out_arguments(node: cst.Call) -> Iterator[cst.Call]:
    """Not `strict`, which compares lengths that are equal by construction."""
    strict = [argument for argument in node.args if _is_strict(argument)]
    yield from (other for other in operator_arg_removal(node) if all(one in other.args for one in strict))


def _is_strict(node: cst.CSTNode) -> bool:
    return isinstance(node, cst.Arg) and node.keyword is not None and node.keyword.value == "strict"


def _opened(function: cst.FunctionDef) -> bool:
    """Whether it is decorated, and only with what leaves the function as it is."""
    made = [one.decorator for one in function.decorators]
    names = [one.func if isinstance(one, cst.Call) else one for one in made]
    return bool(names) and all(isinstance(name, cst.Name) and name.value in OPENED for name in names)


def told() -> Iterable[str]:
    """By module: how many mutants were tried and what became of them; then the names of those that live."""
    line = "{:<32}{:>9}{:>9}{:>10}{:>9}{:>9}".format
    everything: Counter[str] = Counter()
    living = []
    yield line("", "mutants", "killed", "too slow", "living", "noticed")
    for path in sorted(walk_mutatable_files()):
        module = SourceFileMutationData(path=path)
        module.load()
        tried = {name: code for name, code in module.exit_code_by_key.items() if code is not None}
        became = {name: NOTICED.get(code, "living") for name, code in tried.items()}
        living += [name for name, fate in became.items() if fate == "living"]
        if became:
            fates = Counter(became.values())
            everything += fates
            yield line(path.name, *_figures(fates))
    yield line("all", *_figures(everything))
    yield from living


def _figures(fates: Counter[str]) -> tuple[object, ...]:
    total = fates.total()
    return total, fates["killed"], fates["too slow"], fates["living"], f"{1 - fates['living'] / total:.1%}"


def main() -> None:
    del sys.modules["tests"]  # or the copies of the tests would find this package and import their originals
    file_mutation.function_trampoline_arrangement = arranges_decorated
    MutationVisitor._skip_node_and_children = skips_less  # type: ignore[method-assign]  # mutmut has no seam for it
    file_mutation.mutation_operators = [  # type: ignore[attr-defined]
        (kind, leaves_out_arguments if operator is operator_arg_removal else operator)
        for kind, operator in mutation_operators
    ]
    cli(["run", *sys.argv[1:]], standalone_mode=False)
    sys.stdout.writelines(f"{line}\n" for line in told())


if __name__ == "__main__":
    main()
