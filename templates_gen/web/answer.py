"""What goes back to the browser, and how much may come from it.

The server imports this and nothing that takes long, so that the page is soon there.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

JSON, PDF = "application/json", "application/pdf"
LARGEST_BODY = 1_000_000
"""Bytes of a request at the most, and what is said of more."""
TOO_LARGE = (
    f"this is more than the page takes at once, {LARGEST_BODY // 1_000_000} MB: use a smaller file"
)
LARGEST_FILE = LARGEST_BODY * 7 // 10
"""Bytes of a file that is sent with a cake: base64 makes it a third larger."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What goes back to the browser; ``name`` is that of the file it may be kept as."""

    content: bytes
    kind: str = JSON
    status: int = 200
    name: str = ""


def json_answer(data: Any, status: int = 200) -> Answer:  # noqa: ANN401 (any JSON value)
    """Return an answer of data."""
    return Answer(json.dumps(data, allow_nan=False).encode(), status=status)


def refusal(message: str, status: int, problems: Sequence[Mapping[str, Any]] = ()) -> Answer:
    """Return the answer to what cannot be done."""
    return json_answer({"message": message, "problems": list(problems)}, status)
