"""The command ``serve``: the page, on this machine or for those in the house."""

from __future__ import annotations

import _thread
import errno
import gc
import io
import ipaddress
import logging
import os
import secrets
import signal
import socket
import threading
import webbrowser
from collections.abc import Collection
from typing import TYPE_CHECKING

import click

from templates_gen.cli.whole_number import WholeNumber
from templates_gen.errors import TemplatesGenError

if TYPE_CHECKING:
    from flask import Flask
    from waitress.server import BaseWSGIServer

PORT, LAST_PORT = 8137, 65535
THREADS = 8
MOST_CONNECTIONS = 2000
"""More than anyone opens by mistake; one that sends nothing on costs no thread, only a place."""
SECRET = 9
"""Random bytes in the address of a page that other machines can reach."""
ELSEWHERE = ("192.0.2.1", 9)
"""An address for documentation (RFC 5737): asking the way there sends nothing."""
WARNING = (
    "Warning: whoever is on your network and has this address can open the page and see what is"
    " sent over it. Use it at home or in the shop, not on a public network. Your cakes stay in the"
    " browser of each device."
)
ANYWHERE = ("0.0.0.0", "::")
"""Hosts that stand for every address of this machine."""


@click.command()
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="Address to listen on. With the default, only this computer can open the page.",
)
@click.option(
    "--port",
    type=WholeNumber(0, LAST_PORT),
    default=PORT,
    show_default=True,
    help="Port to listen on; 0 picks a free one.",
)
@click.option("--no-open", is_flag=True, help="Do not open a browser.")
def serve(host: str, port: int, no_open: bool) -> None:
    """Plan a cake in the browser and save its templates.

    Only this computer can open it, unless --host says otherwise: --host 0.0.0.0 lets a tablet on
    your network open it too. Stop it with Ctrl-C.
    """
    gc.enable()  # this run is long
    with listening_at(host, port) as listening:
        secret = "" if _only_here(host) else secrets.token_urlsafe(SECRET)
        port = listening.getsockname()[1]
        address = f"http://{_reachable(host)}:{port}/{secret and secret + '/'}"
        run_page(
            listening,
            names(host),
            secret,
            ready=_announcement(address, is_open=bool(secret)),
            opened=None if no_open else address,
        )
    click.echo("Stopped.")


def run_page(
    listening: socket.socket,
    hosts: Collection[str],
    secret: str = "",
    *,
    ready: str,
    opened: str | None,
    can_quit: bool = False,
) -> None:
    """Run the page until it is stopped; say ``ready`` and open an address once it answers.

    With ``can_quit`` the page itself can stop it.
    """
    from templates_gen.web.workers import Workers

    for stop in (signal.SIGINT, signal.SIGTERM):
        # where a shell starts it in the background, SIGINT would be ignored
        signal.signal(stop, _stop)
    workers = Workers()  # before all that has to be imported: it takes longest until they are ready
    # a short wait, or a browser that waits at the end, is nothing to tell a decorator of
    logging.getLogger("waitress").setLevel(logging.ERROR)

    def end() -> None:
        _thread.interrupt_main(signal.SIGTERM)
        server.pull_trigger()  # it may be waiting for a browser to ask

    try:
        from templates_gen.web.app import create_app

        server = _server(create_app(workers, hosts, secret, end if can_quit else None), listening)
        click.echo(ready)
        if opened:
            threading.Thread(target=webbrowser.open, args=(opened,), daemon=True).start()
        server.run()
    except SystemExit:
        pass  # stopped before it ran
    finally:
        workers.close()


def _server(app: Flask, listening: socket.socket) -> BaseWSGIServer:
    """Return what answers all that comes through a socket."""
    from waitress.server import BaseWSGIServer, create_server

    from templates_gen.web.answer import LARGEST_BODY
    from templates_gen.web.too_large import Channel

    server = create_server(
        app,
        sockets=[listening],
        threads=THREADS,
        ident="",
        max_request_body_size=2 * LARGEST_BODY,
        channel_timeout=30,
        connection_limit=MOST_CONNECTIONS,
        asyncore_use_poll=True,  # the other way has room for 1024 of all kinds
    )
    assert isinstance(server, BaseWSGIServer)  # as it is with one socket
    server.channel_class = Channel
    return server


def listening_at(host: str, port: int) -> socket.socket:
    """Return a socket that listens. Raises TemplatesGenError."""
    try:
        family = socket.AF_INET6 if ":" in host else socket.AF_INET
        return socket.create_server((host, port), family=family)
    except OSError as error:
        another = port + 1 if port < LAST_PORT else PORT
        raise TemplatesGenError(
            f"the page cannot be at {host}, port {port}: {_reason(error)}."
            f" Choose another port, such as --port {another}, or stop what is there"
        ) from None


def _reason(error: OSError) -> str:
    """Say why without repeating the address."""
    number = error.errno
    if number is not None and number in errno.errorcode:
        return os.strerror(number)
    return str(error)


def _stop(*_: object) -> None:
    raise SystemExit(0)


def _only_here(host: str) -> bool:
    """Tell whether what listens on a host can be reached from this machine alone."""
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return host.lower() == "localhost"


def _announcement(address: str, *, is_open: bool) -> str:
    """Return what is printed of a page that is ready."""
    end = "Stop it with Ctrl-C."
    if not is_open:
        return f"The page is at {address} (only this computer can open it)\n{end}"
    return (
        f"The page is at {address}\n\nOn a tablet, open this address or point the camera here:\n\n"
        f"{qr_code(address)}\n{WARNING}\n{end}"
    )


def qr_code(text: str) -> str:
    """Return a QR code in half blocks, for light letters on a dark terminal."""
    import segno

    written = io.StringIO()
    segno.make(text, micro=False).terminal(out=written, compact=True)
    return written.getvalue()


def own_address() -> str:
    """Return the address of this machine on its network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(ELSEWHERE)
            return str(asking.getsockname()[0])
        except OSError:  # no network
            return socket.gethostname()


def _reachable(host: str) -> str:
    """Return a host as an address has it that other devices can open."""
    if host in ANYWHERE:
        return own_address()
    return f"[{host}]" if ":" in host else host


def names(host: str) -> frozenset[str]:
    """Return the host names that requests for the page have when it listens on a host."""
    own = {"localhost", "127.0.0.1", "::1", host.lower()} - {*ANYWHERE}
    if host in ANYWHERE:
        machine = socket.gethostname().lower()
        own |= {machine, f"{machine}.local", own_address().lower()}
        own |= {str(found[4][0]) for found in socket.getaddrinfo(machine, None)}
    return frozenset(own)
