"""The floor of the benchmark: the least work that a pack drawn with the same libraries can be.

Run as ``python tests/benchmark_floor.py RECORDING OUT.pdf``. It imports the third-party modules
that the pack process imports, makes again the calls which that process made to reportlab, and
writes the PDF. It reads no cake, builds no piece, lays out no sheet and writes no SVG.
"""

from __future__ import annotations

import pickle
import sys
from importlib import import_module
from io import BytesIO
from pathlib import Path
from typing import Any

Call = tuple[int, str, int | None, tuple[Any, ...], dict[str, Any]]
"""The numbers of the object called and of the object given first, if any; other arguments."""
FIRST = 2
"""The number of what the first call returns: 0 is reportlab's canvas module, 1 the open file."""


def replay(fonts: dict[str, str], calls: list[Call]) -> bytes:
    """Return the PDF that recorded calls draw."""
    from reportlab import rl_config
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen import canvas

    rl_config.useA85 = 0
    for face, place in fonts.items():
        pdfmetrics.registerFont(TTFont(face, place))
    file = BytesIO()
    made: dict[int, Any] = {0: canvas, 1: file}
    for number, (called, method, given, plain, named) in enumerate(calls, FIRST):
        call = getattr(made[called], method)
        result = call(*plain, **named) if given is None else call(made[given], *plain, **named)
        if result is not None:
            made[number] = result
    return file.getvalue()


def main(recording: str, out: str) -> None:
    """Import the libraries, replay the recording, write the PDF."""
    modules, fonts, calls = pickle.loads(Path(recording).read_bytes())
    for module in modules:
        import_module(module)
    Path(out).write_bytes(replay(fonts, calls))


if __name__ == "__main__":
    main(*sys.argv[1:])
