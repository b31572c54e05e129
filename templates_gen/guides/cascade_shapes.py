"""The pieces that a garland or cascade is made of, one of each size."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.cakefile.cascades import Cascade
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.guides.cutting import cutout


@dataclass(frozen=True, slots=True)
class Shape:
    """A piece of one size: its outline, y up about (0, 0), and how far it reaches from there."""

    outline: Path
    radius: float


def shapes_of(spec: Cascade) -> tuple[Shape, ...]:
    """Return the pieces of a cascade, one of each size. Raises CakeError at ``file``."""
    outlines = [cutout(spec.shape, spec.file, size.mm) for size in spec.sizes]
    return tuple(Shape(each, _reach(each)) for each in outlines)


def _reach(path: Path) -> float:
    return max(math.hypot(x, y) for points, _ in sampled(path) for x, y in points)
