"""How many days before the cake is eaten something may be made: common practice, no source."""

from typing import Annotated

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Number

Days = Annotated[float, Number(0.5, 365)]


class Keeps(Table):
    """Days that each thing keeps, up to the hour at which the cake is ready."""

    butter_cake: Days = about("butter or chocolate cake, wrapped", "4.0", 5.0)
    sponge: Days = about("sponge, wrapped", "2.0", 3.0)
    fruit_cake: Days = about("fruit cake, wrapped", "120.0", 90.0)
    buttercream: Days = about("a cake filled with buttercream", "4.0", 5.0)
    ganache: Days = about("a cake filled with ganache", "7.0", 5.0)
    jam: Days = about("a cake filled with jam", "3.0", 4.0)
    lemon_curd: Days = about("a cake filled with lemon curd", "2.0", 3.0)
    cream_cheese: Days = about("a cake filled with cream cheese", "1.0", 2.0)
    fresh_cream: Days = about("a cake filled with fresh cream", "0.5", 1.0)
    dummy: Days = about("a covered dummy", "60.0", 30.0)
    drum: Days = about("a covered drum", "30.0", 14.0)
    topper: Days = about("toppers (published: made 3 to 7 days ahead)", "14.0", 7.0)
    run_out: Days = about("a collar of royal icing, dry and flat", "60.0", 28.0)
    flowers: Days = about("dry flowers of sugar, in a box that breathes", "60.0", 28.0)
    pieces: Days = about("letters and small pieces (published: 2 to 7 days, then set)", "14.0", 9.0)


OF_CAKE = {
    "butter cake": "butter_cake",
    "chocolate cake": "butter_cake",
    "sponge": "sponge",
    "sponge by scan": "sponge",
    "fruit cake": "fruit_cake",
}
"""By the kind of a cake, which of them says how long it keeps; any other keeps as a butter cake."""
