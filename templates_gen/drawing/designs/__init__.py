"""The table of designs: what can be repeated round a side. One function and one line each.

A design is a function from the cell of one repeat to its motif. The names of its keyword
parameters are the keys of [[tier.design]] that it takes: lengths in mm, whole numbers, words.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from inspect import Parameter, signature
from typing import get_args, get_type_hints

from templates_gen.drawing.designs.arches import arches
from templates_gen.drawing.designs.artwork import artwork
from templates_gen.drawing.designs.bands import bands
from templates_gen.drawing.designs.bows import bows
from templates_gen.drawing.designs.chevrons import chevrons
from templates_gen.drawing.designs.diamonds import diamonds
from templates_gen.drawing.designs.edges import fault, geode
from templates_gen.drawing.designs.fringe import fringe
from templates_gen.drawing.designs.lace import lace
from templates_gen.drawing.designs.motif import Motif
from templates_gen.drawing.designs.pearls import pearls
from templates_gen.drawing.designs.pleats import pleats
from templates_gen.drawing.designs.ruffles import ruffles
from templates_gen.drawing.designs.scallops import scallops
from templates_gen.drawing.designs.shells import shells
from templates_gen.drawing.designs.stripes import stripes
from templates_gen.drawing.designs.swags import swags
from templates_gen.drawing.designs.waves import waves


@dataclass(frozen=True, slots=True)
class CutStrip:
    """How a design is cut in strips: usual length over finished length, lap of a join in mm.

    Fullness: common practice, no source, but for knife and box pleats, whose cloth lies threefold;
    0 for strips that are not gathered. A mat comes in one length and is laid edge to edge.
    """

    fullness: float = 1.0
    lap: float = 5.0
    is_mat: bool = False

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys of a design that it takes."""
        if self.is_mat:
            return ("strip",)
        return ("fullness", "strip", "thickness") if self.fullness else ("thickness",)


@dataclass(frozen=True)
class DesignKind:
    """A design: what draws it, and the usual width of a repeat in mm; None if it runs all round.

    One of ``true_size`` keeps its size on every side; others follow the side. What is not cut in
    strips is piped along its lines, or as ``solid`` shells in them, or set as ``balls`` of paste at
    its circles; ``edges`` are cut.
    On paper it is called by its ``word`` where the cake file has a shorter one.
    """

    draw: Callable[..., Motif]
    repeat: float | None
    true_size: bool = False
    strip: CutStrip | None = None
    balls: bool = False
    edges: bool = False
    solid: bool = False
    word: str = ""

    @cached_property
    def own(self) -> tuple[str, ...]:
        """The keys that its drawing takes."""
        parameters = signature(self.draw).parameters.values()
        return tuple(each.name for each in parameters if each.kind is Parameter.KEYWORD_ONLY)

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """The keys it takes."""
        repeats = ("width", "count", "start", "per") if self.repeat else ()
        return (*self.own, *repeats, *(self.strip.keys if self.strip else ()))

    @cached_property
    def forms(self) -> tuple[str, ...]:
        """The forms it comes in, the usual one first; none where it has only one."""
        return get_args(get_type_hints(self.draw).get("form"))


DESIGNS: Mapping[str, DesignKind] = {
    "bands": DesignKind(bands, None),
    "stripes": DesignKind(stripes, 30.0),
    "scallops": DesignKind(scallops, 50.0),
    "swags": DesignKind(swags, 80.0),
    "diamonds": DesignKind(diamonds, 35.0),
    "chevrons": DesignKind(chevrons, 40.0),
    "waves": DesignKind(waves, 60.0),
    "arches": DesignKind(arches, 45.0),
    "pearls": DesignKind(pearls, 25.0, balls=True),
    "shells": DesignKind(shells, 15.0, solid=True),
    "ruffles": DesignKind(ruffles, None, strip=CutStrip(2.0)),
    "pleats": DesignKind(pleats, 15.0, strip=CutStrip(3.0)),
    "fringe": DesignKind(fringe, None, strip=CutStrip()),
    "lace": DesignKind(lace, None, strip=CutStrip(lap=0.0, is_mat=True)),
    "bows": DesignKind(bows, 90.0, strip=CutStrip(0.0)),
    "fault": DesignKind(fault, None, edges=True, word="fault line"),
    "geode": DesignKind(geode, 120.0, true_size=True, edges=True),
    "artwork": DesignKind(artwork, 50.0, true_size=True),
}
"""By the word the cake file has for it. Usual widths: common practice, no source."""


def design_word(kind: str) -> str:
    """Return what a kind of design is called on paper."""
    return DESIGNS[kind].word or kind
