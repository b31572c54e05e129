"""How a bundle is made: what goes in, what stays out, and a ZIP of it."""

from __future__ import annotations

import ast
import os
import platform
import shutil
import stat
import subprocess
import sys
import sysconfig
import tempfile
import zipfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from templates_gen.bundle import start
from templates_gen.cli.open_page import HOST
from templates_gen.cli.serve import PORT
from templates_gen.errors import TemplatesGenError
from templates_gen.licences import COLLECTED, licences, package_licences, section
from templates_gen.resources import folder
from templates_gen.version import VERSION

PROGRAM = "templates-gen"
LEFT_OUT = (
    "tkinter",  # windows of another kind
    "unittest",  # tests
    "setuptools",  # making packages
    "distutils",
    "pydoc_data",
    "templates_gen.bundle.recipe",
    "templates_gen.bundle.__main__",
    "PIL._avif",  # kinds of photographs that no template has
    "PIL._webp",
    "mypy",  # types
)
UNIX = 3
"""A ZIP's number for the systems that have links (PKWARE's APPNOTE, 4.4.2)."""
LINK = stat.S_IFLNK | 0o777
README = """\
Cake templates
==============

Double-click {program}: after a few seconds the page opens in your browser.
Choose Quit on the page to end it.

If no page opens, open {address} in your browser yourself.
If it could not start, a page in your browser says why.

It needs nothing else on this computer, and writes nothing into this folder. Your cakes
are kept in your browser. For a newer version, unpack its ZIP and remove this folder:
your cakes and your measured printers stay. Removing this folder removes the program.

In a terminal it takes every command: {command} --help
{menu}The licences of all that is in here: licences.txt
"""


def make(out: Path) -> tuple[Path, Path]:
    """Make a bundle for this system; return its folder and its ZIP.

    Raises TemplatesGenError where the tool for it is not installed.
    """
    try:
        from PyInstaller.__main__ import run
    except ImportError:
        raise TemplatesGenError(
            "PyInstaller is not installed. Install it with: pip install 'templates_gen[bundle]'"
        ) from None
    name = f"{PROGRAM}-{VERSION}-{platform.system()}-{platform.machine()}".lower()
    with tempfile.TemporaryDirectory() as work:
        licence_file = Path(work) / COLLECTED
        licence_file.write_text(licences(), encoding="utf-8")
        run(list(_arguments(Path(work))))
        made = Path(work) / "dist" / PROGRAM
        text = licences() + "".join(_more_licences(Path(work) / "build" / PROGRAM))
        for path in (made / COLLECTED, made / "_internal" / "templates_gen" / COLLECTED):
            path.write_text(text, encoding="utf-8")
        (made / "README.txt").write_text(_readme(made), encoding="utf-8")
        _strip(made / "_internal")
        target = out / name
        if target.exists():
            shutil.rmtree(target)
        out.mkdir(parents=True, exist_ok=True)
        shutil.move(made, target)
    return target, _zipped(target)


def _arguments(work: Path) -> Iterator[str]:
    """Yield the arguments of PyInstaller."""
    inside = "templates_gen"
    yield from ("--noconfirm", "--onedir", "--console", "--log-level", "WARN")
    yield from ("--name", PROGRAM, "--distpath", str(work / "dist"))
    yield from ("--workpath", str(work / "build"), "--specpath", str(work))
    yield from ("--collect-submodules", inside, "--collect-data", f"{inside}.web")
    for name in ("fonts", "samples"):
        for path in sorted(folder(name).glob("*.*")):
            if path.suffix not in (".png", ".svg"):
                yield from ("--add-data", f"{path}:{inside}/{name}")
    for module in LEFT_OUT:
        yield from ("--exclude-module", module)
    yield str(Path(start.__file__))


def _readme(made: Path) -> str:
    """Return the words of a bundle on how to start it, by the name its program has here."""
    program = next(path.name for path in made.iterdir() if path.stem == PROGRAM)
    command = f".{os.sep}{program}"
    menu = f"To have it in the menu of your computer: {command} menu\n"
    return README.format(
        program=program,
        command=command,
        address=f"http://{HOST}:{PORT}/",
        menu=menu if sys.platform.startswith("linux") else "",
    )


def _strip(inside: Path) -> None:
    """Take what only a debugger reads out of the libraries of Python itself."""
    tool = shutil.which("strip")
    if tool is None:
        return
    for path in (*inside.glob("libpython*"), *inside.glob("python*/lib-dynload/*.so")):
        subprocess.run([tool, "--strip-unneeded", path], check=True)


def _more_licences(build: Path) -> Iterator[str]:
    """Yield the licences of what is not a Python package: Python, its starter, system libraries."""
    text = Path(sysconfig.get_path("stdlib")) / "LICENSE.txt"
    known = text.read_text(encoding="utf-8") if text.is_file() else sys.copyright
    yield section(f"Python {platform.python_version()}", known)
    yield from list(package_licences("pyinstaller"))[:1]
    for package, licence in sorted(_system_licences(build).items()):
        yield section(f"System library: {package}", licence.read_text("utf-8", errors="replace"))


def _system_licences(build: Path) -> dict[str, Path]:
    """Return the licence of each package of the system that a library was taken from."""
    query = shutil.which("dpkg-query")
    if query is None:
        return {}
    found = {}
    for library in sorted(_system_libraries(build)):
        answer = subprocess.run(
            [query, "--search", f"*/{library.name}"], capture_output=True, text=True, check=False
        )
        package = answer.stdout.partition(":")[0]
        licence = Path("/usr/share/doc", package, "copyright")
        if package and licence.is_file():
            found[package] = licence
    return found


def _system_libraries(build: Path) -> set[Path]:
    """Return the libraries in a bundle that come from neither Python nor its packages."""
    [entries] = ast.literal_eval((build / "COLLECT-00.toc").read_text(encoding="utf-8"))
    own = tuple({sys.prefix, sys.base_prefix})
    return {
        Path(source)
        for _, source, kind in entries
        if kind == "BINARY" and not source.startswith(own)
    }


def _zipped(bundle: Path) -> Path:
    """Return a ZIP of a bundle, beside it, that keeps which files can be started."""
    target = bundle.with_name(f"{bundle.name}.zip")
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for path in sorted(bundle.rglob("*")):
            name = path.relative_to(bundle.parent)
            if path.is_symlink():
                link = zipfile.ZipInfo(str(name))
                link.create_system, link.external_attr = UNIX, LINK << 16
                archive.writestr(link, str(path.readlink()))
            else:
                archive.write(path, name)
    return target


def weights(bundle: Path) -> list[tuple[str, int]]:
    """Return the parts of a bundle with their bytes, the heaviest first.

    A part is a folder or file of those inside, or beside them.
    """
    found: Counter[str] = Counter()
    for path in bundle.rglob("*"):
        if path.is_file() and not path.is_symlink():
            parts = path.relative_to(bundle).parts
            found[parts[1] if len(parts) > 1 else parts[0]] += path.stat().st_size
    return found.most_common()
