"""From a validation error to a Problem in the decorator's words."""

from __future__ import annotations

import re

from pydantic_core import ErrorDetails

from templates_gen.cakefile.keys import key_at, keys_of, table_at
from templates_gen.cakefile.lengths import unit_advice
from templates_gen.cakefile.rules import RULE, Broken, clip, quoted
from templates_gen.cakefile.shape_keys import shape_keys
from templates_gen.cakefile.spelling import hint, stands_for
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import Key, Problem
from templates_gen.units import counted

_TABLES = {"model_type", "model_attributes_type", "dict_type"}
_ALLOWED = {
    "bool_type": "true or false",
    "int_type": "a whole number",
    "float_type": "a number without a unit",
    "string_type": "a text in quotes",
}
OF_TWO_SIDES = {"length": "size", "long": "size", "width": "short", "wide": "short"}
"""By what people call the sides of an oval or a rectangle, the keys that they are."""
_SIZES = {
    "too_long": "up to {max_length}",
    "too_short": "one or more",
    "string_too_long": "up to {max_length} characters",
    "string_too_short": "a character or more",
}


def problems_of(details: ErrorDetails, data: object) -> list[Problem]:
    """Put one fault that pydantic found in the ``data`` of a cake into the decorator's words."""
    key: Key = tuple(details["loc"])
    kind = details["type"]
    if kind == RULE:
        return [_rule_problem(key, rule) for rule in details["ctx"]["rules"]]
    if kind == "extra_forbidden":
        return [_unknown_key(key, data)]
    if kind == "missing":
        return [Problem(key, f"no {_name(key)}", _description(key), f"add {_example(key)}")]
    if kind == "literal_error":
        return [_unknown_word(key, details["input"])]
    if kind == "too_short" and details["input"]:  # pydantic counts those without a fault
        return []
    found, advice = quoted(details["input"]), f"write {_example(key)}"
    if kind == "too_long":
        number, name = details["ctx"]["actual_length"], _name(key).replace("_", " ")
        found = f"{number} of them" if name.endswith("s") else counted(number, name)
        advice = "leave some out"
    return [Problem(key, found, _allowed(key, details), advice)]


def _allowed(key: Key, details: ErrorDetails) -> str:
    kind = details["type"]
    if kind in _TABLES:
        return "a table of its own"
    if kind == "tuple_type":
        example = _example(key)
        return f"one or more tables {example}" if example.startswith("[[") else "a list in brackets"
    if kind in _SIZES:
        return _SIZES[kind].format_map(details["ctx"])
    return _ALLOWED.get(kind, details["msg"])


def _rule_problem(key: Key, rule: Broken) -> Problem:
    key = (*key, *rule.at)
    advice = rule.advice or f"write for example {_example(key)}"
    if rule.bare:
        advice = unit_advice(rule.bare, _usual(key))
    return Problem(key, rule.found, rule.allowed, advice, lacks_unit=bool(rule.bare))


def _usual(key: Key) -> str:
    """Return the first length in the example of a key, or the size of a common tin."""
    found = re.search(r'"(\d[^"]* (?:in|cm|mm))"', _example(key))
    return found[1] if found else "8 in"


def _unknown_key(key: Key, data: object) -> Problem:
    known, word = list(keys_of(table_at(key[:-1]))), str(key[-1])
    meant = OF_TWO_SIDES.get(word.lower(), word) if _has_two_sides(key[:-1], data) else word
    below = "" if stands_for(meant, known) else _in_tables_below(key)
    advice = below or hint(meant, known) or "leave it out"
    return Problem(key, f"the unknown key “{clip(word)}”", ", ".join(known), advice)


def _has_two_sides(key: Key, data: object) -> bool:
    """Tell whether the table at a key is a tier of a shape that is longer than it is wide."""
    match key, data:
        case ("tier", int(index)), {"tier": [*tiers]}:
            shape = tiers[index].get("shape")
            return shape in SHAPES and "short" in shape_keys(shape)
    return False


def _in_tables_below(key: Key) -> str:
    """Say in which tables right below its own a key is known, if there are few."""
    path = ".".join(part for part in key[:-1] if isinstance(part, str))
    found = [
        f"[[{name}]]" if info.several else f"[{name}]"
        for info in keys_of(table_at(key[:-1])).values()
        for name in (f"{path}.{info.name}".strip("."),)
        if info.table is not None and key[-1] in keys_of(info.table)
    ]
    return f"write it under {' or '.join(found)}" if 0 < len(found) < 4 else ""


def _unknown_word(key: Key, found: object) -> Problem:
    info = key_at(key)
    words = info.words if info else ()
    spec = hint(found, words, _description(key)) if isinstance(found, str) else ""
    advice = spec or f"write for example {_example(key)}"
    return Problem(key, quoted(found), ", ".join(f"“{word}”" for word in words), advice)


def _name(key: Key) -> str:
    return str(next((part for part in reversed(key) if isinstance(part, str)), ""))


def _description(key: Key) -> str:
    info = key_at(key)
    return info.description if info else ""


def _example(key: Key) -> str:
    info = key_at(key)
    example = (info.example if info else "") or "…"
    return example if info and info.table else f"{_name(key)} = {example}"
