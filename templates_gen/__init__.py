"""True-size paper templates for tiered celebration cakes.

The stages, each one call: ``read_cake`` a cake file (or ``cake_from`` values at hand),
``make_plan`` of it, ``make_pack`` of the plan on a paper, ``write_pdf`` the pack, ``write_svg`` a
piece of the plan; ``figures`` gives every dimension. What cannot be made raises a ``CakeError``
with every problem.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from templates_gen import version

if TYPE_CHECKING:  # the same names again, for type checkers
    from templates_gen.bench.figures import figures as figures
    from templates_gen.cakefile.cake import Cake as Cake
    from templates_gen.cakefile.papers import PAPERS as PAPERS
    from templates_gen.cakefile.papers import Paper as Paper
    from templates_gen.cakefile.reading import cake_from as cake_from
    from templates_gen.cakefile.reading import read_cake as read_cake
    from templates_gen.cakefile.writing import cake_text as cake_text
    from templates_gen.cover.pack import make_pack as make_pack
    from templates_gen.drawing.piece import Piece as Piece
    from templates_gen.errors import CakeError as CakeError
    from templates_gen.errors import TemplatesGenError as TemplatesGenError
    from templates_gen.plan import Plan as Plan
    from templates_gen.plan import make_plan as make_plan
    from templates_gen.sheets.pack import Pack as Pack
    from templates_gen.writers.manifest import write_manifest as write_manifest
    from templates_gen.writers.pdf import write_pdf as write_pdf
    from templates_gen.writers.svg import write_svg as write_svg
    from templates_gen.writers.svg_sheet import write_sheet_svg as write_sheet_svg

__version__ = version.VERSION
_HOMES = {
    "PAPERS": "cakefile.papers",
    "Cake": "cakefile.cake",
    "CakeError": "errors",
    "Pack": "sheets.pack",
    "Paper": "cakefile.papers",
    "Piece": "drawing.piece",
    "TemplatesGenError": "errors",
    "Plan": "plan",
    "cake_from": "cakefile.reading",
    "cake_text": "cakefile.writing",
    "figures": "bench.figures",
    "make_pack": "cover.pack",
    "make_plan": "plan",
    "read_cake": "cakefile.reading",
    "write_manifest": "writers.manifest",
    "write_pdf": "writers.pdf",
    "write_sheet_svg": "writers.svg_sheet",
    "write_svg": "writers.svg",
}
"""Every public name, and the module it lives in."""
__all__ = list(_HOMES)


def __getattr__(name: str) -> Any:  # noqa: ANN401 (any public name)
    """Import a public name when it is first used, so that ``--help`` stays fast."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)


def __dir__() -> list[str]:
    return [*__all__, "__version__"]
