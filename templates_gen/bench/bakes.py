"""What goes into the oven, one bake after the other, and for how long."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from templates_gen.bench.inside import Bake, Inner
from templates_gen.bench.step import SLOWLY, Step, in_fives
from templates_gen.cakefile.estimates import Estimates
from templates_gen.tiers.layered import ONE_LAYER
from templates_gen.units import MM_PER_INCH, counted, hours

ACROSS, RISEN = 6 * MM_PER_INCH, 3 * MM_PER_INCH
"""The round cake, mm, that the minutes in the oven are given for."""
ROOT = 2.404826
"""The first zero of the Bessel function J0 (DLMF 10.21)."""
SLOWED = 10.0
"""What air and tin hold back, as so much more cake all round, mm: fitted to published times."""


def oven(area: float, risen: float, given: float) -> int:
    """Return for how many minutes a cake of an area in mm2 that rises so high in mm is baked.

    Its middle warms at the rate of the slowest term of conduction into a cylinder from all round,
    (pi / height)^2 + (ROOT / radius)^2 (Carslaw and Jaeger, Conduction of Heat in Solids, 8.4:
    from memory).
    """
    return in_fives(given * _rate(math.pi / 4 * ACROSS**2, RISEN) / _rate(area, risen))


def _rate(area: float, risen: float) -> float:
    radius = math.sqrt(area / math.pi) + SLOWED
    return (math.pi / (risen + 2 * SLOWED)) ** 2 + (ROOT / radius) ** 2


def bakes(name: str, cake: Inner, estimates: Estimates) -> Iterator[Step]:
    """Yield the bakes of a tier or of a letter cake, each of so many tins as go in at once."""
    minutes, slow = estimates.minutes, cake.kind in ONE_LAYER
    takes, last = in_fives(minutes.bake), len(cake.bakes)
    said = [_how(bake, minutes.oven, slow=slow) for bake in cake.bakes]
    again = [False, *(one == other for one, other in pairwise(said))]
    for number, bake in enumerate(cake.bakes, 1):
        several = f" {number} of {last}" if last > 1 else ""
        how = ", as before" if again[number - 1] and not slow else said[number - 1]
        words = f"Weigh, mix and bake {counted(len(bake.risen), bake.tin)}{how}."
        # the next tins are filled while the last ones bake, but not while they bake slowly
        waits, stage = slow or number == last, SLOWLY if slow else "bake"
        name_of, hot = f"bake{several}", oven(bake.area, bake.risen[0], minutes.oven) / 60
        done = Step(name_of, name, words, takes, stage, cake.keeps, waits=waits, oven=hot)
        yield replace(done, bake=(number, last))


def _how(bake: Bake, given: float, *, slow: bool) -> str:
    """Say how tins are baked; those in which the cake rises less come out sooner."""
    if slow:
        return " slowly, looking in now and then; cool in the tin"
    times = [oven(bake.area, high, given) for high in bake.risen]
    sooner = f", the shallower {hours(times[-1] / 60)}" if times[-1] < times[0] else ""
    baked = f", about {hours(times[0] / 60)} in the oven{sooner}" if times[0] else ""
    return f"{baked}, then cool on a rack; wrapped, it may rest overnight"
