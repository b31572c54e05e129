"""What the page is made of: scripts, style and fonts, each compressed when it is first needed.

All of it has one address, which holds a digest of the whole: a browser keeps it for good, and asks
anew only after the program has changed.
"""

from __future__ import annotations

import gzip
from dataclasses import dataclass
from functools import cache
from hashlib import blake2b
from importlib.resources import files

import uharfbuzz as hb

from templates_gen.resources import folder

FONTS = {
    "fonts/text": "SourceSans3-Regular.ttf",
    "fonts/bold": "SourceSans3-Bold.ttf",
    "fonts/display": "Fredoka-Bold.ttf",
}
FEATURES = ["kern", "liga", "mark", "mkmk", "tnum"]
CHARACTERS = [*range(0x20, 0x250), *range(0x2000, 0x2230), 0xFB01, 0xFB02]
"""Latin letters, punctuation, fractions and signs."""
KINDS = {
    ".js": "text/javascript",
    ".css": "text/css",
    ".svg": "image/svg+xml",
    ".json": "application/json",
}
FONT = "font/ttf"


@dataclass(frozen=True, slots=True)
class Asset:
    """A file of the page as it is sent: its content type, its bytes, and the same compressed."""

    kind: str
    content: bytes
    packed: bytes


@cache
def _sources() -> dict[str, bytes]:
    """Return what the files of the page are made from, by their names."""
    found = {
        each.name: each.read_bytes()
        for each in files("templates_gen.web").joinpath("static").iterdir()
        if each.is_file()
    }
    return found | {name: (folder("fonts") / file).read_bytes() for name, file in FONTS.items()}


def names() -> list[str]:
    """Return the names of all files of the page."""
    return sorted(_sources())


@cache
def asset(name: str) -> Asset | None:
    """Return a file of the page."""
    content = _sources().get(name)
    if content is None:
        return None
    if name in FONTS:
        return packed(_lean(content), FONT)
    return packed(content, KINDS[name[name.rfind(".") :]])


def packed(content: bytes, kind: str) -> Asset:
    """Return content with the same compressed."""
    return Asset(kind, content, gzip.compress(content, 9, mtime=0))


def _lean(font: bytes) -> bytes:
    """Return a font with what a page of words needs of it: a tenth of its bytes.

    A browser takes what is left out, such as Greek letters, from another font.
    """
    wanted = hb.SubsetInput()
    wanted.flags = hb.SubsetFlags.NO_HINTING
    wanted.unicode_set.update(CHARACTERS)
    features = wanted.layout_feature_tag_set
    features.clear()
    features.update(int.from_bytes(name.encode()) for name in FEATURES)
    found: bytes = hb.subset(hb.Face(font), wanted).blob.data
    return found


@cache
def digest() -> str:
    """Return a digest of all files of the page, by what they are made from."""
    found = blake2b(repr((FEATURES, CHARACTERS)).encode(), digest_size=8)
    for name in names():
        content = _sources()[name]
        found.update(f"{name} {len(content)} ".encode() + content)
    return found.hexdigest()
