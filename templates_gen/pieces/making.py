"""What a piece is made of, said the same way everywhere: material, thickness, which face is out."""

from __future__ import annotations

from templates_gen.cakefile.tier import Tier
from templates_gen.units import in_both

OUT = "this face is out"
ROLLED_UP = (
    "This face is out; to roll the strip up and unroll it round the cake, turn this over before"
    " you cut"
)
"""A strip that is rolled up and unrolled on the cake shows the face that lay below."""


def fondant(spec: Tier, thick: float) -> str:
    """Name the fondant of a tier rolled so many mm thick: ``white fondant rolled 5 mm thick``."""
    return f"{spec.paste_colour} fondant (sugar paste) rolled {in_both(thick)} thick"
