"""The chart in words: headings, rows and notes, in inches or centimetres first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from templates_gen.bench.amounts import imperial, kitchen_grams, metric
from templates_gen.cakefile.lengths import Length
from templates_gen.chart.tins import Layers, Tin
from templates_gen.terms import Terms
from templates_gen.units import MM_PER_INCH, NO_BREAK, decimal, in_unit


@dataclass(frozen=True, slots=True)
class Chart:
    """A title, headings, a row of texts for each tin, and notes below."""

    title: str
    layers: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...]

    def said(self, terms: Terms) -> Chart:
        """Return the chart in the words of a place."""

        def say(texts: tuple[str, ...]) -> tuple[str, ...]:
            return tuple(map(terms.text, texts))

        return Chart(
            terms.text(self.title),
            terms.text(self.layers),
            say(self.headings),
            tuple(map(say, self.rows)),
            say(self.notes),
        )


def chart(found: Sequence[Tin], layers: Layers, unit: str, strip: Length) -> Chart:
    """Return the chart of tins; ``unit`` is in or cm, ``strip`` a strip that one has."""
    headings = ["tin", "wrap, finished", "top disc", "sheet to roll out", "fondant, panelled"]
    headings += ["fondant, draped", "coating", "ribbon", "drum", "dowels", "portions"]
    if layers.mould is not None:
        headings.append(f"panels of {layers.mould.tidy}")
    rows = tuple(tuple(_cells(each, unit, layers)) for each in found)
    title = f"Tins {layers.depth.tidy} deep"
    return Chart(
        title, layers_text(layers), tuple(headings), rows, tuple(_notes(found, unit, strip))
    )


def _cells(tin: Tin, unit: str, layers: Layers) -> Iterator[str]:
    yield f"{tin.size.tidy} {tin.shape}"
    for length in (tin.strip, tin.disc, tin.rolling_out):
        yield length_text(length, unit)
    for mass in (tin.panelled, tin.draped, tin.coating):
        yield mass_text(mass, unit)
    for length in (tin.ribbon, tin.drum):
        yield length_text(length, unit)
    yield str(tin.dowels) if tin.dowels else "none"
    yield str(tin.portions)
    if layers.mould is not None and tin.panels is not None and tin.gap is not None:
        much = "open" if tin.gap > 0 else "too long"
        yield f"{tin.panels}, {decimal(abs(tin.gap), 1)} mm {much} at each"


def length_text(mm: float, unit: str) -> str:
    """Write a length in the chosen unit, the other in brackets."""
    return _both(in_unit(mm, "cm"), in_unit(mm, "in"), unit)


def _both(metric: str, imperial: str, unit: str) -> str:
    """Return two measures, the one that goes with the unit first; no line ends within either."""
    first, second = (imperial, metric) if unit == "in" else (metric, imperial)
    return f"{first.replace(' ', NO_BREAK)} ({second.replace(' ', NO_BREAK)})"


def mass_text(grams: float, unit: str) -> str:
    """Write a weight as the bench list rounds it, the one that goes with the unit first."""
    mass = kitchen_grams(grams)
    return _both(metric(mass), imperial(mass), unit)


def _notes(found: Sequence[Tin], unit: str, strip: Length) -> Iterator[str]:
    yield (
        "Wrap: its finished length at mid-thickness. Add what you trim. Draped: how wide to"
        " roll, trim and all: a circle for a round tin, a square sheet for a square one."
        " Weights are estimates with waste. Ribbon: round the covered base, add an overlap."
    )
    yield (
        "Dowels: by rule of thumb, for a tier 2 in smaller on top; this is not structural advice."
        " Portions: 1 × 2 in, nothing kept back."
    )
    for shape in dict.fromkeys(tin.shape for tin in found):
        meets = [tin for tin in found if tin.shape == shape and tin.strip <= strip.mm]
        if meets:
            widest = max(meets, key=lambda tin: tin.size.mm)
            over = length_text(strip.mm - widest.strip, unit)
            yield (
                f"A strip of {strip.tidy} goes round {shape} tins up to {widest.size.tidy},"
                f" with {over} over."
            )
        else:
            yield f"A strip of {strip.tidy} goes round none of the {shape} tins."


def layers_text(layers: Layers) -> str:
    """Say what every tin of the chart has."""
    coating = layers.coating.tidy if layers.coating else "the usual 5 mm"
    paste = layers.paste.tidy if layers.paste else "5 mm panelled and 4 mm draped"
    return f"Coating {coating}, fondant {paste}."


DEFAULT_STRIP = Length(24 * MM_PER_INCH, "24 in")
"""A strip as practice cuts it: common practice, no source."""
