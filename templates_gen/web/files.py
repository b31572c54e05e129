"""Cake files for the page: opened as data."""

from __future__ import annotations

from typing import Any

from templates_gen.cakefile.editing import plain
from templates_gen.cakefile.reading import decoded, parse_cake, parse_data
from templates_gen.errors import CakeError, FileError
from templates_gen.web.request import is_deep

Data = dict[str, Any]


def opened(text: str, name: str) -> Data:
    """Return the data of a cake file, also of a cake that is wrong.

    Raises CakeError or FileError for a text that is no TOML.
    """
    source = decoded(text.encode("utf-8", "replace"), name)
    if "\0" in text:
        raise FileError(f"{name} is no text, as a cake file is: its name ends in .toml")
    found = parse_data(source)
    if is_deep(found):
        raise FileError(f"{name} has tables within tables, deeper than any cake file")
    try:
        parse_cake(source)
    except CakeError as error:
        if any(not problem.key for problem in error.problems):
            raise
    data: Data = plain(found)
    return data
