"""The command ``menu``: an entry in the menu of the computer, and cake files that open in the page.

As the Desktop Entry, Icon Theme and Shared MIME-info specifications of freedesktop.org have it.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import click

from templates_gen.errors import FileError, TemplatesGenError

NAME = "templates-gen"
MIME = "application/x-templates-gen-cake+toml"
ENTRY = """\
[Desktop Entry]
Type=Application
Name=Cake templates
Comment=Paper templates for tiered cakes, at true size
Exec={command} open %f
TryExec={tried}
Icon={name}
Terminal=false
Categories=Graphics;
MimeType={mime};
"""
MIME_INFO = """\
<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="{mime}">
    <comment>Cake file</comment>
    <sub-class-of type="text/plain"/>
    <icon name="{name}"/>
    <glob pattern="*.cake.toml" weight="60"/>
  </mime-type>
</mime-info>
"""
UPDATES = (("update-mime-database", "mime"), ("update-desktop-database", "applications"))
"""Programs that make the system see the files, each with its folder."""


@click.command()
@click.option("--remove", is_flag=True, help="Take the entry out of the menu again.")
def menu(remove: bool) -> None:
    """Put the page into the menu of this computer, and let *.cake.toml files open in it.

    Writes three small files to your own folders; --remove deletes them. For Linux.
    """
    if not sys.platform.startswith("linux"):
        raise TemplatesGenError("This is for Linux: elsewhere, make a shortcut to the program")
    folder = _data_folder()
    written = {folder / name: text for name, text in _entries(_program()).items()}
    for path, text in written.items():
        _remove(path) if remove else _write(path, text)
    for program, inside in UPDATES:
        if shutil.which(program) and (folder / inside).is_dir():
            subprocess.run([program, folder / inside], check=False, capture_output=True)
    click.echo("Removed from the menu." if remove else "In the menu as “Cake templates”.")


def _data_folder() -> Path:
    from platformdirs import user_data_path

    return user_data_path(appauthor=False)


def _program() -> Path:
    """Return the file that starts this program."""
    return Path(sys.executable if hasattr(sys, "frozen") else sys.argv[0]).resolve()


def _entries(program: Path) -> dict[str, str]:
    """Return the text of each file by its path in the folder of the user's data."""
    icon = files("templates_gen.web").joinpath("static", "icon.svg").read_text(encoding="utf-8")
    values = {"name": NAME, "mime": MIME, "command": quoted(str(program)), "tried": program}
    return {
        f"icons/hicolor/scalable/apps/{NAME}.svg": icon,
        f"mime/packages/{NAME}.xml": MIME_INFO.format(**values),
        f"applications/{NAME}.desktop": ENTRY.format(**values),
    }


def quoted(text: str) -> str:
    """Return an argument as the key Exec of a desktop entry has it.

    Quoted by the rules for arguments, then with each backslash doubled, as in any value.
    """
    escaped = "".join(f"\\{char}" if char in '"`$\\' else char for char in text)
    return f'"{escaped}"'.replace("\\", "\\\\").replace("%", "%%")


def _write(path: Path, text: str) -> None:
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    except OSError as error:
        raise FileError(f"{path} cannot be written: {error.strerror}") from None


def _remove(path: Path) -> None:
    try:
        path.unlink(missing_ok=True)
    except OSError as error:
        raise FileError(f"{path} cannot be removed: {error.strerror}") from None
