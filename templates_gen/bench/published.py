"""What published tables say of fondant for round tiers, beside what is worked out here."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from templates_gen.bench.paste import Paste
from templates_gen.bench.rolled import FONDANT
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.units import GRAMS_PER_POUND as POUND
from templates_gen.units import MM_PER_INCH

DEEP = 4 * MM_PER_INCH
"""How deep the tiers of the tables are, mm."""
NEAR = 6.0
"""How far from the depth and the width in a table a tier may be to be compared with it, mm."""
TABLES: Mapping[str, Mapping[int, float]] = {
    "a repost “from my cake decorating books”, 2021, 3 to 5 mm thick": {
        4: 350, 6: 550, 8: 750, 10: 950, 12: 1100, 14: 1300,
    },
    "simplycakedecorating.com": {
        4: 0.75 * POUND, 6: POUND, 8: 1.5 * POUND, 10: 2 * POUND, 12: 3 * POUND, 14: 4 * POUND,
    },
    "sfcakedec.co.uk, 4 mm thick": {6: 500, 8: 900, 10: 1250, 12: 1850, 14: 2750},
}  # fmt: skip
"""Grams of fondant for rounds 4 in deep, by inches across. They disagree by 1.7 at 12 in."""


@dataclass(frozen=True, slots=True)
class Compared:
    """The least and the most fondant that tables give a tier, and what is weighed for it here, g.

    ``left`` of that comes back as offcuts.
    """

    tier: str
    inches: int
    least: float
    most: float
    weighed: float
    left: float


def band(inches: int) -> tuple[float, float]:
    """Return the least and the most grams of the tables for a round 4 in deep."""
    found = [table[inches] for table in TABLES.values() if inches in table]
    return min(found), max(found)


def compared(stack: DecoratedStack, pastes: Sequence[Paste]) -> Iterator[Compared]:
    """Yield each tier that the tables have, beside the fondant that is weighed for it."""
    for tier in stack.tiers:
        inches = _in_tables(tier)
        own = [each for each in pastes if each.tier == tier.name and each.kind == FONDANT]
        if inches is not None and own:
            mass, left = sum(each.mass for each in own), sum(each.offcuts for each in own)
            yield Compared(tier.name, inches, *band(inches), mass, left)


def _in_tables(tier: DecoratedTier) -> int | None:
    """Return the inches across of a covered round of 4 in as the tables have it, else None."""
    bare = tier.bare
    if tier.spec.cover == "none" or bare.rim.radius is None or bare.is_tapered or bare.fall:
        return None
    if not tier.lies_flat or abs(bare.depth - DEEP) > NEAR:
        return None
    sizes = sorted({inches for table in TABLES.values() for inches in table})
    return next((n for n in sizes if abs(bare.rim.across - n * MM_PER_INCH) <= NEAR), None)
