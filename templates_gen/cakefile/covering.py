"""What covers a tier: coating, fondant and their thicknesses."""

from typing import Annotated, Literal

from pydantic import ValidationInfo, field_validator

from templates_gen.cakefile.body import Body
from templates_gen.cakefile.fields import about
from templates_gen.cakefile.lengths import Length, length_of
from templates_gen.cakefile.limits import Thickness
from templates_gen.cakefile.rules import AnyLength, Name, Within, broken
from templates_gen.cakefile.shape_keys import BALL

COATING = length_of(5)
DRAPED_PASTE = length_of(4)
PANELLED_PASTE = length_of(5)
NO_COATING = length_of(0)


class Covered(Body):
    """The keys of a tier that say how it is covered."""

    coating: Annotated[AnyLength, Within(0, 50)] | None = about(
        "thickness of the buttercream or ganache under the fondant (default: 5 mm, none"
        " on a dummy)",
        '"5 mm"',
    )
    cover: Literal["drape", "panelled", "none"] = about(
        "how the fondant goes on: drape (one sheet), panelled (top and side separately)"
        " or none (buttercream or ganache only)",
        '"panelled"',
        "drape",
    )
    fondant: Thickness | None = about(
        "thickness of the rolled fondant (default: 4 mm draped, 5 mm panelled)", '"5 mm"'
    )
    fondant_top: Thickness | None = about(
        "panelled tier: thickness of the top disc (default: same as fondant)", '"4 mm"'
    )
    fondant_side: Thickness | None = about(
        "panelled tier: thickness of the wrap, or of panels that replace it (default:"
        " same as fondant)",
        '"5 mm"',
    )
    fondant_lining: Thickness | None = about(
        "thickness of the lining of a hole (default: same as fondant)", '"3 mm"'
    )
    colour: Name | None = about(
        "colour of the fondant, or of the buttercream on a tier without fondant (default: white; in"
        " pictures a pale colour for each tier)",
        '"ivory"',
    )
    first: Literal["top", "side"] = about(
        "panelled tier: whether the top or the side goes on first", '"top"', "top"
    )
    trim: Annotated[AnyLength, Within(0, 150)] = about(
        "extra fondant to cut off after fitting", '"15 mm"', length_of(15)
    )
    strip: Annotated[AnyLength, Within(10, 6000)] | None = about(
        "length of a strip of fondant you plan to use; warns if it is too short to go round",
        '"24 in"',
    )

    @property
    def coating_mm(self) -> float:
        """Thickness of the coating, mm."""
        default = NO_COATING if self.dummy else COATING
        return (self.coating or default).mm

    @property
    def paste_colour(self) -> str:
        """The colour its fondant is rolled in."""
        return self.colour or "white"

    @property
    def paste_mm(self) -> float:
        """Thickness of the paste, mm; 0 for a tier without."""
        if self.cover == "none":
            return 0.0
        default = DRAPED_PASTE if self.cover == "drape" else PANELLED_PASTE
        return (self.fondant or default).mm

    @property
    def has_disc_and_wrap(self) -> bool:
        """Whether top and side are covered apart, so that each can have its own thickness."""
        return self.cover == "panelled" and self.shape != BALL

    @property
    def paste_top_mm(self) -> float:
        """Thickness of the paste on the top, mm."""
        own = self.fondant_top if self.has_disc_and_wrap else None
        return own.mm if own else self.paste_mm

    @property
    def paste_side_mm(self) -> float:
        """Thickness of the paste on the side, mm."""
        own = self.fondant_side if self.has_disc_and_wrap else None
        return own.mm if own else self.paste_mm

    @property
    def paste_lining_mm(self) -> float:
        """Thickness of the paste that lines a hole, mm; 0 for a tier without paste."""
        own = self.fondant_lining if self.cover != "none" else None
        return own.mm if own else self.paste_mm

    @field_validator("fondant", "fondant_top", "fondant_side", "fondant_lining", mode="after")
    @classmethod
    def _fondant_fits(cls, fondant: Length | None, info: ValidationInfo) -> Length | None:
        if fondant is None:
            return None
        if info.data.get("cover") == "none":
            raise broken(
                f"“{fondant}” on a tier without fondant",
                "no fondant",
                f"leave {info.field_name} out, or set cover",
            )
        for name in ("size", "depth"):
            whole = info.data.get(name)
            if whole is not None and fondant.mm * 2 > whole.mm:
                raise broken(
                    f"“{fondant}” of fondant on a tier of {name} “{whole}”",
                    "fondant thinner than half the tier",
                    "check the unit",
                )
        return fondant
