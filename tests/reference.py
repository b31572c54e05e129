"""What the README shows of the program: keys, commands, a printed sheet, the gallery of designs.

``python -m tests.reference`` writes them; a test fails while they differ.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from functools import cache
from pathlib import Path

import click
from pydantic import BaseModel

from templates_gen import PAPERS, Pack, write_pdf
from templates_gen.cakefile.keys import KeyInfo, keys_of, tables
from templates_gen.cakefile.model import Cake
from templates_gen.cli import COMMANDS, main
from templates_gen.cover.pack import make_pack
from templates_gen.plan import make_plan
from tests import shape_gallery
from tests.cakes import sample
from tests.gallery import GALLERY, gallery
from tests.judges import run

README = Path(__file__).resolve().parent.parent / "README.md"
SAMPLES = README.parent / "samples"
PICTURED = "harbour-wedding"
TABLES: dict[str, type[BaseModel]] = {"at the top": Cake, **dict(tables())}


def keys() -> str:
    """Return a table of keys for each table of the cake file."""
    parts = []
    for name, model in TABLES.items():
        parts.append(f"**{name}**\n\n| key | example | meaning |\n|---|---|---|")
        parts[-1] += "".join(
            f"\n| `{info.name}` | `{info.example}` | {_meaning(info)} |"
            for info in keys_of(model).values()
        )
    return "\n\n".join(parts)


def _meaning(info: KeyInfo) -> str:
    """Return the description, the words to choose from, and what holds when it is left out."""
    text = info.description
    words = [f"`{word}`" for word in info.words if info.kind == "words"]
    if words and not all(word.strip("`") in text for word in words):
        text += f" ({' or '.join(words)})"
    if info.required:
        return f"{text}; needed"
    default = info.default
    if default is None or default in ("", ()) or isinstance(default, BaseModel | bool):
        return text
    return f"{text}; left out: {default}"


def commands() -> str:
    """Return the help of every command."""
    parts = []
    for name in COMMANDS:
        command = main.get_command(click.Context(main), name)
        assert command is not None
        parent = click.Context(main, info_name="templates-gen", **main.context_settings)
        context = click.Context(command, info_name=name, parent=parent, terminal_width=100)
        parts.append(f"```text\n{command.get_help(context)}\n```")
    return "\n\n".join(parts)


def written(text: str) -> str:
    """Return a README with both parts as the program has them."""
    for name, part in (("keys", keys()), ("commands", commands())):
        start = re.search(rf"<!-- {name}: [^\n]*-->\n", text)
        assert start is not None, name
        end = text.index(f"<!-- end of {name} -->")
        text = f"{text[: start.end()]}\n{part}\n\n{text[end:]}"
    return text


def _most_collars(pack: Pack) -> int:
    """Return the number of the sheet with the most windows of collars."""
    most = max(
        pack.sheets, key=lambda sheet: sum(each.piece.kind == "collar" for each in sheet.windows)
    )
    return most.number


def _most_folds(pack: Pack) -> int:
    """Return the number of the sheet with the most templates on the fold and tapes."""
    most = max(
        pack.sheets,
        key=lambda sheet: sum(each.piece.unfolding is not None for each in sheet.windows),
    )
    return most.number


PICTURES: dict[str, Callable[[Pack], int]] = {
    "printed-sheet.png": _most_collars,
    "fold-sheet.png": _most_folds,
    "cover.png": lambda _: 1,
    "bench-list.png": lambda _: 2,
}
"""The pictures of the README, and which sheet of the pack each shows."""


def picture(name: str) -> bytes:
    """Return a sheet of a sample as a small grey PNG, drawn by Poppler."""
    with tempfile.TemporaryDirectory() as folder:
        pdf, png = Path(folder) / "pack.pdf", Path(folder) / "sheet"
        pack = _pack()
        pdf.write_bytes(write_pdf(pack))
        page = str(PICTURES[name](pack))
        run(
            "pdftoppm", "-f", page, "-l", page, "-r", "70", "-gray", "-png", "-singlefile", pdf, png
        )
        return png.with_suffix(".png").read_bytes()


@cache
def _pack() -> Pack:
    cake = sample(PICTURED)
    return make_pack(make_plan(cake), PAPERS["a4"])


if __name__ == "__main__":
    README.write_text(written(README.read_text(encoding="utf-8")), encoding="utf-8")
    for name in PICTURES:
        (SAMPLES / name).write_bytes(picture(name))
    GALLERY.write_text(gallery(), encoding="utf-8")
    shape_gallery.GALLERY.write_text(shape_gallery.gallery(), encoding="utf-8")
