"""Keys that problems and warnings name."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from pydantic import BaseModel

import templates_gen
from templates_gen.cakefile.cake import Cake

PACKAGE = Path(templates_gen.__file__).parent
STAGES = ("drawing", "tiers", "guides", "pieces", "bench", "sheets", "cover")


def fields(model: type[BaseModel]) -> Iterator[str]:
    """Yield the names of all keys in a table and in the tables in it."""
    for name, field in model.model_fields.items():
        yield name
        for part in tables_in(field.annotation):
            yield from fields(part)


def tables_in(annotation: object) -> Iterator[type[BaseModel]]:
    """Yield the tables that a type may be made of."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in getattr(annotation, "__args__", ()):
        yield from tables_in(part)


def named(tree: ast.AST) -> Iterator[str]:
    """Yield every word of the keys that code writes out, where it has a problem or warning."""
    for call in (node for node in ast.walk(tree) if isinstance(node, ast.Call)):
        name = getattr(call.func, "attr", getattr(call.func, "id", ""))
        if name == "key":
            yield from words(call.args)
        elif name in ("Problem", "PlanWarning", "geometry_at") and call.args:
            yield from words([call.args[0]])


def words(nodes: list[ast.expr]) -> Iterator[str]:
    """Yield the words written out in tuples, or as arguments."""
    for node in nodes:
        if isinstance(node, ast.Constant) and not isinstance(node.value, int):
            yield str(node.value)
        elif isinstance(node, ast.Tuple):
            yield from words(node.elts)
        elif isinstance(node, ast.IfExp):
            yield from words([node.body, node.orelse])


@pytest.mark.parametrize("stage", STAGES)
def test_problems_name_keys_that_a_cake_file_has(stage: str) -> None:
    """Every key that is written out where something is wrong is one of the model."""
    known = set(fields(Cake))
    for path in sorted((PACKAGE / stage).rglob("*.py")):
        wrong = set(named(ast.parse(path.read_text(encoding="utf-8")))) - known
        assert not wrong, (path.name, wrong)


def test_keys_are_read_out_of_code() -> None:
    """Those of tiers, of tables and of either of two."""
    code = "Problem(('a',) if x else ('b', 2), 'c')\ntier.key('d', 'e')\nother('f')\nProblem(None)"
    assert list(named(ast.parse(code))) == ["a", "b", "d", "e", "None"]
