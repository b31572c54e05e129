"""Printed packs the tests share: each is laid out and written once in a run."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass
from functools import cache
from typing import Any, NamedTuple

from templates_gen import Piece, write_pdf, write_svg
from templates_gen.cakefile.papers import PAPERS, parse_papers
from templates_gen.cakefile.printers import Printer
from templates_gen.cover.pack import make_pack
from templates_gen.plan import Plan
from templates_gen.sheets.pack import Pack
from templates_gen.writers.manifest import write_manifest
from tests.cakes import SAMPLES, sample, sample_plan


class Job(NamedTuple):
    """A sample, the paper asked for, and which of the papers that stands for."""

    sample: str
    spec: str
    paper: str


@dataclass(frozen=True)
class Print:
    """What a job gave: the files as bytes and data, and the pack and pieces they came from."""

    job: Job
    pieces: tuple[Piece, ...]
    pack: Pack
    pdf: bytes
    manifest: dict[str, Any]

    @property
    def windows(self) -> list[tuple[int, dict[str, Any]]]:
        """Every window of the manifest with the number of its sheet."""
        return [(s["number"], w) for s in self.manifest["sheets"] for w in s["windows"]]

    @property
    def shown(self) -> list[str]:
        """The pieces on the sheets, by id."""
        return list(dict.fromkeys(window["piece"] for _, window in self.windows))

    @property
    def split(self) -> list[str]:
        """The pieces that take more than one window, by id."""
        counts = Counter(window["piece"] for _, window in self.windows)
        return [piece for piece, count in counts.items() if count > 1]

    def svg(self, piece: str) -> bytes:
        """Return the SVG of a piece by its id."""
        return write_svg(next(made for made in self.pieces if made.id == piece))


def _jobs(name: str, spec: str) -> list[Job]:
    return [Job(name, spec, paper.name) for paper, _ in parse_papers([spec])]


OWN = [job for path in SAMPLES for job in _jobs(path.stem, sample(path.stem).paper)]
"""Every sample on its own paper."""
BOTH = [job for path in SAMPLES for job in _jobs(path.stem, "both")]
"""Every sample on the area that A4 and Letter share."""


@cache
def packed(name: str, paper: str) -> Pack:
    """Return the pack of a sample on a paper, as the command makes it."""
    return make_pack(sample_plan(name), PAPERS[paper])


@cache
def printed(job: Job) -> Print:
    """Return the print of a job."""
    plan = sample_plan(job.sample)
    return print_of(job, plan, plan.pieces)


def print_of(
    job: Job, plan: Plan, pieces: tuple[Piece, ...], printer: Printer | None = None
) -> Print:
    """Return the print of pieces of a cake that need not be a sample, for a printer if one is."""
    paper, shared = next(found for found in parse_papers([job.spec]) if found[0].name == job.paper)
    pack = make_pack(plan, paper, shared, pieces, printer)
    return Print(job, pieces, pack, write_pdf(pack), json.loads(write_manifest(pack)))
