"""How long each kind of work takes: our estimates, changed by who has timed their own."""

from typing import Annotated

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Number

Took = Annotated[float, Number(0, 600)]


class Minutes(Table):
    """Minutes of work, before ``pace``. A key that begins with each_ counts for every one.

    Where work grows with the size of a tier or of its tins, they are for a round of 6 in, 4 in
    deep, and are changed by ``grows`` for any other.
    """

    bake: Took = about("weigh and mix one bake, and fill its tins", "45.0", 30.0)
    oven: Took = about(
        "a round of 6 in that rises to 3 in is in the oven, others by their depth and width:"
        " no work, whatever your pace",
        "75.0",
        50.0,
    )
    wrap: Took = about("wrap a fruit cake that matures", "15.0", 10.0)
    level: Took = about("level a cake that is carved or not filled", "10.0", 15.0)
    fill: Took = about("level, split and fill the cake of a tier, up to 3 times", "45.0", 30.0)
    each_filling: Took = about("split it and fill it once more", "8.0", 5.0)
    build: Took = about("set the cakes of a deep tier on each other", "20.0", 15.0)
    carve: Took = about("carve a tier", "30.0", 20.0)
    each_layer: Took = about("carve one layer of it", "10.0", 5.0)
    crumb_coat: Took = about("crumb coat a tier", "15.0", 20.0)
    coat: Took = about("coat a tier and smooth it", "60.0", 40.0)
    comb: Took = about("coat a tier and comb it", "90.0", 60.0)
    cover: Took = about("cover a tier with fondant", "60.0", 45.0)
    clean: Took = about("smooth a dummy that is not covered", "15.0", 10.0)
    drum: Took = about("cover the drum", "30.0", 25.0)
    panels: Took = about("get ready for panels", "30.0", 20.0)
    each_panel: Took = about("make and set a panel", "3.0", 2.0)
    each_mould: Took = about("press a panel in a mould, freeze it firm, set it", "8.0", 5.0)
    drips: Took = about("get ready for drips", "15.0", 20.0)
    each_drip: Took = about("pipe a drip", "0.5", 1.0)
    design: Took = about("prick and pipe a design", "60.0", 45.0)
    shells: Took = about("get ready to pipe a border of shells", "15.0", 10.0)
    each_shell: Took = about("pipe a shell", "0.2", 0.1)
    strips: Took = about("cut and set a design in strips", "90.0", 60.0)
    lettering: Took = about("pipe a name or message", "20.0", 30.0)
    letters: Took = about("get ready to cut letters", "20.0", 15.0)
    each_letter: Took = about("cut a letter", "3.0", 2.0)
    letters_set: Took = about("get ready to set letters", "5.0", 10.0)
    each_letter_set: Took = about("set a letter", "2.0", 1.0)
    pieces: Took = about("get ready to cut small pieces", "20.0", 15.0)
    each_piece: Took = about("cut a small piece", "2.0", 1.0)
    pieces_set: Took = about("get ready to set small pieces", "5.0", 10.0)
    each_piece_set: Took = about("set a small piece", "1.0", 0.5)
    cascade: Took = about("get ready to set a cascade", "15.0", 10.0)
    each_cascade: Took = about("set a flower or small piece of a cascade", "2.0", 1.0)
    petals: Took = about("get ready to cut petals", "20.0", 15.0)
    each_petal: Took = about(
        "cut, thin and wire a petal or leaf, or a ring of petals in one piece", "4.0", 2.0
    )
    flowers: Took = about("get ready to put flowers together", "10.0", 5.0)
    each_flower: Took = about("put a flower together", "12.0", 8.0)
    run_out: Took = about("get ready to run a collar of royal icing", "30.0", 20.0)
    each_section: Took = about("outline and flood a section of a collar", "20.0", 15.0)
    topper: Took = about("get ready for a topper", "30.0", 20.0)
    each_topper: Took = about("cut a topper", "15.0", 10.0)
    paint: Took = about("one coat of paint on a tier", "30.0", 20.0)
    prepare: Took = about("clean up a tier before it is stacked", "10.0", 5.0)
    dowel: Took = about("mark a tier for its dowels", "15.0", 10.0)
    each_dowel: Took = about("cut and set a dowel", "5.0", 3.0)
    drill: Took = about("drill the boards for a dowel through all tiers", "20.0", 15.0)
    separators: Took = about("cut the pillars or the spacer below a tier", "30.0", 20.0)
    stack: Took = about("stack a tier", "20.0", 15.0)
    through_dowel: Took = about("drive the dowel through all tiers", "15.0", 10.0)
    finish: Took = about("hide joins and tie ribbons on a cake", "40.0", 30.0)
    each_tier: Took = about("the same for each tier", "10.0", 5.0)
    pack: Took = about("box the cake for the road", "30.0", 20.0)
