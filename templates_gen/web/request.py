"""What the browser asks: a cake as JSON, and the files that were chosen for it, in one body.

No name from a browser is ever opened: a file is what lies in the body, or it is refused.
"""

from __future__ import annotations

import base64
import binascii
from collections.abc import Mapping
from typing import Any

from templates_gen.cakefile.attached import Attached
from templates_gen.cakefile.model import Cake
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.rules import clip
from templates_gen.errors import CakeError, FileError, Problem
from templates_gen.web.form import Field, form

MOST_TIERS = 12
"""Tiers of a cake on the page, so that no answer takes long."""
MOST_FILES = 20


def cake_of(data: object, files: object = None) -> Cake:
    """Return the cake of a body. Raises CakeError with every problem, FileError for bad files."""
    if not isinstance(data, dict):
        raise FileError("this is no cake: an object with the keys of a cake file is needed")
    tiers = data.get("tier")
    if isinstance(tiers, list) and len(tiers) > MOST_TIERS:
        raise CakeError(
            [
                Problem(
                    ("tier",),
                    f"{len(tiers)} tiers",
                    f"up to {MOST_TIERS} on this page",
                    "leave some out, or make the pack of so large a cake with templates-gen pack",
                )
            ]
        )
    return cake_from(_attached(data, form(), files_of(files)))


def files_of(files: object) -> dict[str, bytes]:
    """Return the content of files sent as base64 by name. Raises FileError."""
    if files is None:
        return {}
    if not isinstance(files, dict) or len(files) > MOST_FILES:
        raise FileError(f"files are an object of up to {MOST_FILES} names, each with its base64")
    return {name: _content(name, text) for name, text in files.items()}


def _content(name: str, text: object) -> bytes:
    try:
        return base64.b64decode(text if isinstance(text, str) else "?", validate=True)
    except (binascii.Error, ValueError):
        raise FileError(f"the file “{clip(name)}” is not sent as base64") from None


def _attached(
    data: Mapping[str, Any], fields: tuple[Field, ...], files: Mapping[str, bytes]
) -> dict[str, Any]:
    """Return the data with the chosen files in the place of their names."""
    found = dict(data)
    for field in fields:
        value = found.get(field.key)
        if field.kind == "file" and isinstance(value, str):
            if value in files and value.lower().endswith(field.endings):
                found[field.key] = Attached(value, files[value])
        elif isinstance(value, dict) and field.fields:
            found[field.key] = _attached(value, field.fields, files)
        elif isinstance(value, list) and field.fields:
            found[field.key] = [
                _attached(each, field.fields, files) if isinstance(each, dict) else each
                for each in value
            ]
    return found
