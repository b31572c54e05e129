"""Pleats: a strip laid in folds, with a line where each is folded."""

from __future__ import annotations

from typing import Literal

from templates_gen.drawing.designs.motif import Cell, Hung, Motif
from templates_gen.geometry.path import line


def pleats(cell: Cell, *, form: Literal["knife", "box"] = "knife") -> Motif:
    """Return the folds of one pleat as wide as the repeat, from the top of the band to its foot.

    Knife: all folds lie one way. Box: two folds turn away from each other.
    """
    folds = (0.0,) if form == "knife" else (0.0, cell.width)
    paths = tuple(line((x, 0.0), (x, cell.height)) for x in folds)
    hung = (Hung(0.0, cell.height),)
    return Motif(paths, levels=(0.0, cell.height), hung=hung)
