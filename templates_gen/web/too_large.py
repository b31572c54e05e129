"""A request that is too large: read to its end and dropped, so that its sender gets an answer.

waitress answers once it knows how much is to come, and hangs up. What is then still on its way
resets the connection, and the answer is lost.
"""

from __future__ import annotations

from waitress.channel import HTTPChannel
from waitress.parser import HTTPRequestParser
from waitress.utilities import RequestEntityTooLarge

from templates_gen.web.answer import TOO_LARGE


class _Parser(HTTPRequestParser):
    """A request; of one that is too large, so many bytes are still to come."""

    _to_come = 0

    def received(self, data: bytes) -> int:
        """Take of some bytes what belongs to the request, and return how many that are."""
        if not self._to_come:
            taken = super().received(data)
            if isinstance(self.error, RequestEntityTooLarge) and self.body_bytes_received == 0:
                self.error = RequestEntityTooLarge(TOO_LARGE)
                self._to_come = self.content_length
                self.completed = False
            return taken
        taken = min(self._to_come, len(data))
        self._to_come -= taken
        self.completed = self._to_come == 0
        return taken


class Channel(HTTPChannel):
    """A connection on which every request is answered, also one that is too large."""

    parser_class = _Parser
