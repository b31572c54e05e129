"""What the page is made of: scripts, style, fonts and the form, compressed once.

All of it has one address, which holds a digest of the whole: a browser keeps it for good, and asks
anew only after the program has changed.
"""

from __future__ import annotations

import gzip
import json
from collections.abc import Callable
from dataclasses import asdict, dataclass
from functools import cache
from hashlib import blake2b
from importlib.resources import files
from io import BytesIO
from typing import Any

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from templates_gen.cakefile.lengths import BARE, UNITS
from templates_gen.resources import folder
from templates_gen.views.colours import WORDS
from templates_gen.web.choices import choices
from templates_gen.web.form import as_data, form

LARGEST_BODY = 1_000_000
"""Bytes of a request at the most."""
LARGEST_FILE = LARGEST_BODY * 7 // 10
"""Bytes of a file that is sent with a cake: base64 makes it a third larger."""
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
def assets() -> dict[str, Asset]:
    """Return the files of the page by their names."""
    found = {
        each.name: each.read_bytes()
        for each in files("templates_gen.web").joinpath("static").iterdir()
        if each.is_file()
    }
    found |= {name: _lean((folder("fonts") / file).read_bytes()) for name, file in FONTS.items()}
    found["form.json"] = json.dumps(described()).encode()
    return {name: _asset(name, content) for name, content in sorted(found.items())}


def _lean(font: bytes) -> bytes:
    """Return a font with what a page of words needs of it: a tenth of its bytes.

    A browser takes what is left out, such as Greek letters, from another font.
    """
    options = Options()
    options.layout_features = FEATURES
    options.hinting = False
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=CHARACTERS)
    with TTFont(BytesIO(font), recalcTimestamp=False) as opened:
        subsetter.subset(opened)
        found = BytesIO()
        opened.save(found)
    return found.getvalue()


def _asset(name: str, content: bytes) -> Asset:
    ending = name[name.rfind(".") :] if "." in name else ""
    return Asset(KINDS.get(ending, FONT), content, gzip.compress(content, 9, mtime=0))


@cache
def digest() -> str:
    """Return a digest of all files of the page."""
    found = blake2b(digest_size=8)
    for name, asset in assets().items():
        found.update(f"{name} {len(asset.content)} ".encode() + asset.content)
    return found.hexdigest()


def _in_units(value: Callable[[str], Any]) -> dict[str, Any]:
    return {unit: value(unit) for unit in UNITS}


def described() -> dict[str, object]:
    """Return what the scripts need to know of cake files."""
    return {
        "fields": as_data(form()),
        "choices": [asdict(each) | {"values": _in_units(each.values_in)} for each in choices()],
        "colours": WORDS,
        "bare": BARE,
        "largest_file": LARGEST_FILE,
    }
