"""A printer that was measured: what it makes of a length each way, and what it leaves blank."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.cakefile.lengths import Length, LengthError, parse_two
from templates_gen.cakefile.papers import Margins
from templates_gen.units import decimal

BAR = 150.0
"""Length of the two bars of page 1 and of the check sheet, mm."""
SMALL_BAR = 100.0
"""Length of the two bars of all later pages, mm: too short to measure a printer by."""
LEAST, MOST = 0.97, 1.03
"""What a printer that is set to 100 % may make of a length of 1; beyond it a setting is wrong."""
ALLOWED = (
    "the two bars as you measured them, across the page x up the page, such as"
    f" “149.2 x 150.6”: {decimal(BAR * LEAST, 1)} to {decimal(BAR * MOST, 1)} mm each"
)
MEASURE = (
    f"measure both bars of {decimal(BAR)} mm on page 1, and write what they read, across the page"
    " first"
)
_SHRUNK = "“fit to page” or “shrink oversized pages” was on"
_ENLARGED = "borderless printing or “fit to page” was on"
_AGAIN = "print it again at 100 % (actual size) and measure both bars of 150 mm"
_FITTED, _FILLED = 0.85, 1.15
"""What “fit to page” leaves of a length, or borderless printing makes of it, at most."""


@dataclass(frozen=True, slots=True)
class Printer:
    """A printer by its ``name``: what it makes of 1 mm ``across`` the page and ``up`` the page.

    Upright paper is meant: across is along the short edge. A margin, in mm, is None where that of
    the cake holds.
    """

    name: str
    across: float
    up: float
    margin_sides: float | None = None
    margin_ends: float | None = None

    def margins(self, others: Margins) -> Margins:
        """Return what it leaves blank, or the other margins where that is not known."""
        return Margins(
            others.sides if self.margin_sides is None else self.margin_sides,
            others.ends if self.margin_ends is None else self.margin_ends,
        )


def measured(name: str, text: str, sides: Length | None, ends: Length | None) -> Printer:
    """Return a printer from what was measured on its check sheet: ``149.2 x 150.6``.

    Raises LengthError for a text that is no two lengths, and where the scale is not one of a
    printer set to 100 %, with the likely cause.
    """
    try:
        lengths = parse_two(text, "mm")
    except LengthError as error:
        raise LengthError(error.found, ALLOWED) from None
    across, up = (length.mm / BAR for length in lengths)
    worst = max(across, up, key=lambda scale: abs(scale - 1))
    if not LEAST <= worst <= MOST:
        found = f"“{text}”: a bar of {decimal(BAR)} mm printed at {decimal(100 * worst, 1)} %"
        raise LengthError(found, ALLOWED, _advice(worst))
    margins = (None if length is None else length.mm for length in (sides, ends))
    return Printer(name, across, up, *margins)


def _advice(scale: float) -> str:
    """Say what is likely to have been wrong where a bar came out so much too long or short."""
    if _FITTED <= scale < 1:
        return f"{_SHRUNK}: {_AGAIN}"
    if 1 < scale <= _FILLED:
        return f"{_ENLARGED}: {_AGAIN}"
    if LEAST <= scale * BAR / SMALL_BAR <= MOST:
        return f"this is a bar of {decimal(SMALL_BAR)} mm: {MEASURE}"
    return f"this is no bar of 150 mm, or another unit, such as “14.92 cm x 15.06 cm”: {_AGAIN}"
