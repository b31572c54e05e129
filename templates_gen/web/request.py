"""What the browser asks: a cake as JSON, and the files that were chosen for it, in one body.

What no page sends is refused as a RequestError, whatever else is in it.

No name from a browser is ever opened: a file is what lies in the body, or it is refused.
"""

from __future__ import annotations

import base64
import binascii
import json
import re
from collections.abc import Mapping
from typing import Any

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.keys import KeyInfo, changed
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.rules import clip
from templates_gen.drawing.attached import Attached
from templates_gen.errors import CakeError, TemplatesGenError

Body = dict[str, Any]
Options = Mapping[str, str]
"""What a job takes: a JSON object, and the words of the address."""
MOST_TIERS = 12
"""Tiers of a cake on the page, so that no answer takes long."""
MOST_FILES = 20
MOST_NESTED = 40
"""Tables and lists within each other, ten times what a cake has."""


class RequestError(TemplatesGenError):
    """A request that no page sends."""


def body_of(content: bytes) -> dict[str, Any]:
    """Return the JSON object of a request. Raises RequestError."""
    try:
        # half of a pair of UTF-16 is no character, yet JSON can escape it
        body = json.loads(content.decode())
        json.dumps(body, ensure_ascii=False).encode()
    except RecursionError:
        raise RequestError(_nested()) from None
    except ValueError as error:
        raise RequestError(f"the request is no JSON: {clip(str(error))}") from None
    if not isinstance(body, dict):
        raise RequestError("the request is no JSON object")
    if is_deep(body):
        raise RequestError(_nested())
    return body


def _nested() -> str:
    return f"tables within tables: more than {MOST_NESTED} levels, and a cake has four"


def is_deep(value: object) -> bool:
    """Tell whether tables and lists lie deeper in each other than in any cake."""
    level = [value]
    for _ in range(MOST_NESTED):
        level = [inner for each in level for inner in _inside(each)]
        if not level:
            return False
    return True


def _inside(value: object) -> list[Any]:
    if isinstance(value, dict):
        return list(value.values())
    return value if isinstance(value, list) else []


def table_of(body: Body, key: str) -> dict[str, Any]:
    """Return a table of a body. Raises RequestError where it has none."""
    table = body.get(key)
    if not isinstance(table, dict):
        raise RequestError(f"there is no {key}")
    return table


def text_of(body: Body, key: str) -> str:
    """Return a text of a body, empty where it has none. Raises RequestError."""
    text = body.get(key, "")
    if not isinstance(text, str):
        raise RequestError(f"{key} is no text")
    return text


def degrees(text: str) -> int:
    """Return a whole number of degrees. Raises RequestError."""
    if not re.fullmatch(r"-?[0-9]{1,3}", text):
        raise RequestError(f"turn “{clip(text)}” is no whole number of degrees")
    return int(text)


def cake_of(body: Body) -> Cake:
    """Return the cake of a body. Raises CakeError with all problems, RequestError for bad files."""
    data = body.get("cake")
    if not isinstance(data, dict):
        raise RequestError("this is no cake: an object with the keys of a cake file is needed")
    tiers = data.get("tier")
    if isinstance(tiers, list) and len(tiers) > MOST_TIERS:
        raise CakeError.at(
            ("tier",),
            f"{len(tiers)} tiers",
            f"up to {MOST_TIERS} on this page",
            "leave some out, or make the pack of so large a cake with templates-gen pack",
        )
    return cake_from(with_files(data, body.get("files")))


def with_files(data: Mapping[str, Any], files: object) -> dict[str, Any]:
    """Return the data of a cake with the chosen files in the place of their names.

    Raises RequestError for bad files.
    """
    chosen = files_of(files)

    def attached(key: KeyInfo, value: Any) -> Any:  # noqa: ANN401 (any TOML value)
        is_chosen = key.kind == "file" and isinstance(value, str) and value in chosen
        if is_chosen and value.lower().endswith(key.endings):
            return Attached(value, chosen[value])
        return value

    return changed(data, attached)


def files_of(files: object) -> dict[str, bytes]:
    """Return the content of files sent as base64 by name. Raises RequestError."""
    if files is None:
        return {}
    if not isinstance(files, dict) or len(files) > MOST_FILES:
        raise RequestError(f"files are an object of up to {MOST_FILES} names, each with its base64")
    return {name: content_of(name, text) for name, text in files.items()}


def content_of(name: str, text: object) -> bytes:
    """Return the content of a file sent as base64. Raises RequestError."""
    try:
        return base64.b64decode(text if isinstance(text, str) else "?", validate=True)
    except (binascii.Error, ValueError):
        raise RequestError(f"the file “{clip(name)}” is not sent as base64") from None
