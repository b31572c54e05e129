"""The command ``open``: what a double-click does, on the program or on a cake file."""

from __future__ import annotations

import base64
import gc
import json
import socket
import webbrowser
import zlib
from http.client import HTTPConnection, HTTPException
from pathlib import Path

import click

from templates_gen.cli.serve import LAST_PORT, PORT, listening_at, names, run_page
from templates_gen.cli.whole_number import WholeNumber
from templates_gen.errors import FileError, TemplatesGenError
from templates_gen.version import VERSION

HOST = "127.0.0.1"
PORTS = 10
"""How many ports are tried: the page is at the first that no other program has."""
PATIENCE = 20.0
"""How long another that was just started may take to answer, s."""
LONGEST = 32_000
"""Characters of an address that every browser takes."""


@click.command("open")
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option(
    "--port",
    type=WholeNumber(1, LAST_PORT - PORTS),
    default=PORT,
    show_default=True,
    help=f"Port to listen on, or one of the {PORTS - 1} after it if another program is there.",
)
@click.option("--no-open", is_flag=True, help="Do not open a browser.")
def open_page(file: Path | None, port: int, no_open: bool) -> None:
    """Open the page in the browser, and FILE, a cake file, in it.

    A page that is open already on this computer is used; Quit on the page ends the program.
    """
    fragment = "" if file is None else f"#file={packed(file)}"
    listening, address = _place(port)
    opened = address + fragment
    if listening is None:
        click.echo(f"The page is running already: {address}")
        if not no_open:
            webbrowser.open(opened)
        return
    gc.enable()  # this run is long
    with listening:
        run_page(
            listening,
            names(HOST),
            ready=f"The page is at {address} (only this computer can open it)\n"
            "To stop it, choose Quit on the page.",
            opened=None if no_open else opened,
            can_quit=True,
        )


def _place(first: int) -> tuple[socket.socket | None, str]:
    """Return a socket for the page, or None where it is running already, and its address."""
    for port in range(first, first + PORTS):
        address = f"http://{HOST}:{port}/"
        try:
            return listening_at(HOST, port), address
        except TemplatesGenError:
            if _is_own(port):
                return None, address
    raise TemplatesGenError(
        f"other programs are at all ports from {first} to {first + PORTS - 1}."
        " Choose another with --port, or stop one of them"
    )


def _is_own(port: int) -> bool:
    """Tell whether the page of this version answers at a port."""
    asking = HTTPConnection(HOST, port, timeout=PATIENCE)
    try:
        asking.request("GET", "/alive")
        answer = json.loads(asking.getresponse().read(1000))
        return bool(answer == {"name": "templates-gen", "version": VERSION})
    except (OSError, HTTPException, ValueError):
        return False
    finally:
        asking.close()


def packed(file: Path) -> str:
    """Return a cake file as a fragment holds it. Raises FileError."""
    from templates_gen.cakefile.reading import read_text  # seldom needed, and slow to import

    text = read_text(file).text
    packing = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)  # as browsers unpack it
    packed = packing.compress(json.dumps({"name": file.name, "text": text}).encode())
    found = base64.urlsafe_b64encode(packed + packing.flush()).decode().rstrip("=")
    if len(found) > LONGEST:
        raise FileError(f"{file} is too long to open this way: choose Open… on the page")
    return found
