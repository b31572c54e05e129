"""The command ``serve``: the page, on this machine or for those in the house."""

from __future__ import annotations

import errno
import gc
import logging
import os
import signal
import socket
import threading
import webbrowser

import click

from templates_gen.errors import TemplatesGenError

PORT, LAST_PORT = 8137, 65535
THREADS = 8
ANYWHERE = ("0.0.0.0", "::")
"""Hosts that stand for every address of this machine."""


@click.command()
@click.option(
    "--host",
    default="127.0.0.1",
    show_default=True,
    help="Address to listen on; the usual one is for this machine only.",
)
@click.option(
    "--port",
    type=click.IntRange(0, LAST_PORT),
    default=PORT,
    show_default=True,
    help="Port to listen on; 0 takes one that is free.",
)
@click.option("--no-open", is_flag=True, help="Open no browser.")
def serve(host: str, port: int, no_open: bool) -> None:
    """Open the page: plan a cake in the browser, print the pack.

    It listens to this machine alone, unless --host says otherwise. Stop it with Ctrl-C.
    """
    from waitress.server import create_server

    from templates_gen.web.app import LARGEST_BODY, create_app
    from templates_gen.web.workers import Workers

    gc.enable()  # this run is long
    for stop in (signal.SIGINT, signal.SIGTERM):
        # where a shell starts it in the background, SIGINT would be ignored
        signal.signal(stop, _stop)
    # a short wait is nothing to tell a decorator of
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    with _listening(host, port) as listening:
        address = f"http://{_shown(host)}:{listening.getsockname()[1]}/"
        workers = Workers()
        try:
            server = create_server(
                create_app(workers, names(host)),
                sockets=[listening],
                threads=THREADS,
                ident="",
                max_request_body_size=2 * LARGEST_BODY,
                channel_timeout=30,
            )
            click.echo(f"The page is at {address}\nStop it with Ctrl-C.")
            if not no_open:
                threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
            server.run()
        except SystemExit:
            pass  # stopped before it ran
        finally:
            workers.close()
    click.echo("Stopped.")


def _listening(host: str, port: int) -> socket.socket:
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


def _shown(host: str) -> str:
    """Return a host as an address has it."""
    if host in ANYWHERE:
        return "localhost"
    return f"[{host}]" if ":" in host else host


def names(host: str) -> frozenset[str]:
    """Return the names under which the page is asked for when it listens on a host."""
    own = {"localhost", "127.0.0.1", "::1", host.lower()} - {*ANYWHERE}
    if host in ANYWHERE:
        machine = socket.gethostname().lower()
        own |= {machine, f"{machine}.local"}
        own |= {str(found[4][0]) for found in socket.getaddrinfo(machine, None)}
    return frozenset(own)


COMMANDS = {"serve": serve}
