"""What is made ahead and dries before it is used: toppers, flowers, pieces, letters, the drum."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.bench.step import DAY, NO_RAW_EGG, Step, in_fives
from templates_gen.cakefile.cut_from import WAFER, CutOut, fixed_with
from templates_gen.cakefile.cutting import Topper
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.estimates import Estimates
from templates_gen.guides.cascade import named_counts
from templates_gen.guides.cascade_line import CascadeLine
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.guides.flowers import Flowers
from templates_gen.pieces.cascade import counts, with_pieces
from templates_gen.pieces.flowers import flowers, summary
from templates_gen.pieces.run_out import Rim, rims
from templates_gen.tiers.seat import DRUM
from templates_gen.units import capital, counted, in_both, series


def topper_name(number: int) -> str:
    """Return what a topper is called, by its number in the cake file."""
    return f"topper {number}"


def cascade_name(number: int) -> str:
    """Return what a cascade is called, by its number in the cake file."""
    return f"cascade {number}"


def made_ahead(stack: DecoratedStack) -> Iterator[Step]:
    """Yield the steps of everything that is made before it is used."""
    for number, spec in enumerate(stack.toppers, 1):
        yield _topper(number, spec, stack.estimates)
    for made in flowers(stack):
        yield from _flowers(made, stack.estimates)
    for rim in rims(stack):
        yield _run_out(rim, stack.estimates)
    for tier in stack.tiers:
        yield from _letters(tier, stack.estimates)
        yield from _small_pieces(tier, stack.estimates)
    for line in with_pieces(stack):
        yield _cascade(stack, line)


def _topper(number: int, spec: Topper, estimates: Estimates) -> Step:
    what = f"“{spec.text}”" if spec.text else spec.shape
    words = (
        f"Cut {spec.count} × {what}, {in_both(spec.thickness.mm)} thick, gum added, with"
        " stick or tab; dry flat, turn over each day."
    )
    minutes, keeps = estimates.minutes, estimates.keeps.topper * DAY
    takes = in_fives(minutes.topper + minutes.each_topper * spec.count)
    return Step("make", topper_name(number), words, takes, "topper", keeps)


def _flowers(made: Flowers, estimates: Estimates) -> Iterator[Step]:
    """Yield the steps of flowers: parts that dry on forms, and how they are put together."""
    spec, name = made.spec, made.name
    parts = sum(part.count for part in made.parts) * spec.count
    is_wafer = spec.material == WAFER
    made_of = f"from {WAFER}" if is_wafer else f"rolled {in_both(spec.thickness.mm)} thick"
    steps = ", ".join([*_middles(made), *_shaped(made), *_dried(made)])
    words = f"{summary(made)}; {made_of}. {capital(steps)} on their forms."
    minutes, keeps = estimates.minutes, estimates.keeps.flowers * DAY
    takes = in_fives(minutes.petals + minutes.each_petal * parts)
    cut = Step("cut", name, words, takes, "petals", keeps)
    yield cut
    how = f"set ring by ring in a cup with {fixed_with(spec)}, from the outside in"
    if spec.wired:
        how = f"{', '.join(_put_on_wire(made))}; no bare wire goes into the cake"
    takes = in_fives(minutes.flowers + minutes.each_flower * spec.count)
    words = f"Dust with edible colour, {how}."
    after = (cut.key,)
    yield Step("put together", name, words, takes, "flowers", keeps, after=after)


def _middles(made: Flowers) -> Iterator[str]:
    if made.centre:
        yield "model the middles on their wires" if made.spec.wired else "model the middles"


def _shaped(made: Flowers) -> Iterator[str]:
    """Say how parts are shaped, and which have wires."""
    wired = [part for part in made.parts if part.wire]
    wires = "the wires" if any(not part.green for part in wired) else "the wires of the leaves"
    if made.spec.material == WAFER:
        if wired:
            yield f"glue {wires} on under strips of the paper"
        yield "mist the parts lightly"
    else:
        yield "thin the edges"
        if wired:
            yield f"push in {wires}"


def _dried(made: Flowers) -> Iterator[str]:
    """Say which petals go round the middle before they dry, and what dries on forms."""
    glued = [part.name.split()[0] for part in made.parts if part.glued]
    if glued:
        yield f"glue the {series(glued)} petals round the middles while soft"
    yield "dry the rest" if glued else "dry them"


def _put_on_wire(made: Flowers) -> Iterator[str]:
    """Say how each kind of part comes round the wire of the middle, from the inside out."""
    if any(part.wire and not part.green for part in made.parts):
        yield "tape petal by petal round the middle"
    if rings := [part.name.split()[0] for part in made.parts if part.middle is not None]:
        yield f"thread the {series(rings)} up the wire of the middle and glue"
    if made.spec.leaves:
        yield "tape on the leaves"


def _run_out(rim: Rim, estimates: Estimates) -> Step:
    """Return the step that runs a collar: one section more, should one break."""
    sections = rim.spec.sections
    words = (
        f"Run {counted(sections, 'section')} and one to spare in {rim.spec.colour} royal icing on"
        " acetate; dry flat, then peel the acetate off."
    )
    minutes, keeps = estimates.minutes, estimates.keeps.run_out * DAY
    takes = in_fives(minutes.run_out + minutes.each_section * (sections + 1))
    name = "run-out collar"
    return Step(name, rim.tier.name, words, takes, "run-out", keeps, caution=NO_RAW_EGG)


def _letters(tier: DecoratedTier, estimates: Estimates) -> Iterator[Step]:
    minutes, keeps = estimates.minutes, estimates.keeps.pieces * DAY
    for index, spec in enumerate(tier.spec.lettering):
        if spec.cut:
            letters = len(spec.text.replace(" ", ""))
            words = (
                f"Cut the letters of “{spec.text}”, {in_both(spec.thickness.mm)} thick; dry flat."
            )
            name = tier.spec.letters_name(index)
            takes = in_fives(minutes.letters + minutes.each_letter * letters)
            yield Step(name, tier.name, words, takes, "letters", keeps)


def _small_pieces(tier: DecoratedTier, estimates: Estimates) -> Iterator[Step]:
    for index, made in tier.scatters.items():
        count, spec = len(made.places), made.spec
        name = tier.spec.scatter_name(index)
        yield _pieces(name, tier.name, f"{count} × {spec.shape}", spec, count, estimates)


def _cascade(stack: DecoratedStack, line: CascadeLine) -> Step:
    found, spec = counts(stack, line), line.spec
    what, name = named_counts(spec, found), cascade_name(line.index + 1)
    return _pieces("make", name, what, spec, sum(found), stack.estimates)


def _pieces(
    name: str, owner: str, what: str, spec: CutOut, count: int, estimates: Estimates
) -> Step:
    """Return the step that cuts small pieces: paste dries, wafer paper is dry."""
    is_wafer = spec.material == WAFER
    words = f"Cut {what}, {in_both(spec.thickness.mm)} thick; dry."
    if is_wafer:
        words = f"Cut {what} from wafer paper; keep them flat and dry in a closed bag."
    takes = in_fives(estimates.minutes.pieces + estimates.minutes.each_piece * count)
    keeps, stage = estimates.keeps.pieces * DAY, "small pieces ahead"
    return Step(name, owner, words, takes, stage, keeps, waits=not is_wafer)


def cover_drum(spec: Drum, estimates: Estimates) -> Iterator[Step]:
    """Yield the step that covers the drum, where it has paste."""
    if spec.fondant is not None:
        how = "cut the ring, lay it edge to edge" if spec.covering == "ring" else "cover the drum"
        words = f"Roll fondant {in_both(spec.fondant.mm)} thick, {how}, trim."
        takes, keeps = in_fives(estimates.minutes.drum), estimates.keeps.drum * DAY
        yield Step("cover", DRUM, words, takes, "cover the drum", keeps)
