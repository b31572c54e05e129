"""The steps of one tier, from the oven to the stack.

How long things wait and keep is common practice without a source, where none is named; minutes of
work are estimates.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from templates_gen.bench.bakes import bakes
from templates_gen.bench.coats import ALMOND_PASTE, coated_with, crumb_coat
from templates_gen.bench.inside import Inner, inner
from templates_gen.bench.quantities import ROYAL_ICING, drips_of, shells_on
from templates_gen.bench.sized import of_tier
from templates_gen.bench.step import (
    DAY,
    NO_RAW_EGG,
    ROYAL_DRIPS,
    SOFT_DRIPS,
    Step,
    chained,
    in_fives,
)
from templates_gen.cakefile.cut_from import WAFER, fixed_with
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.cakefile.minutes import Minutes
from templates_gen.drawing.designs import DESIGNS
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.wrap import cuts_first
from templates_gen.tiers.carving import is_carved, is_trimmed
from templates_gen.tiers.inner_boards import inner_boards
from templates_gen.tiers.layered import ONE_LAYER, of_cakes
from templates_gen.units import counted, in_both, times

SWEATS = (
    "A chilled tier sweats when it comes out: do not chill it after paint, royal icing or gum"
    " paste; keep it in a cool, dry room."
)
PERISHABLE = (
    "Perishable filling: keep at 5 °C (41 °F) or below. Add up all the time above that: under 2 h"
    " back to the fridge, 2 to 4 h use it, over 4 h throw it away (FSANZ)."
)
ALCOHOL = "Alcohol vapour burns: no flame, no spark, fresh air; let it dry."
SPRAY = "Spray in fresh air or a booth, with a mask."


USUAL_FILLINGS = 3
"""So many fillings are in the minutes that filling a tier takes."""
HOLE = "then cut out the hole to the edge of the dummy and line it"


def tier_steps(tier: DecoratedTier, estimates: Estimates) -> Iterator[Step]:
    """Yield the steps that make a tier and set everything on it, up to the stack."""
    estimates = of_tier(estimates, tier)
    base = list(chained(_base(tier, inner(tier, estimates), estimates)))
    yield from base
    before = [step.key for step in base[-1:]]
    last: str | None = None
    for step in _decorations(tier, estimates):
        follows = () if last is None else (last,)
        if step.stage == "paint" and tier.spec.paint and tier.spec.paint.on == "drips":
            step = replace(step, after=(*step.after, f"{tier.name}: drips"))
        yield replace(step, after=(*step.after, *before), follows=follows)
        last = step.key


def _base(tier: DecoratedTier, cake: Inner | None, estimates: Estimates) -> Iterator[Step]:
    spec, name, minutes = tier.spec, tier.name, estimates.minutes
    if cake is not None:
        yield from _inside(tier, cake, estimates)
    if spec.coating_mm:
        yield from _coats(tier, estimates)
    if spec.cover != "none":
        keeps = estimates.keeps.dummy * DAY if spec.dummy else None
        takes = in_fives(minutes.cover + minutes.each_panel * panels_in_place_of_wrap(tier))
        yield Step("cover", name, _covering(tier), takes, "cover", keeps)
    if not spec.coating_mm and spec.cover == "none" and cake is None:
        takes = in_fives(minutes.clean)
        yield Step("clean", name, "Sand the dummy smooth and wipe it clean.", takes, "clean")


def _inside(tier: DecoratedTier, cake: Inner, estimates: Estimates) -> Iterator[Step]:
    """Yield what is done up to the first coat, which a fruit cake does without: it matures."""
    name, minutes = tier.name, estimates.minutes
    yield from bakes(name, cake, estimates)
    if cake.kind in ONE_LAYER:
        yield _mature(name, cake, minutes)
    carved = is_carved(tier)
    if carved and cake.fillings:
        words = f"{_layers(cake)}; chill until firm."
        yield Step("level", name, words, in_fives(minutes.level), "level")
        yield _carve(tier, cake, estimates)
    yield _fill(tier, cake, estimates)
    if tier.inner_boards:
        yield _build(tier, minutes)
    if carved and not cake.fillings:
        yield _carve(tier, cake, estimates)
    if is_trimmed(tier):
        yield _trim(tier, minutes)
    if tier.spec.coating_mm and cake.kind not in ONE_LAYER:
        yield crumb_coat(name, minutes.crumb_coat)


def _coats(tier: DecoratedTier, estimates: Estimates) -> Iterator[Step]:
    minutes, takes = estimates.minutes, in_fives(estimates.minutes.coat)
    if coated_with(tier, estimates) == ALMOND_PASTE:
        words = (
            "Brush with boiled jam, lay on almond paste (marzipan) rolled"
            f" {in_both(tier.spec.coating_mm)} thick, smooth it, and let it dry in a cool place."
        )
        yield Step("coat", tier.name, words, takes, "almond paste")
        return
    words = "Buttercream or ganache, smoothed with its edges sharp"
    if tier.combed is None:
        yield Step("coat", tier.name, f"{words}; chill until firm.", takes, "coat")
        return
    # one step: nothing may come between, or the coating is firm
    words += "; while it is soft turn the cake against the scraper; chill until firm."
    yield Step("coat and comb", tier.name, words, in_fives(minutes.comb), "coat")


def _mature(name: str, cake: Inner, minutes: Minutes) -> Step:
    """Return the step after which a fruit cake rests for weeks: common practice, no source."""
    words = "Wrap in parchment and foil and keep it cool; feed it once a week while it matures."
    return Step("mature", name, words, in_fives(minutes.wrap), "mature", cake.keeps)


def _fill(tier: DecoratedTier, cake: Inner, estimates: Estimates) -> Step:
    name, filling, carved = tier.name, FILLINGS[cake.filling], is_carved(tier)
    if not cake.fillings:
        # a fruit cake is never chilled; what is cut to its shape is firm first
        chills = cake.kind not in ONE_LAYER and (carved or is_trimmed(tier))
        words = "Level the cake"
        if cake.tins > 1:
            words = f"Level the {cake.tins} cakes and set them on each other"
        elif _gets_almond_paste(tier, estimates) and not (carved or is_trimmed(tier)):
            words = "Turn the cake over, its flat base up; fill gaps below with almond paste"
        words += "; chill until firm." if chills else "."
        takes = in_fives(estimates.minutes.level)
        return Step("level", name, words, takes, "fill", waits=chills)
    fills = f"fill {times(cake.fillings)} with {cake.filling}, then chill until firm."
    words, minutes = f"{_layers(cake)}, {fills}", estimates.minutes
    filled = minutes.fill
    if carved:
        boards = " on their boards" if of_cakes(tier, estimates) > 1 else ""
        words = f"Stack the {cake.layers} layers{boards}, front over front; {fills}"
        # it was levelled before it was carved; however long that took, filling takes some time
        filled = max(filled - minutes.level, minutes.each_filling)
    filled += minutes.each_filling * max(0, cake.fillings - USUAL_FILLINGS)
    caution = PERISHABLE if filling.perishable else ""
    keeps = estimates.filling_keeps(cake.filling)
    return Step("fill", name, words, in_fives(filled), "fill", keeps, caution=caution)


def _gets_almond_paste(tier: DecoratedTier, estimates: Estimates) -> bool:
    return bool(tier.spec.coating_mm) and coated_with(tier, estimates) == ALMOND_PASTE


def _layers(cake: Inner) -> str:
    """Say how layers are made of what is baked: what is baked a layer a tin is not split."""
    return f"Level and split into {cake.layers} layers" if cake.tins < cake.layers else "Level"


def _carve(tier: DecoratedTier, cake: Inner, estimates: Estimates) -> Step:
    """Return the step that carves layers, before anything is between them."""
    words = "Carve each layer to its guide with a serrated knife, the largest outline first."
    minutes = estimates.minutes
    takes = in_fives(minutes.carve + minutes.each_layer * cake.layers)
    return Step("carve", tier.name, words, takes, "carve")


def _trim(tier: DecoratedTier, minutes: Minutes) -> Step:
    """Return the step that makes a ball, a slope or a taper of cake from an ordinary tin."""
    spec = tier.spec
    if tier.ball is not None:
        words = f"Cut the cake to a ball {in_both(tier.ball.across)} wide"
    elif spec.shallowest_depth is not None:
        down = in_both(spec.shallowest_depth.mm)
        words = f"Cut the top to its slope, down to {down} at the {spec.slopes_down_to}"
    else:
        ends = in_both(tier.bare.foot.across), in_both(tier.bare.rim.across)
        words = f"Cut the side to its taper, {ends[0]} wide at the base, {ends[1]} at the top"
    words += ", with a serrated knife, a little at a time."
    return Step("trim", tier.name, words, in_fives(minutes.carve), "carve")


def _build(tier: DecoratedTier, minutes: Minutes) -> Step:
    """Return the step that sets the cakes of a deep tier on each other."""
    boards = inner_boards(tier)
    number = sum(board.support.count for board in boards)
    words = (
        f"Prick through the guide of the inner board, cut {counted(number, 'dowel')} of"
        f" {in_both(tier.part_depth)} alike and set them; lay the board on them, and the next cake"
        " on the board."
    )
    takes = in_fives(minutes.build + minutes.each_dowel * number)
    return Step("build", tier.name, words, takes, "build")


def panels_in_place_of_wrap(tier: DecoratedTier) -> int:
    """Return how many panels cover a side that has no wrap."""
    panels, rows = tier.spec.panels, tier.panel_rows
    return rows.count if panels and rows and panels.replace_wrap else 0


def _covering(tier: DecoratedTier) -> str:
    spec = tier.spec
    if spec.cover == "drape":
        hole = f", {HOLE}" if spec.opening is not None else ""
        return f"Roll the fondant to its size, lay it over, smooth, trim the base{hole}."
    if not tier.lies_flat:
        return "Lay the gores on from the top down, then the cap."
    side = "the panels" if spec.panels is not None and spec.panels.replace_wrap else "the wrap"
    order = f"the top disc, then {side}" if spec.first == "top" else f"{side}, then the top disc"
    if spec.opening is None:
        return f"Put on {order}."
    if cuts_first(spec) and side == "the wrap":
        return f"Cut the hole out of the wrap; put on {order}, then line the hole."
    return f"Put on {order}, {HOLE}."


def _decorations(tier: DecoratedTier, estimates: Estimates) -> Iterator[Step]:
    """Yield what is done on a covered tier, in the order in which it is done."""
    spec, minutes = tier.spec, estimates.minutes
    paint = list(_paint(tier, minutes))
    if spec.paint is not None and spec.paint.on in ("side", "whole"):
        yield from paint
        paint = []
    if tier.lies_flat:
        yield from _panels(tier, minutes)
        yield from _drips(tier, estimates)
        yield from _designs(tier, minutes)
        yield from _shells(tier, minutes)
        yield from _letterings(tier, minutes)
        yield from _small_pieces(tier, minutes)
    yield from paint


def _panels(tier: DecoratedTier, minutes: Minutes) -> Iterator[Step]:
    panels, rows = tier.spec.panels, tier.panel_rows
    if panels is None or rows is None or panels.replace_wrap:
        return
    number = rows.count
    chill = ", each mould chilled in the freezer" if panels.mould else ""
    words = f"Mark the joins on the side, make and set {counted(number, 'panel')}{chill}."
    each = minutes.each_mould if panels.mould else minutes.each_panel
    takes = in_fives(minutes.panels + number * each)
    yield Step("panels", tier.name, words, takes, "panels")


def _drips(tier: DecoratedTier, estimates: Estimates) -> Iterator[Step]:
    row = tier.drip_row
    if tier.spec.drips is None or row is None:
        return
    number = len(row.positions)
    piped = drips_of(tier)
    words = f"Mark and pipe {counted(number, 'drip')} in {piped}; let them set."
    stage, caution = SOFT_DRIPS, ""
    if piped == ROYAL_ICING:
        stage, caution = ROYAL_DRIPS, NO_RAW_EGG
    minutes = estimates.minutes
    takes = in_fives(minutes.drips + minutes.each_drip * number)
    yield Step("drips", tier.name, words, takes, stage, caution=caution)


_DONE = {
    "fault": "Cut the covering along its papers, open the band, set what shows in it, gild edges.",
    "geode": "Score it, cut it out of the covering, line it with sugar crystals, gild the edge.",
}
"""What is done for designs that are opened."""


def _designs(tier: DecoratedTier, minutes: Minutes) -> Iterator[Step]:
    for index, design in enumerate(tier.spec.design):
        if DESIGNS[design.kind].solid:
            continue
        cut = DESIGNS[design.kind].strip
        made = "pipe or set"
        if cut is not None:
            made = f"{'make the mats' if cut.is_mat else 'cut the strips'} and attach them"
        words = _DONE.get(design.kind) or f"Prick the lines through the paper, {made}."
        name = tier.spec.design_name(index)
        takes = in_fives(minutes.design if cut is None else minutes.strips)
        yield Step(name, tier.name, words, takes, "design")


def _shells(tier: DecoratedTier, minutes: Minutes) -> Iterator[Step]:
    """Yield the step of borders of shells: those at the base hide a join, once the cake stands."""
    low = [each.is_low for each in shells_on(tier)]
    if low:
        high = low.count(False)
        piped = f", pipe the {counted(high, 'shell')} at the top" if high else ""
        words = f"Prick through the paper where shells begin{piped}."
        takes = in_fives(minutes.shells + minutes.each_shell * high)
        yield Step("shells", tier.name, words, takes, "design", waits=bool(high))


def _letterings(tier: DecoratedTier, minutes: Minutes) -> Iterator[Step]:
    for index, spec in enumerate(tier.spec.lettering):
        name = tier.spec.lettering_name(index)
        if not spec.cut:
            words = f"“{spec.text}”: prick or trace the letters, pipe them."
            takes = in_fives(minutes.lettering)
            yield Step(name, tier.name, words, takes, "lettering")
            continue
        letters = len(spec.text.replace(" ", ""))
        words = f"Set the {counted(letters, 'letter')} of “{spec.text}” where they are marked."
        after = (f"{tier.name}: {tier.spec.letters_name(index)}",)
        takes = in_fives(minutes.letters_set + minutes.each_letter_set * letters)
        yield Step(name, tier.name, words, takes, "letters set", after=after)


def _small_pieces(tier: DecoratedTier, minutes: Minutes) -> Iterator[Step]:
    for index, made in tier.scatters.items():
        count, pieces = len(made.places), tier.spec.scatter_name(index)
        gel = f", with {fixed_with(made.spec)}" if made.spec.material == WAFER else ""
        words = f"Set {count} × {made.spec.shape} at the numbers on the collar{gel}."
        after = (f"{tier.name}: {pieces}",)
        name = f"set {pieces}"
        takes = in_fives(minutes.pieces_set + minutes.each_piece_set * count)
        yield Step(name, tier.name, words, takes, "small pieces", after=after)


def _paint(tier: DecoratedTier, minutes: Minutes) -> Iterator[Step]:
    paint = tier.spec.paint
    if paint is None:
        return
    what = {"side": "the side", "whole": "all of it"}.get(paint.on, f"the {paint.on}")
    how = "Airbrush" if paint.tool == "airbrush" else "Paint"
    words = f"{how} {what}, {counted(paint.coats, 'coat')}; let each dry."
    caution = f"{ALCOHOL} {SPRAY}" if paint.tool == "airbrush" else ALCOHOL
    name = paint.tool if paint.tool == "airbrush" else "paint"
    takes = in_fives(minutes.paint * paint.coats)
    yield Step(name, tier.name, words, takes, "paint", caution=caution)


def spoilt_by_cold(tier: DecoratedTier) -> frozenset[str]:
    """Return the stages after which a tier is not chilled: royal icing, paint and gum paste sweat.

    What is piped on bare buttercream is buttercream: common practice, no source.
    """
    piped = ("design", "lettering") if tier.spec.cover != "none" else ()
    return frozenset((ROYAL_DRIPS, "paint", "letters set", "small pieces", *piped))


DRIES_ON = (
    *("panels", SOFT_DRIPS, ROYAL_DRIPS, "design", "lettering", "letters set", "small pieces"),
    "paint",
)
"""Stages after which a tier can be dowelled and chilled while they dry, with a careful hand."""


def before_decoration(step: Step, own: Sequence[Step]) -> Step:
    """Return a step that needs a tier covered, and nothing that is on it."""
    base = tuple(each.key for each in own if each.stage not in DRIES_ON)
    return replace(step, after=base)


def after_all(step: Step, own: Sequence[Step]) -> Step:
    """Return a step that comes after all others of a tier, but does not wait for what dries on."""
    waits = tuple(each.key for each in own if each.stage not in DRIES_ON)
    dries = tuple(each.key for each in own if each.stage in DRIES_ON)
    return replace(step, after=waits, follows=dries)


def prepare(tier: DecoratedTier, own: Iterable[Step], estimates: Estimates) -> Step:
    """Return the step after a tier's ``own`` before it is stacked; it firms while they dry.

    A fruit cake is never chilled: common practice, no source.
    """
    words, waits, caution = "Clean up, chill until firm.", True, ""
    if tier.spec.dummy:
        words, waits = "Clean up; ready to stack.", False
        if not tier.board_thickness:
            words = "Clean up; no card goes under it: fix it with royal icing where it stands."
    elif any(step.stage in spoilt_by_cold(tier) for step in own):
        words, waits, caution = "Clean up; leave in a cool, dry room.", False, SWEATS
    elif coated_with(tier, estimates) == ALMOND_PASTE:
        words, waits = "Clean up; leave in a cool, dry room.", False
    takes = in_fives(estimates.minutes.prepare)
    return Step("prepare", tier.name, words, takes, "prepare", waits=waits, caution=caution)
