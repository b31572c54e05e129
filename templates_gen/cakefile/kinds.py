"""How much is printed of each kind of template."""

from __future__ import annotations

from typing import Literal

from templates_gen.cakefile.fields import Table, about

Amount = Literal["few", "whole", "none"]
"""As few sheets as will do, every template at full size, or no sheets."""


class Templates(Table):
    """How each kind of template is printed: few, whole or none (default: as print says)."""

    wraps: Amount | None = about("the wraps of panelled tiers", '"whole"')
    discs: Amount | None = about("the top discs of panelled tiers", '"whole"')
    linings: Amount | None = about("the linings of holes", '"whole"')
    gores: Amount | None = about("the gores and caps of balls", '"none"')
    panels: Amount | None = about("the panels", '"none"')
    rolling_out_circles: Amount | None = about("the circles of draped tiers", '"whole"')
    collars: Amount | None = about("the collars and strips that mark the sides", '"whole"')
    drip_guides: Amount | None = about("the drip guides for top edges", '"none"')
    placement_guides: Amount | None = about("the placement guides and those of boards", '"whole"')
    carving_guides: Amount | None = about("the guides to carve tiers", '"whole"')
    boards: Amount | None = about("the boards to saw, and the ring on the drum", '"whole"')
    flowers: Amount | None = about("the petals and leaves of flowers", '"whole"')
    run_outs: Amount | None = about("the collars of royal icing", '"none"')
    stencils: Amount | None = about("the stencils of designs and lettering", '"none"')
    letter_cakes: Amount | None = about(
        "the tops, strips, sheet cakes and boards of letter cakes", '"whole"'
    )
    portion_guides: Amount | None = about("the guides for portions", '"whole"')
    lettering: Amount | None = about("the sheets and the letters of names and messages", '"none"')
    scatter: Amount | None = about("the shapes of small pieces", '"none"')
    cascades: Amount | None = about("the shapes of cascades", '"none"')
    piping_sheets: Amount | None = about("the sheets to pipe over", '"none"')
    scrapers: Amount | None = about("the combs and scrapers", '"none"')
    toppers: Amount | None = about("the toppers, and the sheets to pipe them over", '"none"')
    circle_guides: Amount | None = about("the circle guide", '"none"')


KINDS = {
    "wrap": "wraps",
    "disc": "discs",
    "lining": "linings",
    "gore": "gores",
    "cap": "gores",
    "panel": "panels",
    "rolling-out-circle": "rolling_out_circles",
    "collar": "collars",
    "marking-band": "collars",
    "design-strip": "collars",
    "edge-paper": "collars",
    "top-edge-guide": "drip_guides",
    "carving-guide": "carving_guides",
    "placement-guide": "placement_guides",
    "board-guide": "placement_guides",
    "inner-board": "placement_guides",
    "board": "boards",
    "drum-ring": "boards",
    "petals": "flowers",
    "leaves": "flowers",
    "run-out": "run_outs",
    "stencil": "stencils",
    **dict.fromkeys(
        ("letter-cake", "letter-top", "letter-wall", "cake-sheet", "letter-board"), "letter_cakes"
    ),
    "portions": "portion_guides",
    "lettering": "lettering",
    "top-lettering": "lettering",
    "lettering-mirror": "lettering",
    "letter": "lettering",
    "scatter": "scatter",
    "cascade": "cascades",
    "piping-sheet": "piping_sheets",
    "scraper": "scrapers",
    "topper": "toppers",
    "topper-sheet": "toppers",
    "circle-guide": "circle_guides",
}
"""The key for each kind of piece, and of each line of the table of pieces."""
