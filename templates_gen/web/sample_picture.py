"""A small picture of a whole cake: its elevation as an SVG file."""

from __future__ import annotations

from typing import Any

FORM, FINE = "guide", "note"
"""The words of lines: the tiers themselves, and what is on them."""
_BEGIN = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{0:g}" height="{1:g}"'
    ' viewBox="0 0 {0:g} {1:g}">'
)
_STYLES = {
    FORM: 'fill="#fcf4ea" stroke="#4a3f45" stroke-width="1.4"',
    FINE: 'fill="none" stroke="#0b5d5e" stroke-width="1"',
}
_OTHER = 'fill="none" stroke="#4a3f45" stroke-width="1"'


def elevation_svg(drawing: dict[str, Any]) -> bytes:
    """Return an assembled drawing (see ``assembled_data``) as an SVG file."""
    parts = [_BEGIN.format(*drawing["size"])]
    for part in drawing["parts"]:
        x, y = part["at"]
        paths = "".join(
            f'<path d="{data}" vector-effect="non-scaling-stroke" {_STYLES.get(word, _OTHER)}/>'
            for word, data in part["lines"].items()
        )
        parts.append(f'<g transform="translate({x:g} {y:g})">{paths}</g>')
    return ("".join(parts) + "</svg>").encode()
