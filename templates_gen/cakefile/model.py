"""The cake as the decorator asked for it: frozen, checked, in the words of the cake file.

Each field's description, example and bounds are the one source for the reference in the README, the
options of the one-off commands and the messages about a cake file.
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
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.lettering import Lettering
from templates_gen.cakefile.plans import BALL, plan, plan_faults
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.position import Position
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


class Drum(_Asked):
    """The board that carries the whole cake."""

    size: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] | None = _about(
        "how wide the drum is; left out, 4 in wider than the bottom tier from corner to corner",
        '"14 in"',
    )
    shape: Literal["round", "square"] | None = _about(
        "the shape of the drum; left out, square under a square or rectangle, else round",
        '"square"',
    )
    guide: StrictBool = _about(
        "print a placement guide for the drum; false where none is needed",
        "false",
        True,
    )
    ribbon: Ribbon | None = _about("how wide the ribbon round its edge is", '"15 mm"')
    fondant: Thickness | None = _about(
        "thickness of the fondant that covers the drum; left out, it is not covered", '"3 mm"'
    )
    colour: Name = _about("what colour the fondant on the drum is", '"ivory"', "white")


class Panels(_Asked):
    """Moulded or cut panels, evenly round the side in one or more rows."""

    count: Annotated[StrictInt, AfterValidator(Count(1, 400))] | None = _about(
        "how many panels go round, their width follows; without count, per_face, width or mould:"
        " panels about as wide as tall",
        "8",
    )
    width: Annotated[AnyLength, AfterValidator(Within(5, LARGEST_TIER))] | None = _about(
        "the panel width you would like; the nearest that closes is used", '"60 mm"'
    )
    mould: Annotated[AnyLength, AfterValidator(Within(5, LARGEST_TIER))] | None = _about(
        "the length of a panel you own, such as one from a mould; how many fit follows", '"160 mm"'
    )
    height: Annotated[AnyLength, AfterValidator(Within(2, LARGEST_TIER))] | None = _about(
        "how tall a panel is; left out, the rows share the covered depth", '"50 mm"'
    )
    per_face: Annotated[StrictInt, AfterValidator(Count(1, 40))] | None = _about(
        "on a tier with corners: how many panels each face has from corner to corner", "3"
    )
    corners: Literal["panel", "join"] = _about(
        "with per_face: whether a panel goes round each corner, or a join stands there",
        '"join"',
        "panel",
    )
    rows: Annotated[StrictInt, AfterValidator(Count(1, 40))] = _about(
        "how many rows of panels", "2", 1
    )
    joins: Literal["in line", "staggered"] = _about(
        "whether the joins of the rows stand in line or staggered by half a panel",
        '"staggered"',
        "in line",
    )
    place: Literal["base", "rim"] = _about(
        "whether the rows start at the base or hang from the rim", '"base"', "base"
    )
    front: Literal["panel", "join"] = _about(
        "what stands at the front centre of the lowest row", '"panel"', "panel"
    )
    thickness: Annotated[AnyLength, AfterValidator(Within(0.5, 50))] = _about(
        "how thick a panel set on the covering is",
        '"4 mm"',
        Length(4.0, "4 mm"),
    )
    material: Literal["modelling paste", "fondant"] = _about(
        "what panels set on the covering are made of", '"fondant"', "modelling paste"
    )
    colour: Name | None = _about(
        "what colour panels set on the covering are; left out, that of the tier", '"gold"'
    )
    replace_wrap: StrictBool = _about(
        "the panels are the covering of a panelled tier, in place of a wrap",
        "true",
        False,
    )


DripLength = Annotated[AnyLength, AfterValidator(Within(3, LARGEST_TIER))]


class Drips(_Asked):
    """Drips from the rim, evenly round the tier."""

    spacing: Annotated[AnyLength, AfterValidator(Within(4, 300))] = _about(
        "the distance between drips you would like; the nearest that closes is used",
        '"30 mm"',
        Length(30.0, "30 mm"),
    )
    width: Annotated[AnyLength, AfterValidator(Within(2, 60))] = _about(
        "how wide the run of a drip is", '"10 mm"', Length(10.0, "10 mm")
    )
    shortest: Annotated[AnyLength, AfterValidator(Within(3, LARGEST_TIER))] | None = _about(
        "length of the shortest drip; left out, a quarter of the depth", '"20 mm"'
    )
    longest: Annotated[AnyLength, AfterValidator(Within(3, LARGEST_TIER))] | None = _about(
        "length of the longest drip; left out, half the depth", '"50 mm"'
    )
    pattern: Annotated[str, AfterValidator(OneOf(PATTERNS))] = _about(
        f"how the lengths follow each other: {', '.join(PATTERNS)}", '"wave"', "random"
    )
    waves: Annotated[StrictInt, AfterValidator(Count(1, 60))] | None = _about(
        "how often the pattern wave rises and falls round the tier; left out, 5 times, or as often"
        " as so few drips can show",
        "5",
    )
    shuffle: Annotated[StrictInt, AfterValidator(Count(0, 999_999))] = _about(
        "any number: another one gives other random lengths", "7", 1
    )
    corners: StrictBool = _about(
        "on a tier with corners: a drip stands at each corner, and the rest evenly between",
        "true",
        False,
    )
    lengths: tuple[DripLength, ...] | None = Field(
        default=None,
        description="for the pattern listed: the lengths of the drips from the front to the right,"
        " again and again",
        examples=['["20 mm", "35 mm"]'],
        min_length=1,
        max_length=400,
        strict=False,
    )
    line: Annotated[str, Field(min_length=1, max_length=LONGEST)] | None = _about(
        "for the pattern drawn: a line as SVG path data that the lengths follow, laid once round"
        " from the back join; drips are long where it hangs low",
        '"M0 0 C 30 40 70 40 100 0"',
    )
    front: Literal["drip", "gap"] = _about("what stands at the front centre", '"drip"', "drip")
    guide: Literal["collar", "top edge", "both"] = _about(
        "where the drip guide is printed: on a collar round the side, on a ring for the top edge,"
        " or both",
        '"both"',
        "collar",
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
        "how high above the foot its middle is; left out, half the depth", '"2 in"'
    )
    turn: Annotated[StrictInt, AfterValidator(Count(-90, 90))] = _about(
        "which way it goes through: degrees by which its front end is turned to the right, to your"
        " left below 0",
        "45",
        0,
    )
    sideways: Annotated[AnyLength, AfterValidator(Within(0, LARGEST_TIER))] = _about(
        "how far its middle is from that of the tier", '"1 in"', NOTHING
    )
    to: Literal["left", "right"] = _about(
        "to which side it is moved, as seen from the front of the hole", '"right"', "right"
    )
    drips: Literal["shorten", "leave out"] = _about(
        "what becomes of drips that would run into the hole", '"leave out"', "shorten"
    )


class Gores(_Asked):
    """The equal pieces, pointed at the top, that cover a ball side by side."""

    count: Annotated[StrictInt, AfterValidator(Count(4, 24))] = _about(
        "how many gores go round", "8", 8
    )
    joins: Literal["edge to edge", "overlapping"] = _about(
        "how gores meet: edge to edge, or each over its neighbour by the overlap",
        '"overlapping"',
        "edge to edge",
    )
    overlap: Annotated[AnyLength, AfterValidator(Within(1, 30))] = _about(
        "how far overlapping gores lie over each other", '"5 mm"', Length(5.0, "5 mm")
    )


class Tier(_Asked):
    """One tier, measured bare: the tin, or the dummy."""

    name: Name | None = _about("what you call the tier", '"bottom"')
    shape: Annotated[str, AfterValidator(OneOf((*SHAPES, BALL)))] = _about(
        f"the plan of the tier: {', '.join(SHAPES)}; or a {BALL}, whole where depth is size, else"
        " with its foot cut off",
        '"square"',
        "round",
    )
    size: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] = Field(
        description="how wide the bare tier is: the size of the tin; of an oval, a rectangle or"
        " your own shape the longer way, of a polygon from flat to flat",
        examples=['"8 in"'],
    )
    depth: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] = Field(
        description="how deep the bare tier is", examples=['"4 in"']
    )
    short: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] | None = (
        _about("of an oval or rectangle: how wide it is from front to back", '"6 in"')
    )
    sides: Annotated[StrictInt, AfterValidator(Count(3, 12))] | None = _about(
        "of a polygon: how many sides it has", "6"
    )
    corner: Annotated[AnyLength, AfterValidator(Within(0, LARGEST_TIER))] | None = _about(
        "of a square, rectangle or polygon: the radius of its corners; left out, they are sharp",
        '"10 mm"',
    )
    lobes: Annotated[StrictInt, AfterValidator(Count(5, 12))] | None = _about(
        "of a petal tier: how many lobes it has", "6"
    )
    outline: Annotated[str, AfterValidator(Characters(1, 50_000))] | None = _about(
        "of your own shape: one closed curve as SVG path data, the front downwards; its longer"
        " way, across or from front to back, is made as long as size says",
        '"M0 0 H90 V60 H0 Z"',
    )
    top_size: Annotated[AnyLength, AfterValidator(Within(SMALLEST_TIER, LARGEST_TIER))] | None = (
        _about("of a tapered tier: how wide its top is, where size is its foot", '"6 in"')
    )
    shallowest_depth: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] | None = (
        _about(
            "of a sloped top: how deep the tier is where it is shallowest; depth is the deepest",
            '"3 in"',
        )
    )
    slopes_down_to: Literal["front", "back", "left", "right"] = _about(
        "where a sloped top is lowest", '"front"', "front"
    )
    opening: Opening | None = _about("a round hole right through a dummy", "[tier.opening]")
    gores: Gores = _about("how the paste of a panelled ball is cut", "[tier.gores]", Gores())
    dummy: StrictBool = _about(
        "a polystyrene dummy, not cake: no coating unless you give one", "true", False
    )
    coating: Annotated[AnyLength, AfterValidator(Within(0, 50))] | None = _about(
        "thickness of buttercream or ganache under the paste; left out, 5 mm (a dummy: none)",
        '"5 mm"',
    )
    cover: Literal["drape", "panelled", "none"] = _about(
        "how the paste goes on: drape (one sheet), panelled (top and side apart), or none"
        " (buttercream or ganache only)",
        '"panelled"',
        "drape",
    )
    fondant: Thickness | None = _about(
        "thickness of the rolled paste; left out, 4 mm draped and 5 mm panelled", '"5 mm"'
    )
    fondant_top: Thickness | None = _about(
        "of a panelled tier: thickness of the top disc, where it is not that of fondant", '"4 mm"'
    )
    fondant_side: Thickness | None = _about(
        "of a panelled tier: thickness of the wrap or of panels that replace it, where it is not"
        " that of fondant",
        '"5 mm"',
    )
    fondant_lining: Thickness | None = _about(
        "thickness of the lining of a hole, where it is not that of fondant", '"3 mm"'
    )
    colour: Name = _about("what colour the paste is", '"ivory"', "white")
    first: Literal["top", "side"] = _about(
        "on a panelled tier: which goes on first", '"top"', "top"
    )
    trim: Annotated[AnyLength, AfterValidator(Within(0, 150))] = _about(
        "paste to spare, cut off after fitting", '"15 mm"', Length(15.0, "15 mm")
    )
    strip: Annotated[AnyLength, AfterValidator(Within(10, 6000))] | None = _about(
        "length of a strip of paste you mean to use; you are warned if it will not meet", '"24 in"'
    )
    board: Annotated[AnyLength, AfterValidator(Within(10, LARGEST_TIER))] | None = _about(
        "how wide the board under the tier is; left out, the size of the tier", '"8 in"'
    )
    ribbon: Ribbon | None = _about("how wide the ribbon round its foot is", '"15 mm"')
    inside: Inside = _about(
        "what a tier of cake is inside: kind of cake, layers, filling", "[tier.inside]", Inside()
    )
    dowels: Dowels | None = _about(
        "the dowels in the tier that hold up the one above; left out, by the rule of the trade",
        "[tier.dowels]",
    )
    position: Position = _about(
        "where the tier stands on what is below it; left out, in the middle",
        "[tier.position]",
        Position(),
    )
    rolling_out_circle: StrictBool = _about(
        "print the circle of a draped tier whole; else the swing strip gives it",
        "true",
        False,
    )
    print: Literal["few", "whole", "none"] | None = _about(
        "how much paper this tier uses: few, whole, or none (no sheets); if you leave it empty, as"
        " the whole cake",
        '"whole"',
    )
    panels: Panels | None = _about("panels round the side", "[tier.panels]")
    drips: Drips | None = _about("drips from the rim", "[tier.drips]")
    design: tuple[Design, ...] = _tables("designs repeated round the side", "[[tier.design]]")
    lettering: tuple[Lettering, ...] = _tables("names and messages", "[[tier.lettering]]")
    paint: Paint | None = _about("lustre paint on what is dry", "[tier.paint]")
    scatter: tuple[Scatter, ...] = _tables(
        "small pieces scattered over the side", "[[tier.scatter]]"
    )

    @property
    def coating_mm(self) -> float:
        """Thickness of the coating, mm."""
        default = NOTHING if self.dummy else COATING
        return (self.coating or default).mm

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

    title: Name = _about("what stands on every sheet", '"Orchard wedding"', "Cake")
    note: Note = _about("a line for the cover sheet", '"Delivery Saturday"', "")
    unit: Literal["in", "cm", "mm"] | None = _about(
        "what a number without a unit means in this file", '"in"'
    )
    paper: PaperName = _about(
        "the paper in your printer: a4, letter, legal, a3, tabloid, both (one layout for a4 and"
        " letter), a larger one of the series a, ansi or arch, a size, or a roll by its width",
        '"letter"',
        "a4",
    )
    margin_sides: Annotated[AnyLength, AfterValidator(Within(0, 40))] = _about(
        "what the printer leaves blank along the long edges", '"7 mm"', Length(7.0, "7 mm")
    )
    margin_ends: Annotated[AnyLength, AfterValidator(Within(0, 40))] = _about(
        "what the printer leaves blank along the short edges", '"15 mm"', Length(15.0, "15 mm")
    )
    printer: Name | None = _about(
        "the measured printer that the pack is made for, by its name (see templates-gen printer);"
        " left out, nothing is scaled",
        '"kitchen"',
    )
    print: Literal["few", "whole"] = _about(
        "how much paper is used: few (as few sheets as will do: parts to lay on folded parchment,"
        " tapes, numbers) or whole (every template at full size)",
        '"whole"',
        "few",
    )
    drum: Drum = _about("the board under the whole cake", "[drum]", Drum())
    portions: Portions | None = _about("guides for cutting the cake into portions", "[portions]")
    estimates: Estimates = _about("what quantities are estimated with", "[estimates]", Estimates())
    work: Work = _about("when the cake must be ready, and when you work", "[work]", Work())
    through_dowel: StrictBool = _about(
        "one dowel goes through all tiers into the drum, as in tall cakes or those that travel",
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
