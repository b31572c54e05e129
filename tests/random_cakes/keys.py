"""Every key that a cake file may hold, read from the models, and those that given values hold."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake

Spot = tuple[str, ...]
"""A key with those it stands in, and for a choice of words one of the words."""


def every_spot(model: type[BaseModel] = Cake) -> Iterator[Spot]:
    """Yield every key of a model and of the tables in it, and every word of a choice of words."""
    for name, info in model.model_fields.items():
        yield (name,)
        for part in _parts(info.annotation):
            if isinstance(part, type) and issubclass(part, BaseModel):
                yield from ((name, *spot) for spot in every_spot(part))
            elif get_origin(part) is Literal:
                yield from ((name, word) for word in get_args(part))


def _parts(annotation: Any) -> Iterator[Any]:  # noqa: ANN401 (any annotation)
    """Yield what an annotation is made of, itself included."""
    yield annotation
    if get_origin(annotation) is not Literal:
        for each in get_args(annotation):
            yield from _parts(each)


def spots_in(values: object, choices: Collection[Spot], above: Spot = ()) -> Iterator[Spot]:
    """Yield every key that the values of a cake file hold, and the words of its choices."""
    if isinstance(values, Mapping):
        for name, value in values.items():
            spot = (*above, name)
            yield spot
            if isinstance(value, str) and (*spot, value) in choices:
                yield (*spot, value)
            yield from spots_in(value, choices, spot)
    elif isinstance(values, list):
        for value in values:
            yield from spots_in(value, choices, above)
