"""The licences of this program and of all it is made of, in one text."""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path, PurePosixPath

from templates_gen.resources import folder

COLLECTED = "licences.txt"
"""The file of a bundle that holds the text: its parts no longer have files of their own."""
_NAME = re.compile(r"[A-Za-z0-9._-]+")
_LEGAL = re.compile(r"licen[cs]e|copying|notice|authors", re.IGNORECASE)
_RULE = "=" * 78


def licences() -> str:
    """Return the licences of the program, its fonts and every package it needs."""
    collected = folder("fonts").parent / COLLECTED
    if collected.is_file():
        return collected.read_text(encoding="utf-8")
    return "".join((*package_licences("templates_gen"), *_fonts()))


def section(name: str, text: str) -> str:
    """Return one licence under its heading."""
    return f"{_RULE}\n{name}\n{_RULE}\n\n{text.strip()}\n\n\n"


def package_licences(name: str) -> Iterator[str]:
    """Yield the licence of a package, then of each that it needs, by name."""
    for each in sorted(needed(name), key=lambda found: (found.name != name, found.name.lower())):
        yield section(f"{each.name} {each.version}", _text(each))


def needed(name: str) -> list[Distribution]:
    """Return an installed package and all that it needs, without what only an extra needs."""
    found: dict[str, Distribution] = {}
    waiting = [name]
    while waiting:
        wanted = waiting.pop()
        key = re.sub(r"[-_.]+", "-", wanted).lower()  # as PEP 503 has it
        if key in found:
            continue
        try:
            found[key] = distribution(wanted)
        except PackageNotFoundError:
            continue  # for another system
        waiting += [_required(text) for text in found[key].requires or () if "extra ==" not in text]
    return list(found.values())


def _required(text: str) -> str:
    named = _NAME.match(text)
    assert named is not None
    return named.group()


def _text(package: Distribution) -> str:
    """Return the licence files of a package, or what its metadata says."""
    paths = [path for path in package.files or () if _is_legal(path)]
    texts = [Path(str(package.locate_file(path))) for path in sorted(paths)]
    found = [path.read_text(encoding="utf-8", errors="replace") for path in texts if path.is_file()]
    if found:
        return "\n\n".join(text.strip() for text in found)
    values = package.metadata.get_all
    short = values("License-Expression") or values("License") or []
    named = [each for each in values("Classifier") or () if each.startswith("License ::")]
    return "\n".join([*short, *named])


def _is_legal(path: PurePosixPath) -> bool:
    inside = path.parts[0].endswith(".dist-info")
    return inside and path.suffix != ".py" and bool(_LEGAL.search("/".join(path.parts[1:])))


def _fonts() -> Iterator[str]:
    for path in sorted(folder("fonts").glob("*LICENSE*")):
        yield section(f"Font: {path.stem.partition('-')[0]}", path.read_text(encoding="utf-8"))
