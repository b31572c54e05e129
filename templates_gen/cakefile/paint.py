"""Lustre paint on a tier."""

from typing import Annotated, Literal

from pydantic import StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.rules import Count


class Paint(Table):
    """Lustre paint on a tier: edible dust and clear alcohol, 1 : 1 by volume (common practice)."""

    on: Literal["drips", "panels", "side", "whole"] = about(
        "what is painted: drips, panels, side, or whole (the whole tier)", '"drips"', "drips"
    )
    coats: Annotated[StrictInt, Count(1, 10)] = about("number of coats", "2", 2)
    tool: Literal["brush", "airbrush"] = about(
        "painted with a brush or an airbrush", '"airbrush"', "brush"
    )
