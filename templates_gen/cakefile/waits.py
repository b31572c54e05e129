"""How long things wait before the next step: common practice, changed by who knows better.

Published: covered cakes and boards set overnight (*The Busy Girl's Guide to Cake Decorating*), gum
paste is made 48 h to a week before it is set (Aumiller, *Pure Artistry*), piped and set pieces take
8 to 24 h (oureverydaylife 38241).
"""

from typing import Annotated

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Number

Hours = Annotated[float, Number(0, 336)]


class Waits(Table):
    """Hours that each thing waits before the next step."""

    cooling: Hours = about("a cake cools", "4.0", 3.0)
    slow_baking: Hours = about("a fruit cake bakes on slowly and cools in its tin", "6.0", 4.0)
    maturing: Annotated[float, Number(0, 2000)] = about("a fruit cake matures", "168.0", 672.0)
    filling: Hours = about("a cake chills once it is filled, and before it is carved", "2.0", 1.0)
    crumb_coat: Hours = about("a crumb coat firms", "1.0", 0.5)
    coating: Hours = about("a coating chills", "12.0", 3.0)
    almond_paste: Hours = about("almond paste on a fruit cake dries", "48.0", 24.0)
    fondant: Hours = about("fondant on a tier sets", "24.0", 12.0)
    drum: Hours = about("fondant on the drum sets", "24.0", 12.0)
    drips: Hours = about("drips of royal icing set", "12.0", 24.0)
    soft_drips: Hours = about("drips of ganache or other icing set", "2.0", 1.0)
    icing: Hours = about("piping and panels set (published: 8 to 24)", "12.0", 8.0)
    paint: Hours = about("paint dries", "1.0", 2.0)
    chilling: Hours = about("a finished tier chills until it is firm", "3.0", 4.0)
    topper: Hours = about("a topper dries (published: 3 to 7 days)", "96.0", 72.0)
    pieces: Hours = about("letters and small pieces dry (published: 2 to 7 days)", "72.0", 48.0)
    flowers: Hours = about("petals and leaves dry on their forms", "24.0", 24.0)
    run_outs: Hours = about("collars of royal icing dry", "24.0", 48.0)
    glue: Hours = about("letters and small pieces that were set hold", "2.0", 1.0)


OF_STAGE = {
    "bake": "cooling",
    "bake slowly": "slow_baking",
    "mature": "maturing",
    "level": "filling",
    "fill": "filling",
    "crumb coat": "crumb_coat",
    "coat": "coating",
    "almond paste": "almond_paste",
    "cover": "fondant",
    "cover the drum": "drum",
    "drips": "soft_drips",
    "royal icing drips": "drips",
    "panels": "icing",
    "design": "icing",
    "lettering": "icing",
    "letters set": "glue",
    "small pieces": "glue",
    "paint": "paint",
    "prepare": "chilling",
    "topper": "topper",
    "letters": "pieces",
    "small pieces ahead": "pieces",
    "run-out": "run_outs",
    "petals": "flowers",
    "flowers": "glue",
}
"""The wait that ends each stage of work."""
