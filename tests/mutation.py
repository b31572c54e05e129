"""Small faults put into the code one at a time, to see whether the tests notice.

``python -m tests.mutation --count 200 --seed 1`` draws so many of the faults that the operators of
mutmut make of the geometry, and runs for each the tests that cover its file: the reference drawings
first, which notice most within a second, then those that import it, then those of its stage.
"""

from __future__ import annotations

import ast
import difflib
import importlib
import os
import random
import re
import resource
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib.machinery import ModuleSpec, SourceFileLoader
from importlib.util import spec_from_file_location
from pathlib import Path
from types import CodeType, FrameType

import click
import libcst as cst
import pytest
from mutmut.mutation.mutators import mutation_operators

TOP = Path(__file__).resolve().parent.parent
PACKAGE = "templates_gen"
STAGES = ("geometry", "drawing", "cakefile", "tiers", "guides", "pieces", "sheets")
"""The stages in their order: none imports a later one."""
FAULTY = tuple(stage for stage in STAGES if stage != "cakefile")
"""The stages that faults are put into."""
BESIDE = ("errors", "memo", "resources", "units")
"""The modules beside the stages, which import none."""
OTHERS = ("tests/web", "tests/cli", "tests/writers", "tests/test_")
"""Tests of the whole program: too slow for each fault, and not of one file.

What is said where something cannot be made is among the reference drawings.
"""
UNTOUCHED = (cst.Annotation, cst.Decorator, cst.Import, cst.ImportFrom)
BARE = (cst.BaseParenthesizableWhitespace, cst.TrailingWhitespace, cst.EmptyLine, cst.Comma)
PYTEST = ("-n0", "-x", "-q", "--tb=line", "-pno:cacheprovider", "--hypothesis-profile=quick")
MEMORY = 2_500_000_000
SURVIVED, DRAWN, TESTED, STOPPED = range(4)
OUTCOMES = ("survived", "killed by the reference drawings", "killed by a test", "took too long")
FAILED = re.compile(r"^(?:FAILED|ERROR) (\S+)", re.M)


@dataclass(frozen=True)
class Mutant:
    """A file with one fault in it."""

    number: int
    file: Path
    sound: str
    code: str

    @property
    def change(self) -> str:
        """The lines that differ, after the name of the file."""
        before, after = self.sound.splitlines(), self.code.splitlines()
        lines = difflib.unified_diff(before, after, "", "", "", "", 0, "")
        return "\n".join([f"{self.number}: {self.file}", *list(lines)[2:]])


@dataclass(frozen=True)
class Verdict:
    """What became of a mutant, and the test that noticed it."""

    mutant: Mutant
    outcome: int
    by: str


def targets() -> list[Path]:
    """Return the files that faults are put into, from the top of the checkout."""
    found = [path for stage in FAULTY for path in (TOP / PACKAGE / stage).rglob("*.py")]
    return sorted(path.relative_to(TOP) for path in found)


class _Faults(cst.CSTVisitor):
    """Gathers every node that an operator changes, with what it makes of it."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[cst.CSTNode, cst.CSTNode]] = []

    def on_visit(self, node: cst.CSTNode) -> bool:
        """Look at a node; annotations, decorators and imports are left alone."""
        if isinstance(node, (*UNTOUCHED, *BARE)):
            return False
        for kind, operator in mutation_operators:
            if isinstance(node, kind):
                self.found += [(node, changed) for changed in operator(node)]
        return True


@cache
def faults(file: Path) -> tuple[cst.Module, list[tuple[cst.CSTNode, cst.CSTNode]]]:
    """Return a file as a tree, and pairs of a node and what stands in its place."""
    module = cst.parse_module((TOP / file).read_text(encoding="utf-8"))
    visitor = _Faults()
    module.visit(visitor)
    return module, visitor.found


def sampled(count: int, seed: int) -> list[Mutant]:
    """Return so many mutants of all files, the same for the same seed and code."""
    every = [(file, index) for file in targets() for index in range(len(faults(file)[1]))]
    chosen = random.Random(seed).sample(every, min(count, len(every)))
    return [_mutant(number, file, index) for number, (file, index) in enumerate(chosen, 1)]


def _mutant(number: int, file: Path, index: int) -> Mutant:
    module, found = faults(file)
    code = module.deep_replace(*found[index])
    assert isinstance(code, cst.Module)
    return Mutant(number, file, module.code, code.code)


def judges(file: Path) -> list[str]:
    """Return the tests that cover a file: those that import it, then those of its stage."""
    name = _module(file)
    packages = {name, name.rpartition(".")[0]}
    tests = sorted((TOP / "tests").rglob("test_*.py"))
    near = [path for path in tests if packages & _imported(path)]
    near += [path for path in tests if path.parent.name == file.parts[1] and path not in near]
    paths = [path.relative_to(TOP).as_posix() for path in near]
    return [path for path in paths if not path.startswith(OTHERS)]


def _module(file: Path) -> str:
    return ".".join(file.with_suffix("").parts).removesuffix(".__init__")


def _imported(test: Path) -> set[str]:
    return set(re.findall(r"^from (\S+) import", test.read_text(encoding="utf-8"), re.M))


class _Faulty(SourceFileLoader):
    """Finds and loads one module: with the code of a mutant."""

    def __init__(self, mutant: Mutant) -> None:
        super().__init__(_module(mutant.file), str(TOP / mutant.file))
        self.code = mutant.code

    def find_spec(self, name: str, path: object, target: object = None) -> ModuleSpec | None:
        """Return how to load the module, for its name alone."""
        return spec_from_file_location(name, self.path, loader=self) if name == self.name else None

    def get_code(self, fullname: str) -> CodeType:
        """Return the code of the mutant."""
        return compile(self.code, self.path, "exec")


Function = tuple[str, int]
"""The file of a function and its first line."""


def calls() -> dict[str, set[Function]]:
    """Return which functions of the package each reference drawing calls before others have."""
    drawings = importlib.import_module("tests.drawings")
    found: dict[str, set[Function]] = {}
    for name, make in drawings.drawings().items():
        called = found[name] = set()

        def note(frame: FrameType, event: str, of: object, called: set[Function] = called) -> None:
            if event == "call":
                called.add((frame.f_code.co_filename, frame.f_code.co_firstlineno))

        sys.setprofile(note)
        try:
            make()
        finally:
            sys.setprofile(None)
    return found


def function_at(mutant: Mutant) -> Function | None:
    """Return the innermost function that a fault is in; None where it is in no function."""
    pairs = zip(mutant.sound.splitlines(), mutant.code.splitlines(), strict=False)
    line = next((n for n, (old, new) in enumerate(pairs, 1) if old != new), 0)
    around = [
        min([node.lineno, *(each.lineno for each in node.decorator_list)])
        for node in ast.walk(ast.parse(mutant.sound))
        if isinstance(node, ast.FunctionDef) and node.lineno <= line <= (node.end_lineno or 0)
    ]
    return (str(TOP / mutant.file), max(around)) if around else None


def _judge(mutant: Mutant, called: Mapping[str, set[Function]]) -> int:
    """Return what the tests say of a mutant, in a process made for it."""
    place = function_at(mutant)
    for name in [name for name in sys.modules if _may_import(name, mutant.file)]:
        del sys.modules[name]
    sys.meta_path.insert(0, _Faulty(mutant))
    try:
        drawings = importlib.import_module("tests.drawings")
        makers = drawings.drawings()
        first = sorted(makers, key=lambda name: place not in called[name])
        if drawings.first_change({name: makers[name] for name in first}):
            return DRAWN
    except Exception:  # whatever it is, it is noticed
        return DRAWN
    return TESTED if pytest.main([*PYTEST, *judges(mutant.file)]) else SURVIVED


def _may_import(module: str, file: Path) -> bool:
    """Tell whether a module may use a file: imports only point back to earlier stages."""
    package, _, rest = module.partition(".")
    before = STAGES[: STAGES.index(file.parts[1])]
    unaware: dict[str, tuple[str, ...]] = {PACKAGE: (*before, *BESIDE)}
    unaware["tests"] = ("drawn_cakes",) if "cakefile" in before else ()
    return package in unaware and rest.partition(".")[0] not in unaware[package]


def _started(mutant: Mutant, said: Path, limit: int, called: Mapping[str, set[Function]]) -> int:
    """Judge a mutant in a process of its own, and return its number."""
    process = os.fork()
    if process:
        return process
    with said.open("w", encoding="utf-8") as out:
        os.dup2(out.fileno(), 1)
        os.dup2(out.fileno(), 2)
        resource.setrlimit(resource.RLIMIT_CPU, (limit, limit))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        outcome = TESTED
        try:
            outcome = _judge(mutant, called)
        finally:
            sys.stdout.flush()
            os._exit(outcome)


def verdicts(mutants: Sequence[Mutant], jobs: int, limit: int) -> Iterator[Verdict]:
    """Yield what becomes of each mutant, so many at a time, as they are done."""
    # what the fault is not in is imported once, for all, and which drawings may show it
    called = calls()
    importlib.import_module("hypothesis")
    waiting, running = list(mutants)[::-1], dict[int, Mutant]()
    with tempfile.TemporaryDirectory() as folder:
        while waiting or running:
            while waiting and len(running) < jobs:
                mutant = waiting.pop()
                running[_started(mutant, Path(folder) / str(mutant.number), limit, called)] = mutant
            process, status = os.wait()
            mutant = running.pop(process)
            outcome = os.WEXITSTATUS(status) if os.WIFEXITED(status) else STOPPED
            said = (Path(folder) / str(mutant.number)).read_text(encoding="utf-8")
            failed = FAILED.search(said)
            yield Verdict(mutant, outcome, failed[1] if failed else "")


@click.command()
@click.option("--count", default=200, help="How many mutants.")
@click.option("--seed", default=1, help="Another seed draws other mutants.")
@click.option("--jobs", default=2, help="How many at a time.")
@click.option("--limit", default=120, help="Seconds of processor time for one mutant.")
@click.option("--pick", default="", help="Only these of the sample, by their numbers: 3,17.")
def main(count: int, seed: int, jobs: int, limit: int, pick: str) -> None:
    """Draw mutants, run the tests on each, and show what survived."""
    numbers = {int(number) for number in pick.split(",") if number}
    mutants = [each for each in sampled(count, seed) if not numbers or each.number in numbers]
    found: Counter[int] = Counter()
    for verdict in verdicts(mutants, jobs, limit):
        found[verdict.outcome] += 1
        click.echo(f"{OUTCOMES[verdict.outcome]} {verdict.by}\n{verdict.mutant.change}\n")
    for outcome, number in sorted(found.items()):
        click.echo(f"{number:5} {OUTCOMES[outcome]}")


if __name__ == "__main__":
    main()
