"""What a PDF goes through on its way to paper: Ghostscript, and the filter of CUPS."""

from __future__ import annotations

import os
import subprocess
import tempfile
from pathlib import Path

import pytest

from tests.judges import run

PDFTOPDF = Path("/usr/lib/cups/filter/pdftopdf")
SIZES = {"A4": (595.276, 841.89), "Letter": (612.0, 792.0)}
"""Papers of the printer, points."""
MARGINS = (18.0, 36.0)
"""What the printer leaves blank at the sides and the ends, points: 6.4 and 12.7 mm."""
HEAD = """*PPD-Adobe: "4.3"
*FormatVersion: "4.3"
*FileVersion: "1.0"
*LanguageVersion: English
*LanguageEncoding: ISOLatin1
*PCFileName: "TEST.PPD"
*Manufacturer: "Test"
*Product: "(Test)"
*ModelName: "Test"
*ShortNickName: "Test"
*NickName: "Test"
*PSVersion: "(3010.000) 0"
*LanguageLevel: "3"
*ColorDevice: False
*DefaultColorSpace: Gray
*OpenUI *PageSize/Media Size: PickOne
*OrderDependency: 10 AnySetup *PageSize
"""


def ppd(paper: str) -> str:
    """Return the description of a printer with both papers, one of them in its tray (PPD 4.3)."""
    parts = [HEAD, f"*DefaultPageSize: {paper}\n"]
    for name, (width, height) in SIZES.items():
        code = f'"<</PageSize[{width} {height}]>>setpagedevice"'
        parts.append(f"*PageSize {name}/{name}: {code}\n")
    parts.append("*CloseUI: *PageSize\n")
    parts.append(f"*DefaultImageableArea: {paper}\n*DefaultPaperDimension: {paper}\n")
    for name, (width, height) in SIZES.items():
        sides, ends = MARGINS
        area = f'"{sides} {ends} {width - sides} {height - ends}"'
        parts.append(f"*ImageableArea {name}: {area}\n")
        parts.append(f'*PaperDimension {name}: "{width} {height}"\n')
    return "".join(parts)


def by_ghostscript(pdf: bytes) -> bytes:
    """Return a PDF as Ghostscript writes it anew, pages upright as they were."""
    with tempfile.TemporaryDirectory() as folder:
        source, made = Path(folder) / "in.pdf", Path(folder) / "out.pdf"
        source.write_bytes(pdf)
        run(
            "gs",
            "-q",
            "-dAutoRotatePages=/None",
            "-dBATCH",
            "-dNOPAUSE",
            "-sDEVICE=pdfwrite",
            f"-o{made}",
            source,
        )
        return made.read_bytes()


def by_cups(pdf: bytes, paper: str, scaling: str) -> bytes:
    """Return the pages that CUPS' filter makes of a PDF for the paper in the tray."""
    if not PDFTOPDF.exists():
        message = f"the outside judge {PDFTOPDF} is not installed"
        pytest.fail(message) if os.environ.get("CI") else pytest.skip(message)
    with tempfile.TemporaryDirectory() as folder:
        source, description = Path(folder) / "in.pdf", Path(folder) / "printer.ppd"
        source.write_bytes(pdf)
        description.write_text(ppd(paper))
        options = f"PageSize={paper} print-scaling={scaling}"
        done = subprocess.run(
            [PDFTOPDF, "1", "someone", "pack", "1", options, source],
            env={**os.environ, "PPD": str(description)},
            capture_output=True,
            check=True,
        )
        return done.stdout
