"""The page for a WSGI server, such as ``gunicorn "templates_gen.web.wsgi:create('cake.school')"``.

The application keeps nothing between requests, so any number of these, on any number of machines,
may stand behind one name.
"""

from __future__ import annotations

import atexit

from flask import Flask

from templates_gen.web.app import create_app
from templates_gen.web.workers import Workers

LOCAL = ("localhost", "127.0.0.1", "::1")


def create(*hosts: str, processes: int = 1) -> Flask:
    """Return the page as an application that answers to the names ``hosts``, and to this machine.

    Each application has ``processes`` processes for edits, and one for what takes longer.
    """
    workers = Workers(processes)
    atexit.register(workers.close)
    return create_app(workers, {*(host.lower() for host in hosts), *LOCAL})
