"""A tier with everything that is marked on it, each worked out once, when it is first needed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from functools import cached_property, partial

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cascades import Cascade
from templates_gen.cakefile.letter_cakes import LetterCake
from templates_gen.cakefile.tier import Tier
from templates_gen.errors import CakeError
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.guides import cascade, combed, designs, drips, lettering, panels, scatter
from templates_gen.guides.cascade import Laid
from templates_gen.guides.cascade_line import CascadeLine, Run, cascade_lines
from templates_gen.guides.combed import Combed
from templates_gen.guides.drips import DripRow
from templates_gen.guides.guide import Guide
from templates_gen.guides.keep_clear import closed_areas, cut_out
from templates_gen.guides.lettering import Lettered
from templates_gen.guides.openings import Openings, openings_of
from templates_gen.guides.panels import PanelRows
from templates_gen.guides.scatter import Scattered
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.tiers.drape import drape_outline
from templates_gen.tiers.letter_cakes import Made, letter_cake
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.tiers.stack import Stack, stack_of


@dataclass(frozen=True)
class DecoratedTier(Solid):
    """A tier as a solid, with what is on it. Every property raises CakeError where it cannot be.

    Where papers have no room for both units they have ``inches``, or else mm. Letterings and small
    pieces are by their places in the cake file. ``solid`` is the tier without that, ``runs`` are
    the parts of cascades of the whole cake that lie on its side. What takes long is kept in
    ``memo`` by what it was made from, for a tier that differs in something else.
    """

    solid: Solid = field(repr=False, compare=False)
    inches: bool = False
    runs: tuple[Run, ...] = ()
    memo: Memo = field(default=NOTHING_KEPT, repr=False, compare=False)

    __hash__ = Solid.__hash__

    @cached_property
    def bare(self) -> Layer:
        """The cake or dummy itself."""
        return self.solid.bare

    @cached_property
    def coated(self) -> Layer:
        """With its coating."""
        return self.solid.coated

    @cached_property
    def covered(self) -> Layer:
        """With coating and paste."""
        return self.solid.covered

    @cached_property
    def wrapped(self) -> Layer:
        """The middle of the paste on a panelled side."""
        return self.solid.wrapped

    @cached_property
    def openings(self) -> Openings:
        """The hole through the tier, on each of its surfaces."""
        return self.memo.of(openings_of, self.solid)

    @cached_property
    def drape(self) -> Outline:
        """The edge of the one sheet that covers it."""
        return drape_outline(self)

    @cached_property
    def panel_rows(self) -> PanelRows | None:
        """Its panels."""
        spec = self.spec.panels
        return panels.panel_rows(self, spec) if spec and self.lies_flat else None

    @cached_property
    def panels_area(self) -> float:
        """The area of its panels, but for the hole through them, mm2."""
        spec, rows = self.spec.panels, self.panel_rows
        if spec is None or rows is None:
            return 0.0
        return panels.area_beside(rows, panels.panel_layer(self, spec), self.openings)

    @cached_property
    def combed(self) -> Combed | None:
        """How its coating is combed."""
        return combed.combed(self)

    @cached_property
    def drip_row(self) -> DripRow | None:
        """Its drips."""
        spec = self.spec.drips
        return drips.drip_row(self, spec, self.openings) if spec and self.lies_flat else None

    @cached_property
    def drips_area(self) -> float:
        """The area of its drips on its side, mm2."""
        if self.drip_row is None:
            return 0.0
        drawn = drips.drips_drawing(self.drip_row, self.covered.side)
        return sum(stroke.path.area for stroke in drawn.strokes)

    @cached_property
    def letterings_on_side(self) -> Mapping[int, Lettered]:
        """The names and messages on its side."""
        return lettering.on_sides(self, self.openings, self.drip_row, self.memo)

    @cached_property
    def letterings_on_top(self) -> Mapping[int, Lettered]:
        """The names and messages on its top."""
        return lettering.on_tops(self)

    @cached_property
    def _written(self) -> tuple[Path, ...]:
        """The outlines of what is written on its side, in (u, v)."""
        found = self.letterings_on_side.values()
        return tuple(path for each in found for path in each.on_side)

    @cached_property
    def cascades(self) -> Mapping[int, tuple[Laid, ...]]:
        """The pieces of cascades on its side, clear of holes and letters; drips lie under them."""
        if not self.runs:
            return {}
        taken = (*self.openings.on(self.covered), *self._written)
        layer = self.covered
        made_from = (cascade.on_side, layer.side, layer.rim, self.runs, taken)
        make = partial(cascade.on_side, layer, self.runs, taken, self.memo)
        return self.memo.get(made_from, make)

    @cached_property
    def scatters(self) -> Mapping[int, Scattered]:
        """The small pieces on its side, clear of all else that has its place there."""
        if not self.spec.scatter:
            return {}
        pieces = [each.outline for laid in self.cascades.values() for each in laid]
        taken = closed_areas(self, self.openings, self.drip_row, (*self._written, *pieces))
        made_from = (scatter.scatters, self.covered.side, self.spec.scatter, taken)
        return self.memo.get(made_from, partial(scatter.scatters, self, taken))

    @cached_property
    def marked(self) -> tuple[Guide, ...]:
        """What is on its side, whole, what is nearer to the eye later; also over an opening."""
        return (*self.own_marks, *cascade.guides(self, self.runs, self.cascades))

    @cached_property
    def own_marks(self) -> tuple[Guide, ...]:
        """What its own tables mark on its side: all but the pieces of cascades, which lie on it."""
        if not self.lies_flat:
            return ()
        made_from = (DecoratedTier._fixed_marks, self.spec, self.index, self.name)
        fixed = self.memo.get(made_from, lambda: tuple(self._fixed_marks()))
        return (*fixed, *scatter.guides(self, self.scatters))

    @cached_property
    def guides(self) -> tuple[Guide, ...]:
        """What is on its side as guides show it: nothing lies in an opening."""
        return tuple(self._beside_openings(guide) for guide in self.marked)

    def _fixed_marks(self) -> Iterator[Guide]:
        """Yield every guide that no cascade moves: one line for each kind that there is."""
        yield from panels.guides(self, self.panel_rows)
        yield from drips.guides(self, self.drip_row)
        yield from combed.guides(self, self.combed)
        yield from designs.guides(self)
        yield from lettering.guides(self, self.letterings_on_side)

    def _beside_openings(self, guide: Guide) -> Guide:
        holes = self.openings.on(guide.layer)
        return replace(guide, drawing=cut_out(guide.drawing, holes, guide.layer.side.girth))


@dataclass(frozen=True)
class Ledge:
    """The surface below a tier, with the parts of cascades on it.

    ``lettered`` is the tier that it is on, if there are letters on that. What takes long is kept in
    ``memo``.
    """

    seat: Seat
    lettered: DecoratedTier | None
    runs: tuple[Run, ...] = ()
    memo: Memo = field(default=NOTHING_KEPT, repr=False, compare=False)

    @cached_property
    def cascades(self) -> Mapping[int, tuple[Laid, ...]]:
        """The pieces of cascades on it, in the frame of the seat."""
        if not self.runs:
            return {}
        onto, letters = self.seat.lies.transform, list[Path]()
        for each in self.lettered.letterings_on_top.values() if self.lettered else ():
            letters += (path.transformed(onto) for path in each.outlines)
        return cascade.on_ledge(self.seat, self.runs, letters, self.memo)


@dataclass(frozen=True)
class CakeOfLetters:
    """A number or word of cakes, by its index in the cake file; it stands beside the tiers."""

    index: int
    spec: LetterCake

    @cached_property
    def made(self) -> Made:
        """Its parts, their walls and how they are cut."""
        try:
            return letter_cake(self.spec)
        except CakeError as error:
            owner = ("letter_cake", self.index)
            raise CakeError(each.within(owner) for each in error.problems) from None


@dataclass(frozen=True, slots=True)
class DecoratedStack(Stack[DecoratedTier]):
    """The tiers of a cake one upon the other, with what is on them.

    ``cascades`` are the lines of garlands over them, ``ledges`` what lies on the surface below each
    tier, ``letter_cakes`` what stands beside them.
    """

    cascades: tuple[CascadeLine, ...] = ()
    ledges: tuple[Ledge, ...] = ()
    letter_cakes: tuple[CakeOfLetters, ...] = ()


def build_stack(cake: Cake, memo: Memo = NOTHING_KEPT) -> DecoratedStack:
    """Return the tiers of a cake one upon the other, each with what is on it.

    Raises CakeError where the line of a cascade cannot be.
    """
    inches = cake.in_inches

    def make(spec: Tier, solid: Solid) -> DecoratedTier:
        index, name = solid.index, solid.name
        made_from = (DecoratedTier, spec, index, name, inches)
        return memo.get(
            made_from, lambda: DecoratedTier(spec, index, name, solid, inches, memo=memo)
        )

    plain = stack_of(cake, make, memo)
    # of equal specs the first is taken, so that what was made from it is found at a glance
    specs = memo.get((Cascade, cake.cascade), lambda: cake.cascade)
    lines = memo.get(
        (cascade_lines, specs, plain.tiers, plain.places),
        partial(cascade_lines, plain, specs, memo),
    )
    tiers = tuple(_with_runs(tier, lines, memo) for tier in plain.tiers)
    ledges = tuple(
        _ledge(seat, lower, lines, memo)
        for seat, lower in zip(plain.seats, (None, *tiers), strict=False)
    )
    values = {each.name: getattr(plain, each.name) for each in fields(plain)} | {"tiers": tiers}
    letters = tuple(memo.of(CakeOfLetters, *each) for each in enumerate(cake.letter_cake))
    return DecoratedStack(**values, cascades=lines, ledges=ledges, letter_cakes=letters)


def _with_runs(tier: DecoratedTier, lines: tuple[CascadeLine, ...], memo: Memo) -> DecoratedTier:
    """Return a tier with the parts of cascades that lie on its side; the same where none do."""
    runs = tuple(run for run in _runs(lines, tier.index) if not run.on_ledge)
    if not runs:
        return tier
    return memo.get((DecoratedTier, tier, runs), lambda: replace(tier, runs=runs))


def _runs(lines: tuple[CascadeLine, ...], index: int) -> list[Run]:
    return [run for line in lines for run in line.runs if run.tier == index]


def _ledge(
    seat: Seat, lower: DecoratedTier | None, lines: tuple[CascadeLine, ...], memo: Memo
) -> Ledge:
    """Return the surface that a tier stands on, with what lies on it."""
    runs = tuple(run for run in _runs(lines, seat.upper.index) if run.on_ledge)
    lettered = lower if lower and lower.spec.lettering else None
    return memo.get((Ledge, seat, lettered, runs), lambda: Ledge(seat, lettered, runs, memo))
