"""The page stands several decorators at once."""

from __future__ import annotations

from tests.web.load import load, memory
from tests.web.server import serving

ROOM = 150e6
"""Bytes that a server may grow by while its memory of pieces fills."""


def test_eight_clients_at_once() -> None:
    """For a few seconds: no error, every client is served, memory is bounded."""
    with serving() as server:
        load(server, 2, 1.0)
        before = memory(server)
        measured = load(server, 8, 4.0)
        assert measured.errors == []
        assert len(measured.seconds) >= 8
        assert memory(server) - before < ROOM
