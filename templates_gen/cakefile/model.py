"""The cake as its file describes it: frozen, checked, in the words of the file.

Each field's description, example and bounds are the one source for the command ``keys``, the page,
the options of the one-off commands and the messages about a cake file.
"""

from collections.abc import Iterator, Sequence
from typing import Annotated, Any, Literal, Self

from pydantic import (
    AfterValidator,
    Field,
    StrictBool,
    StrictInt,
    ValidationInfo,
    field_validator,
    model_validator,
)

from templates_gen.cakefile.cutting import Scatter, Topper
from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.estimates import Estimates, Paint
from templates_gen.cakefile.fields import Table as _Asked
from templates_gen.cakefile.fields import about as _about
from templates_gen.cakefile.fields import tables as _tables
from templates_gen.cakefile.inside import Inside
from templates_gen.cakefile.kinds import Templates
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.lettering import Lettering
from templates_gen.cakefile.plans import BALL, plan, plan_faults
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.position import Position
from templates_gen.cakefile.prices import Prices
from templates_gen.cakefile.rules import (
    AnyLength,
    Broken,
    Characters,
    Count,
    Name,
    Note,
    OneOf,
    PaperName,
    Within,
    all_broken,
    broken,
)
from templates_gen.cakefile.slug import alike, tier_slug
from templates_gen.cakefile.supports import Dowels
from templates_gen.cakefile.work import Work
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.svg_path import LONGEST
from templates_gen.terms import UK
from templates_gen.units import counted, in_both

SMALLEST_TIER = 25.0
LARGEST_TIER = 1500.0
MOST_TIERS = 30
"""More than anyone stacks, with room for small dummies: common practice, no source."""
TAKEN = ("drum", "pack")
"""Names that ids of pieces use for what is no tier."""

COATING = Length(5.0, "5 mm")
DRAPED_PASTE = Length(4.0, "4 mm")
PANELLED_PASTE = Length(5.0, "5 mm")
NOTHING = Length(0.0, "0 mm")


Ribbon = Annotated[AnyLength, AfterValidator(Within(1, 200))]
Thickness = Annotated[AnyLength, AfterValidator(Within(0.5, 30))]
BoardThickness = Annotated[AnyLength, AfterValidator(Within(0, 60))]


class Drum(_Asked):
    """The board that carries the whole cake."""

    size: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] | None = _about(
        "width of the drum (default: 4 in wider than the bottom tier, measured corner to corner)",
        '"14 in"',
    )
    shape: Literal["round", "square"] | None = _about(
        "shape of the drum (default: square under a square or rectangular tier, otherwise round)",
        '"square"',
    )
    guide: StrictBool = _about(
        "print a placement guide for the drum",
        "false",
        True,
    )
    ribbon: Ribbon | None = _about("width of the ribbon round the edge of the drum", '"15 mm"')
    thickness: BoardThickness = _about("thickness of the drum", '"12 mm"', Length(12.0, "12 mm"))
    fondant: Thickness | None = _about(
        "thickness of the fondant that covers the drum (default: not covered)", '"3 mm"'
    )
    colour: Name = _about("colour of the fondant on the drum", '"ivory"', "white")


class Panels(_Asked):
    """Moulded or cut panels, evenly round the side in one or more rows."""

    count: Annotated[StrictInt, AfterValidator(Count(1, 400))] | None = _about(
        "number of panels round the tier; their width is worked out. Without count,"
        " per_face, width or mould the panels are about as wide as they are tall",
        "8",
    )
    width: Annotated[AnyLength, AfterValidator(Within(5, LARGEST_TIER))] | None = _about(
        "the panel width you would like, adjusted to fit evenly round", '"60 mm"'
    )
    mould: Annotated[AnyLength, AfterValidator(Within(5, LARGEST_TIER))] | None = _about(
        "length of a panel you already have, for example from a mould; how many fit is worked out",
        '"160 mm"',
    )
    height: Annotated[AnyLength, AfterValidator(Within(2, LARGEST_TIER))] | None = _about(
        "height of a panel (default: the rows share the depth of the side)", '"50 mm"'
    )
    per_face: Annotated[StrictInt, AfterValidator(Count(1, 40))] | None = _about(
        "on a tier with corners: number of panels on each face, from corner to corner", "3"
    )
    corners: Literal["panel", "join"] = _about(
        "with per_face: panel (a panel goes round each corner) or join (two panels meet at it)",
        '"join"',
        "panel",
    )
    rows: Annotated[StrictInt, AfterValidator(Count(1, 40))] = _about(
        "number of rows, one above the other", "2", 1
    )
    joins: Literal["in line", "staggered"] = _about(
        "joins of the rows: in line, or staggered by half a panel like bricks",
        '"staggered"',
        "in line",
    )
    place: Literal["base", "rim"] = _about(
        "base (the rows start at the bottom edge) or rim (they hang from the top edge)",
        '"base"',
        "base",
    )
    front: Literal["panel", "join"] = _about(
        "what is at the front centre of the lowest row: a panel or a join", '"panel"', "panel"
    )
    thickness: Annotated[AnyLength, AfterValidator(Within(0.5, 50))] = _about(
        "thickness of panels placed on top of the covering",
        '"4 mm"',
        Length(4.0, "4 mm"),
    )
    material: Literal["modelling paste", "fondant"] = _about(
        "what panels placed on top of the covering are made of", '"fondant"', "modelling paste"
    )
    colour: Name | None = _about(
        "colour of panels placed on top of the covering (default: the colour of the tier)", '"gold"'
    )
    replace_wrap: StrictBool = _about(
        "the panels cover the side of a panelled tier, with no wrap under them",
        "true",
        False,
    )


DripLength = Annotated[AnyLength, AfterValidator(Within(3, LARGEST_TIER))]


class Drips(_Asked):
    """Drips from the rim, evenly round the tier."""

    spacing: Annotated[AnyLength, AfterValidator(Within(4, 300))] = _about(
        "the distance between drips you would like, adjusted to fit evenly round",
        '"30 mm"',
        Length(30.0, "30 mm"),
    )
    width: Annotated[AnyLength, AfterValidator(Within(2, 60))] = _about(
        "width of a drip", '"10 mm"', Length(10.0, "10 mm")
    )
    shortest: Annotated[AnyLength, AfterValidator(Within(3, LARGEST_TIER))] | None = _about(
        "length of the shortest drip (default: a quarter of the depth)", '"20 mm"'
    )
    longest: Annotated[AnyLength, AfterValidator(Within(3, LARGEST_TIER))] | None = _about(
        "length of the longest drip (default: half the depth)", '"50 mm"'
    )
    pattern: Annotated[str, AfterValidator(OneOf(PATTERNS))] = _about(
        f"how the lengths follow each other: {', '.join(PATTERNS)}", '"wave"', "random"
    )
    waves: Annotated[StrictInt, AfterValidator(Count(1, 60))] | None = _about(
        'with pattern = "wave": number of waves round the tier (default: 5, fewer where'
        " there are few drips)",
        "5",
    )
    shuffle: Annotated[StrictInt, AfterValidator(Count(0, 999_999))] = _about(
        "shuffle number: each number gives different random lengths", "7", 1
    )
    corners: StrictBool = _about(
        "on a tier with corners: one drip at each corner, the others evenly between",
        "true",
        False,
    )
    lengths: tuple[DripLength, ...] | None = Field(
        default=None,
        description='with pattern = "listed": lengths of the drips, from the front to the right,'
        " repeated",
        examples=['["20 mm", "35 mm"]'],
        min_length=1,
        max_length=400,
        strict=False,
    )
    line: Annotated[str, Field(min_length=1, max_length=LONGEST)] | None = _about(
        'with pattern = "drawn": a curve as SVG path data, once round the tier from the'
        " back join; drips are long where the curve is low",
        '"M0 0 C 30 40 70 40 100 0"',
    )
    front: Literal["drip", "gap"] = _about(
        "what is at the front centre: a drip or a gap", '"drip"', "drip"
    )
    guide: Literal["collar", "top edge", "both"] = _about(
        "print the drip guide on: collar (paper round the side), top edge (a ring of"
        " paper for the top) or both",
        '"both"',
        "collar",
    )
    colour: Name | None = _about(
        "colour in pictures (default: chocolate, or gold where they are painted)",
        '"white chocolate"',
    )

    @field_validator("longest", mode="after")
    @classmethod
    def _in_order(cls, longest: Length | None, info: ValidationInfo) -> Length | None:
        shortest = info.data.get("shortest")
        if longest is not None and shortest is not None and longest.mm < shortest.mm:
            raise broken(
                f"“{longest}”, shorter than the shortest drip “{shortest}”",
                f"{in_both(shortest.mm)} or more",
                "swap shortest and longest",
            )
        return longest


class Opening(_Asked):
    """A round hole right through a tier, from side to side. Such a tier is a dummy."""

    radius: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] = Field(
        description="radius of the hole in the bare dummy", examples=['"4 cm"']
    )
    height: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] | None = _about(
        "height of the middle of the hole above the base (default: half the depth)", '"2 in"'
    )
    turn: Annotated[StrictInt, AfterValidator(Count(-90, 90))] = _about(
        "angle of the hole in degrees: its front end moves to the right, with a minus to the left",
        "45",
        0,
    )
    sideways: Annotated[AnyLength, AfterValidator(Within(0, LARGEST_TIER))] = _about(
        "how far the hole is to one side of the middle of the tier", '"1 in"', NOTHING
    )
    to: Literal["left", "right"] = _about(
        "the side it is moved to, seen from the front of the hole", '"right"', "right"
    )
    drips: Literal["shorten", "leave out"] = _about(
        "drips that would run into the hole: shorten them or leave them out",
        '"leave out"',
        "shorten",
    )


class Gores(_Asked):
    """The equal pieces, pointed at the top, that cover a ball side by side."""

    count: Annotated[StrictInt, AfterValidator(Count(4, 24))] = _about(
        "number of gores round the ball", "8", 8
    )
    joins: Literal["edge to edge", "overlapping"] = _about(
        "edge to edge, or overlapping (each gore lies over the next)",
        '"overlapping"',
        "edge to edge",
    )
    overlap: Annotated[AnyLength, AfterValidator(Within(1, 30))] = _about(
        "width of the overlap of overlapping gores", '"5 mm"', Length(5.0, "5 mm")
    )


class Tier(_Asked):
    """One tier, measured bare: the tin, or the dummy."""

    name: Name | None = _about("name of the tier", '"bottom"')
    shape: Annotated[str, AfterValidator(OneOf((*SHAPES, BALL)))] = _about(
        f"shape seen from above: {', '.join(SHAPES)} (an outline of your own); or"
        f" {BALL}: whole if the depth equals the size, otherwise flat-bottomed",
        '"square"',
        "round",
    )
    size: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] = Field(
        description="width of the bare tier: the size of the tin or dummy; the longer way for an"
        " oval, a rectangle or a custom outline, flat side to flat side for a polygon",
        examples=['"8 in"'],
    )
    depth: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] = Field(
        description="depth of the bare tier", examples=['"4 in"']
    )
    short: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] | None = (
        _about("oval or rectangle: width from front to back", '"6 in"')
    )
    sides: Annotated[StrictInt, AfterValidator(Count(3, 12))] | None = _about(
        "polygon: number of sides", "6"
    )
    corner: Annotated[AnyLength, AfterValidator(Within(0, LARGEST_TIER))] | None = _about(
        "square, rectangle or polygon: radius of the corners (default: sharp)",
        '"10 mm"',
    )
    lobes: Annotated[StrictInt, AfterValidator(Count(5, 12))] | None = _about(
        "petal: number of lobes", "6"
    )
    outline: Annotated[str, AfterValidator(Characters(1, 50_000))] | None = _about(
        "custom: one closed curve as SVG path data, the front at the bottom; its longer"
        " way, across or front to back, becomes as long as size",
        '"M0 0 H90 V60 H0 Z"',
    )
    top_size: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] | None = (
        _about("tapered tier: width of the top; size is the width of the base", '"6 in"')
    )
    shallowest_depth: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] | None = (
        _about(
            "sloped top: depth at the shallowest place; depth is the deepest",
            '"3 in"',
        )
    )
    slopes_down_to: Literal["front", "back", "left", "right"] = _about(
        "sloped top: the side it slopes down to", '"front"', "front"
    )
    opening: Opening | None = _about("a round hole right through a dummy", "[tier.opening]")
    gores: Gores = _about("how the fondant for a panelled ball is cut", "[tier.gores]", Gores())
    dummy: StrictBool = _about(
        "a polystyrene dummy, not cake: no coating unless you give one", "true", False
    )
    coating: Annotated[AnyLength, AfterValidator(Within(0, 50))] | None = _about(
        "thickness of the buttercream or ganache under the fondant (default: 5 mm, none"
        " on a dummy)",
        '"5 mm"',
    )
    cover: Literal["drape", "panelled", "none"] = _about(
        "how the fondant goes on: drape (one sheet), panelled (top and side separately)"
        " or none (buttercream or ganache only)",
        '"panelled"',
        "drape",
    )
    fondant: Thickness | None = _about(
        "thickness of the rolled fondant (default: 4 mm draped, 5 mm panelled)", '"5 mm"'
    )
    fondant_top: Thickness | None = _about(
        "panelled tier: thickness of the top disc (default: same as fondant)", '"4 mm"'
    )
    fondant_side: Thickness | None = _about(
        "panelled tier: thickness of the wrap, or of panels that replace it (default:"
        " same as fondant)",
        '"5 mm"',
    )
    fondant_lining: Thickness | None = _about(
        "thickness of the lining of a hole (default: same as fondant)", '"3 mm"'
    )
    colour: Name | None = _about(
        "colour of the fondant, or of the buttercream on a tier without fondant (default: white; in"
        " pictures a pale colour for each tier)",
        '"ivory"',
    )
    first: Literal["top", "side"] = _about(
        "panelled tier: whether the top or the side goes on first", '"top"', "top"
    )
    trim: Annotated[AnyLength, AfterValidator(Within(0, 150))] = _about(
        "extra fondant to cut off after fitting", '"15 mm"', Length(15.0, "15 mm")
    )
    strip: Annotated[AnyLength, AfterValidator(Within(10, 6000))] | None = _about(
        "length of a strip of fondant you plan to use; warns if it is too short to go round",
        '"24 in"',
    )
    board: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] | None = _about(
        "width of the board under the tier (default: the size of the tier)", '"8 in"'
    )
    ribbon: Ribbon | None = _about("width of the ribbon round the base of the tier", '"15 mm"')
    board_thickness: BoardThickness = _about(
        "thickness of the board under the tier; 0 for none", '"4 mm"', Length(3.0, "3 mm")
    )
    inside: Inside = _about(
        "the inside of a tier of cake: kind of cake, layers, filling", "[tier.inside]", Inside()
    )
    dowels: Dowels | None = _about(
        "dowels in this tier that support the one above (default: by rule of thumb)",
        "[tier.dowels]",
    )
    position: Position = _about(
        "where the tier stands on the one below (default: in the middle)",
        "[tier.position]",
        Position(),
    )
    rolling_out_circle: StrictBool = _about(
        "print the rolling-out circle of a draped tier in full; otherwise the circle"
        " guide draws it",
        "true",
        False,
    )
    print: Literal["few", "whole", "none"] | None = _about(
        "how this tier is printed: few, whole or none (no pages); default: the same as"
        " the whole cake",
        '"whole"',
    )
    panels: Panels | None = _about("panels round the side", "[tier.panels]")
    drips: Drips | None = _about("drips from the top edge", "[tier.drips]")
    design: tuple[Design, ...] = _tables("designs repeated round the side", "[[tier.design]]")
    lettering: tuple[Lettering, ...] = _tables("names and messages", "[[tier.lettering]]")
    paint: Paint | None = _about("lustre paint on dry fondant", "[tier.paint]")
    scatter: tuple[Scatter, ...] = _tables(
        "small pieces scattered over the side", "[[tier.scatter]]"
    )

    @property
    def coating_mm(self) -> float:
        """Thickness of the coating, mm."""
        default = NOTHING if self.dummy else COATING
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

    @property
    def plan(self) -> dict[str, Any]:
        """What the shape of the tier is made from: lengths in mm, counts, path data."""
        return plan(self)

    @model_validator(mode="after")
    def _has_a_plan(self) -> Self:
        rules = plan_faults(self)
        if rules:
            raise all_broken(rules)
        return self

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

    @field_validator("panels", mode="after")
    @classmethod
    def _panels_fit(cls, panels: Panels | None, info: ValidationInfo) -> Panels | None:
        if panels is not None:
            cover, depth = info.data.get("cover", "panelled"), info.data.get("depth")
            rules = [*_measures(panels), *_replacing(panels, cover), *_height(panels, depth)]
            if rules:
                raise all_broken(rules)
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
        if drips is None or depth is None:
            return drips
        rules = [
            Broken(
                f"“{length}” on a tier “{depth}” deep",
                f"up to the depth of the tier, {in_both(depth.mm)}",
                "shorten the drips",
                (name,),
            )
            for name in ("shortest", "longest")
            if (length := getattr(drips, name)) is not None and length.mm > depth.mm
        ]
        if rules:
            raise all_broken(rules)
        return drips


MEASURES = ("count", "per_face", "width", "mould")
"""Ways to say how wide panels are."""


def _measures(panels: Panels) -> Iterator[Broken]:
    given = [name for name in MEASURES if getattr(panels, name) is not None]
    if len(given) > 1:
        yield Broken(
            " and ".join(given),
            "one of count, per_face, width and mould",
            "leave out all but one",
            (given[-1],),
        )


def _replacing(panels: Panels, cover: str) -> Iterator[Broken]:
    if panels.replace_wrap and cover != "panelled":
        yield Broken(
            f"panels in place of the wrap of a tier with cover = “{cover}”",
            "replace_wrap = true on a panelled tier only",
            'write cover = "panelled", or leave replace_wrap out',
            ("replace_wrap",),
        )


def _height(panels: Panels, depth: Length | None) -> Iterator[Broken]:
    height, rows = panels.height, panels.rows
    if depth is not None and height is not None and height.mm * rows > depth.mm:
        yield Broken(
            f"{rows} of “{height}” on a tier “{depth}” deep",
            f"up to {in_both(depth.mm / rows)} a panel",
            "use lower panels or fewer rows",
            ("height",),
        )


def _names(tiers: Sequence[Tier]) -> tuple[str, ...]:
    """Return what each tier is called: its name, or its place from the bottom."""
    return tuple(tier.name or f"tier {n}" for n, tier in enumerate(tiers, 1))


def _names_taken(names: Sequence[str]) -> Iterator[Broken]:
    taken = {name: name for name in TAKEN}
    for index, name in enumerate(names):
        like = alike(tier_slug(name, index))
        if like in taken:
            other = taken[like]
            yield Broken(
                f"“{name}”, which is {'taken' if name == other else f'too like “{other}”'}",
                "a name of its own for each tier, whatever its capitals, accents and signs"
                f" ({' and '.join(TAKEN)} are taken)",
                "give the tier another name",
                (index, "name"),
            )
        taken.setdefault(like, name)


class Cake(_Asked):
    """A whole cake: tiers from the bottom up, on a drum."""

    title: Name = _about("printed on every page", '"Orchard wedding"', "Cake")
    note: Note = _about("a line for the cover page", '"Delivery Saturday"', "")
    unit: Literal["in", "cm", "mm"] | None = _about(
        "unit of numbers without a unit in this file", '"in"'
    )
    words: Literal["uk", "us"] = _about(
        "words and spelling of what is printed: uk (colour, mould) or us (color, mold)",
        '"us"',
        UK,
    )
    paper: PaperName = _about(
        "the paper in your printer: a4, letter, legal, a3, tabloid, both (one layout for a4 and"
        " letter), a larger one of the series a, ansi or arch, a size, or a roll by its width",
        '"letter"',
        "a4",
    )
    margin_sides: Annotated[AnyLength, AfterValidator(Within(0, 40))] = _about(
        "unprintable margin at the sides of the page", '"7 mm"', Length(7.0, "7 mm")
    )
    margin_ends: Annotated[AnyLength, AfterValidator(Within(0, 40))] = _about(
        "unprintable margin at the top and bottom of the page", '"15 mm"', Length(15.0, "15 mm")
    )
    printer: Name | None = _about(
        "name of a measured printer, so that pages come out true to size on it (see templates-gen"
        " printer; default: nothing is scaled)",
        '"kitchen"',
    )
    print: Literal["few", "whole"] = _about(
        "few (as few pages as possible: templates cut on folded parchment, tapes and"
        " sizes) or whole (every template in full)",
        '"whole"',
        "few",
    )
    templates: Templates = _about(
        "how much is printed of each kind of template, whatever print says",
        "[templates]",
        Templates(),
    )
    drum: Drum = _about("the board under the whole cake", "[drum]", Drum())
    portions: Portions | None = _about("guides for cutting the cake into portions", "[portions]")
    estimates: Estimates = _about("what the quantities are based on", "[estimates]", Estimates())
    work: Work = _about("when the cake must be ready, and your working hours", "[work]", Work())
    prices: Prices = _about("prices for the shopping list", "[prices]", Prices())
    through_dowel: StrictBool = _about(
        "one long dowel through all tiers into the drum, for tall cakes or cakes that travel",
        "true",
        False,
    )
    tier: tuple[Tier, ...] = Field(
        description="the tiers, from the bottom up", examples=["[[tier]]"], strict=False
    )
    topper: tuple[Topper, ...] = _tables("what stands on top of the cake", "[[topper]]")

    @property
    def names(self) -> tuple[str, ...]:
        """What each tier is called: its name, or its place from the bottom."""
        return _names(self.tier)

    @field_validator("tier", mode="after")
    @classmethod
    def _some_tiers(cls, tiers: tuple[Tier, ...]) -> tuple[Tier, ...]:
        if not 1 <= len(tiers) <= MOST_TIERS:
            advice = (
                "leave some out, or make two cakes"
                if tiers
                else "add a tier: [[tier]], size, depth"
            )
            raise broken(counted(len(tiers), "tier"), f"1 to {MOST_TIERS}", advice)
        rules = list(_names_taken(_names(tiers)))
        if rules:
            raise all_broken(rules)
        return tiers
