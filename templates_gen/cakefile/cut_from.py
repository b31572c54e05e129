"""What petals and small pieces are cut from: paste that is rolled, or wafer paper as it is sold."""

from typing import Any, Literal, Protocol

from pydantic import ValidationInfo

from templates_gen.cakefile.fields import about
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.rules import broken
from templates_gen.units import MM_PER_INCH, at_most

Material = Literal["modelling paste", "wafer paper"]
MODELLING, WAFER = "modelling paste", "wafer paper"
SHEET = (8 * MM_PER_INCH, 11 * MM_PER_INCH)
"""The smaller of the sheets of wafer paper that are sold, mm: common practice, no source."""
SOLD = "A4 or 8 × 11 in"
WAFER_THICK = 0.4
"""Thickness of wafer paper, mm, of 0.3 to 0.6: common practice, no source."""
LARGEST = 200.0
"""What is no longer than this fits a sheet either way round, mm."""


class CutOut(Protocol):
    """A table of a cake file of what is cut from either."""

    @property
    def material(self) -> Material:
        """What it is cut from."""

    @property
    def thickness(self) -> Length:
        """How thick paste is rolled for it."""


def cut_from() -> Any:  # noqa: ANN401 (as about)
    """Declare the field that says what something is cut from."""
    return about(
        "what they are cut from: modelling paste, or wafer paper (edible starch paper, in sheets)",
        '"wafer paper"',
        MODELLING,
    )


def on_one_sheet(material: Material, info: ValidationInfo) -> Material:
    """Refuse wafer paper for a ``size`` that its sheets may not hold."""
    size = info.data.get("size")
    if material == WAFER and size is not None and size.mm > LARGEST:
        found, allowed = f"“{material}” for pieces of “{size}”", f"pieces of {at_most(LARGEST)}"
        raise broken(found, allowed, "make the pieces smaller, or cut them from modelling paste")
    return material


def fixed_with(spec: CutOut) -> str:
    """Name what holds it on a cake: common practice, no source."""
    return "piping gel or a little water" if spec.material == WAFER else "royal icing"


def thick_of(spec: CutOut) -> float:
    """Return how thick something is, mm."""
    return WAFER_THICK if spec.material == WAFER else spec.thickness.mm
