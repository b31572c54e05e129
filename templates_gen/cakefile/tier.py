"""One tier of the cake file: its body, its covering, and what stands on and in it."""

import math
from collections.abc import Iterator
from typing import Annotated, Literal, Self

from pydantic import StrictBool, ValidationInfo, field_validator, model_validator

from templates_gen.cakefile.body_rules import body_errors
from templates_gen.cakefile.carving import Carving
from templates_gen.cakefile.comb import LEFT, Comb
from templates_gen.cakefile.covering import Covered
from templates_gen.cakefile.cutting import Scatter
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.drips import Drips, drip_errors
from templates_gen.cakefile.fields import about, tables
from templates_gen.cakefile.inside import Inside
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.lettering import Lettering
from templates_gen.cakefile.limits import LARGEST_TIER, BoardThickness, Ribbon
from templates_gen.cakefile.paint import Paint
from templates_gen.cakefile.panels import Panels, panel_errors
from templates_gen.cakefile.position import Position
from templates_gen.cakefile.rules import AnyLength, Broken, Within, broken, require_none
from templates_gen.cakefile.run_out import RunOut
from templates_gen.cakefile.shape_keys import BALL
from templates_gen.cakefile.supports import Dowels, Separator
from templates_gen.drawing.designs import design_word
from templates_gen.units import at_least, at_most, counted, in_both, numbered_name

_NOT_ON_A_BALL = (
    "top_size",
    "shallowest_depth",
    "opening",
    "panels",
    "drips",
    "design",
    "lettering",
    "scatter",
    "comb",
    "run_out",
)

_DECORATION = ("panels", "drips", "comb", "run_out", "design", "lettering", "paint", "scatter")

CARD, PLATE = length_of(3), length_of(12)
"""Boards under a tier, and under one that is raised: common practice, no source."""


class Tier(Covered):
    """One tier, measured bare: the tin, or the dummy."""

    board: Annotated[AnyLength, Within(10, LARGEST_TIER)] | None = about(
        "width of the board under the tier (default: the size of the tier)", '"8 in"'
    )
    ribbon: Ribbon | None = about("width of the ribbon round the base of the tier", '"15 mm"')
    board_thickness: BoardThickness | None = about(
        "thickness of the board under the tier; 0 for none (default: 3 mm, 12 mm under a raised"
        " tier, none under a dummy on the drum or on another dummy)",
        '"4 mm"',
    )
    raised: Annotated[AnyLength, Within(10, 600)] | None = about(
        "how high the tier stands above the one below, on pillars or a hidden spacer", '"3 in"'
    )
    separator: Separator = about(
        "what a raised tier stands on (default: pillars)", "[tier.separator]", Separator()
    )
    board_template: StrictBool = about(
        "print a template to saw the board under the tier", "true", False
    )
    inside: Inside = about(
        "the inside of a tier of cake: kind of cake, layers, filling", "[tier.inside]", Inside()
    )
    carving: Carving | None = about(
        "guides to carve the tier from cakes of ordinary tins", "[tier.carving]"
    )
    dowels: Dowels | None = about(
        "dowels in this tier that support the one above (default: by rule of thumb)",
        "[tier.dowels]",
    )
    position: Position = about(
        "where the tier stands on the one below (default: in the middle)",
        "[tier.position]",
        Position(),
    )
    rolling_out_circle: StrictBool = about(
        "print the rolling-out circle of a draped tier in full; otherwise the circle"
        " guide draws it",
        "true",
        False,
    )
    print: Literal["few", "whole", "none"] | None = about(
        "how this tier is printed: few, whole or none (no pages); default: the same as"
        " the whole cake",
        '"whole"',
    )
    panels: Panels | None = about("panels round the side", "[tier.panels]")
    drips: Drips | None = about("drips from the top edge", "[tier.drips]")
    comb: Comb | None = about("a scraper that shapes the buttercream of the side", "[tier.comb]")
    run_out: RunOut | None = about(
        "a collar of royal icing that lies on the rim and reaches out", "[tier.run_out]"
    )
    design: tuple[Design, ...] = tables("designs repeated round the side", "[[tier.design]]")
    lettering: tuple[Lettering, ...] = tables("names and messages", "[[tier.lettering]]")
    paint: Paint | None = about("lustre paint on dry fondant", "[tier.paint]")
    scatter: tuple[Scatter, ...] = tables(
        "small pieces scattered over the side", "[[tier.scatter]]"
    )

    def lettering_name(self, index: int) -> str:
        """Return what a lettering is called: by its number, where there are several."""
        return numbered_name("lettering", index + 1, len(self.lettering))

    def letters_name(self, index: int) -> str:
        """Return what the letters to cut of a lettering are called."""
        return numbered_name("letters", index + 1, len(self.lettering))

    def scatter_name(self, index: int) -> str:
        """Return what the small pieces of a table are called."""
        return numbered_name("small pieces", index + 1, len(self.scatter))

    def design_name(self, index: int) -> str:
        """Return what a design is called: by its kind, and its number where there are several."""
        word = design_word(self.design[index].kind)
        several = len(self.design) > 1
        return f"{word} (design {index + 1})" if several else word

    def colour_of(self, part: Panels | Design) -> str:
        """Return the colour of something cut for the tier: its own, else that of the fondant."""
        return part.colour or self.paste_colour

    @property
    def part_depth_mm(self) -> float:
        """Depth of each of the cakes that a tier with boards inside is built of, mm."""
        boards = self.inside.inner_boards
        return (self.depth.mm - boards * CARD.mm) / (boards + 1)

    @property
    def board_thickness_mm(self) -> float:
        """Thickness of the board under the tier, mm; pillars need a stiff one.

        A dummy is stuck straight onto what is below: common practice, no source.
        """
        if self.board_thickness is not None:
            return self.board_thickness.mm
        if self.raised:
            return PLATE.mm
        return 0.0 if self.dummy and not (self.board or self.board_template) else CARD.mm

    def on(self, lower: Self | None) -> Self:
        """Return the tier as it stands on another: a dummy on cake has a card.

        Dowels would press into polystyrene, and it should not touch the cake: our choice.
        """
        stands_on_cake = self.dummy and lower is not None and not lower.dummy
        if not stands_on_cake or self.board_thickness is not None or self.board_thickness_mm:
            return self
        return self.model_copy(update={"board_thickness": CARD})

    @property
    def undecorated(self) -> Self:
        """The tier without what is on its side and top: all that others stand on."""
        usual = {key: type(self).model_fields[key].default for key in _DECORATION}
        return self.model_copy(update=usual)

    @model_validator(mode="after")
    def _keys_agree(self) -> Self:
        checks = body_errors, _errors_of_decoration, _errors_inside, _errors_of_comb
        require_none(rule for check in checks for rule in check(self))
        return self

    @field_validator("panels", mode="after")
    @classmethod
    def _panels_fit(cls, panels: Panels | None, info: ValidationInfo) -> Panels | None:
        if panels is not None:
            cover, depth = info.data.get("cover", "panelled"), info.data.get("depth")
            require_none(panel_errors(panels, cover, depth))
        return panels

    @field_validator("paint", mode="after")
    @classmethod
    def _something_to_paint(cls, paint: Paint | None, info: ValidationInfo) -> Paint | None:
        lacks = paint is not None and paint.on in ("drips", "panels")
        if paint is not None and lacks and info.data.get(paint.on) is None:
            raise broken(
                f"paint on the {paint.on} of a tier without {paint.on}",
                "something that the tier has",
                f"add [tier.{paint.on}], or say what is painted: on = “side”",
                ("on",),
            )
        return paint

    @field_validator("drips", mode="after")
    @classmethod
    def _drips_fit(cls, drips: Drips | None, info: ValidationInfo) -> Drips | None:
        depth = info.data.get("depth")
        require_none(drip_errors(drips, depth) if drips and depth else ())
        return drips


SHALLOWEST_PART = 25.0
"""The least depth of one of the cakes that a tier is built of, mm: common practice, no source."""


def _errors_of_comb(tier: Tier) -> Iterator[Broken]:
    """Yield why a coating cannot be combed."""
    comb = tier.comb
    if comb is None or tier.cover != "none":
        return
    most = tier.coating_mm - LEFT
    if comb.groove.mm > most + 1e-9:
        yield Broken(
            f"grooves “{comb.groove}” deep in a coating of {in_both(tier.coating_mm)}",
            f"up to {at_most(max(most, 0.0))}",
            f'write coating = "{math.ceil(comb.groove.mm + LEFT)} mm" or more',
            ("comb", "groove"),
        )
    if comb.profile == "contour" and comb.line is None:
        allowed = "a line, as SVG path data from the top edge to the base"
        advice = 'add line = "M0 0 C 30 40 70 40 100 0"'
        yield Broken("contour and no line", allowed, advice, ("comb", "profile"))


def _errors_inside(tier: Tier) -> Iterator[Broken]:
    """Yield why a tier cannot be built with boards inside."""
    boards, key = tier.inside.inner_boards, ("inside", "inner_boards")
    if not boards or tier.dummy:
        return
    found = f"{counted(boards, 'board')} inside a tier"
    if tier.carving is not None and not tier.has_own_tin:
        allowed = "a tier baked in a tin of its size: carving guides have their own boards"
        yield Broken(f"{found} that is carved", allowed, "leave it out", key)
    if tier.shape == BALL:
        yield Broken(f"{found} that is a ball", "a tier with a level top", "leave it out", key)
    if tier.part_depth_mm < SHALLOWEST_PART:
        allowed = f"cakes {at_least(SHALLOWEST_PART)} deep or more between the boards"
        yield Broken(f"{found} “{tier.depth}” deep", allowed, "use fewer boards", key)
    highest = tier.depth.mm - tier.part_depth_mm
    low = tier.shallowest_depth
    if low is not None and highest >= low.mm:
        allowed = "boards below the shallowest depth"
        yield Broken(f"{found} with a sloped top “{low}” deep", allowed, "leave it out", key)
    layers = tier.inside.layers
    if layers is not None and layers <= boards:
        allowed = f"{boards + 1} or more: a layer between all boards"
        yield Broken(f"{counted(layers, 'layer')}, {found}", allowed, "use more layers", key)


def _errors_of_decoration(tier: Tier) -> Iterator[Broken]:
    """Yield what a tier of its shape or with its sloped top cannot have."""
    if tier.shape == BALL:
        for key in _NOT_ON_A_BALL:
            if getattr(tier, key):
                allowed = "a tier with an upright side"
                yield Broken(f"{key} on a ball", allowed, "leave it out", (key,))
    if tier.shallowest_depth is None:
        return
    if tier.drips is not None and tier.drips.guide != "collar":
        yield Broken(
            f"“{tier.drips.guide}” for drips on a sloped top",
            "the collar",
            'write guide = "collar"',
            ("drips", "guide"),
        )
    if tier.run_out is not None:
        allowed, advice = "a level top", "leave run_out or shallowest_depth out"
        yield Broken("a run-out collar on a sloped top", allowed, advice, ("run_out",))
    if tier.panels is not None:
        yield Broken(
            "panels on a tier with a sloped top",
            "panels on a side that is as deep all round",
            "leave panels or shallowest_depth out",
            ("panels",),
        )
