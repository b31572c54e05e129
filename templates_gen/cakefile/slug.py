"""Names for files and ids made from what the decorator calls things."""

from __future__ import annotations

import os
import re
import unicodedata

_LONGEST = 60
# names that one operating system keeps for itself
_DEVICES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)")


def slug(text: str, fallback: str = "cake") -> str:
    """Return ``text`` as a file name without an ending: letters and figures joined by hyphens."""
    words = re.findall(r"[^\W_]+", unicodedata.normalize("NFKC", text).casefold())
    name = "-".join(words)[:_LONGEST].strip("-")
    return f"{name}-{fallback}" if _DEVICES.fullmatch(name) else name or fallback


def tier_slug(name: str, index: int) -> str:
    """Return the slug of a tier; a name of signs only gives its place, counted from 0."""
    return slug(name, f"tier-{index + 1}")


def alike(text: str) -> str:
    """Return a slug without accents: the same for texts that are easily taken for each other."""
    parts = unicodedata.normalize("NFKD", text)
    return "".join(char for char in parts if not unicodedata.combining(char))


def file_name(name: str) -> str:
    """Return a slug as the file system can write it.

    Where it cannot write some of them, accents are left out and letters become their numbers.
    """
    try:
        os.fsencode(name)
    except UnicodeEncodeError:
        return "".join(char if char.isascii() else f"u{ord(char):x}" for char in alike(name))
    return name
