"""The handout as a page for a browser, with the picture in it."""

from __future__ import annotations

import html

from templates_gen.handout.contents import Handout, HandoutStep
from templates_gen.plan import Plan
from templates_gen.views.picture import picture
from templates_gen.writers.picture import picture_svg

WIDTH, HEIGHT = 170.0, 150.0
"""The most room the picture takes, mm."""
STYLE = (
    "body{font:17px/1.45 sans-serif;margin:2em auto;max-width:46em;padding:0 1em}"
    "svg{max-width:100%;height:auto}li{margin:0 0 .8em}td{padding:.1em 1em .1em 0}"
    "@media print{body{font-size:11pt}}"
)


def handout_html(plan: Plan, found: Handout) -> bytes:
    """Return the handout as one HTML file that needs no other."""
    title = html.escape(found.title)
    drawn = picture_svg(found.title, picture(plan, WIDTH, HEIGHT).drawing).decode()
    ready = "".join(
        "<tr>" + "".join(f"<td>{html.escape(cell)}</td>" for cell in row) + "</tr>\n"
        for row in found.ready
    )
    steps = "".join(_step(step) for step in found.steps)
    cautions = "".join(f"<li>{html.escape(each)}</li>\n" for each in found.cautions)
    return (
        f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{title}</title>\n'
        f"<style>{STYLE}</style></head>\n<body><h1>{title}</h1>\n{drawn[drawn.index('<svg') :]}\n"
        f"<h2>Have ready</h2>\n<table>{ready}</table>\n<h2>Steps</h2>\n<ol>{steps}</ol>\n"
        f"<h2>Take care</h2>\n<ul>{cautions}</ul></body></html>\n"
    ).encode()


def _step(step: HandoutStep) -> str:
    pieces = "".join(f"<br>{html.escape(words)}" for _, words in step.pieces)
    title, words, takes = map(html.escape, (step.title, step.words, step.takes))
    return f"<li><strong>{title}</strong><br>{words}<br><small>{takes}</small>{pieces}</li>\n"
