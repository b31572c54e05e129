"""What a piece is made of, said the same way everywhere: material, thickness, which face is out."""

from __future__ import annotations

from templates_gen.cakefile.cut_from import MODELLING, WAFER, CutOut
from templates_gen.cakefile.tier import Tier
from templates_gen.units import in_both

PRINT_UP, PRINT_OUT = "print side up", "print side out"
OUT = "this face out"
ROLLED_UP = f"{OUT} (if you roll the strip up to put it on, turn this over to cut it)"
"""A strip that is rolled up and unrolled on the cake shows the face that lay below."""


def fondant(spec: Tier, thick: float) -> str:
    """Name the fondant of a tier rolled so many mm thick: ``white fondant rolled 5 mm thick``."""
    return rolled(spec.paste_colour, "fondant (sugar paste)", thick)


def rolled(colour: str, paste: str, thick: float) -> str:
    """Name a paste rolled so many mm thick."""
    return f"{colour} {paste} rolled {in_both(thick)} thick"


def cut_from(spec: CutOut, colour: str) -> str:
    """Name what petals or small pieces of a colour are cut from."""
    if spec.material == WAFER:
        return f"dry {colour} wafer paper"
    return rolled(colour, MODELLING, spec.thickness.mm)
