"""The printers that were measured, kept by name in the user's configuration folder."""

from __future__ import annotations

import tomllib
from collections.abc import Collection, Mapping
from pathlib import Path
from typing import Any

from templates_gen.cakefile.lengths import LengthError, parse_length, parse_two
from templates_gen.cakefile.printers import ALLOWED, BAR, MEASURE, Printer, measured
from templates_gen.cakefile.slug import slug
from templates_gen.cakefile.spelling import hint
from templates_gen.errors import CakeError, FileError
from templates_gen.units import decimal

_HEAD = "# Printers measured with templates-gen printer.\n"


def store_file() -> Path:
    """Return the file that holds the printers of this user; it need not be there."""
    from platformdirs import user_config_path

    return user_config_path("templates-gen", appauthor=False) / "printers.toml"


def stored_printers() -> dict[str, Printer]:
    """Return the printers of this user by name. Raises FileError for a file that is broken."""
    file = store_file()
    try:
        tables = tomllib.loads(file.read_text(encoding="utf-8"))
        return {name: _printer(name, table) for name, table in tables.items()}
    except FileNotFoundError:
        return {}
    except OSError as error:
        raise FileError(f"{file} cannot be read: {error.strerror}") from None
    except (ValueError, LengthError) as error:
        raise FileError(
            f"{file} does not hold printers as templates-gen printer writes them: {error}."
            " Mend it, or delete it and measure again"
        ) from None


def printers_text(printers: Mapping[str, Printer]) -> str:
    """Return the text of the file that holds these printers."""
    import tomlkit

    document = tomlkit.document()
    for name, printer in sorted(printers.items()):
        bars = (f"{decimal(scale * BAR)} mm" for scale in (printer.across, printer.up))
        table = {"measured": " x ".join(bars)}
        for key in ("margin_sides", "margin_ends"):
            mm = getattr(printer, key)
            table |= {} if mm is None else {key: f"{decimal(mm)} mm"}
        document[name] = table
    return _HEAD + tomlkit.dumps(document)


def printer_named(name: str | None) -> Printer | None:
    """Return a stored printer by its name, whatever its capitals, or one by what its bars read.

    None without a name. Raises CakeError, at the key ``printer``, for a name that is not stored
    on this computer, and for bars of a printer that is not set to 100 %.
    """
    if name is None:
        return None
    stored = stored_printers()
    for printer in stored.values():
        if slug(printer.name) == slug(name):
            return printer
    try:
        bars = parse_two(name, "mm")
    except LengthError:
        raise _no_printer(name, stored) from None
    written = " x ".join(decimal(bar.mm, 2) for bar in bars)
    try:
        return measured(f"{written} mm", name, None, None)
    except LengthError as error:
        raise CakeError.at(("printer",), error.found, error.allowed, error.advice) from None


def _no_printer(name: str, stored: Collection[str]) -> CakeError:
    """Return the error of a name that is neither a printer nor what two bars read."""
    try:
        parse_length(name, "mm")
    except LengthError:
        known = ", ".join(stored) or "none yet"
        found = f"“{name}”, a printer that was not measured on this computer"
        allowed = f"{ALLOWED}; or a printer measured with templates-gen printer: {known}"
        return CakeError.at(("printer",), found, allowed, hint(name, stored) or MEASURE)
    return CakeError.at(("printer",), f"“{name}”, one length of two", ALLOWED, MEASURE)


def _printer(name: str, table: Any) -> Printer:  # noqa: ANN401 (any TOML value)
    if not isinstance(table, dict) or not all(isinstance(text, str) for text in table.values()):
        raise ValueError(f"{name} is no table of texts")
    if "measured" not in table:
        raise ValueError(f"[{name}] lacks measured")
    margins = (table.get(key) for key in ("margin_sides", "margin_ends"))
    sides, ends = (None if text is None else parse_length(text, "mm") for text in margins)
    return measured(name, table["measured"], sides, ends)
