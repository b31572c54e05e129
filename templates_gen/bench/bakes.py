"""What goes into the oven, one bake after the other."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.bench.inside import Inner
from templates_gen.bench.step import SLOWLY, Step, in_fives
from templates_gen.cakefile.estimates import Estimates
from templates_gen.tiers.layered import ONE_LAYER
from templates_gen.units import counted, hours


def bakes(name: str, cake: Inner, estimates: Estimates) -> Iterator[Step]:
    """Yield the bakes of a tier or of a letter cake, each of so many tins as go in at once."""
    minutes, slow = estimates.minutes, cake.kind in ONE_LAYER
    takes, oven = in_fives(minutes.bake), in_fives(minutes.oven) / 60
    how = " slowly, looking in now and then; cool in the tin"
    if not slow:
        baked = f", about {hours(oven)} in the oven" if oven else ""
        how = f"{baked}, then cool on a rack; wrapped, it may rest overnight"
    last, again = len(cake.bakes), ", as before"
    for number, (tins, tin) in enumerate(cake.bakes, 1):
        several = f" {number} of {last}" if last > 1 else ""
        words = f"Weigh, mix and bake {counted(tins, tin)}{how if slow or number == 1 else again}."
        # the next tins are filled while the last ones bake, but not while they bake slowly
        waits, stage = slow or number == last, SLOWLY if slow else "bake"
        name_of = f"bake{several}"
        yield Step(name_of, name, words, takes, stage, cake.keeps, waits=waits, oven=oven)
