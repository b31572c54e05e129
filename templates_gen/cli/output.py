"""Files: written whole beside their place, then put in it, so that none is ever half-written."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from templates_gen.errors import FileError


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all files or, when one cannot be written, none. Raises FileError."""
    drafts: dict[Path, Path] = {}
    try:
        for place, content in files.items():
            place.parent.mkdir(parents=True, exist_ok=True)
            if place.is_dir():
                raise IsADirectoryError(0, "a folder has this name", str(place))
            draft = place.with_name(f".{place.name}.{os.getpid()}.part")
            drafts[draft] = place
            draft.write_bytes(content)
        for draft, place in drafts.items():
            draft.replace(place)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        name = getattr(error, "filename", None) or ""
        raise FileError(
            f"{name} cannot be written: {reason}. Nothing was changed; choose another place"
        ) from None
    finally:
        for draft in drafts:
            with suppress(OSError):
                draft.unlink(missing_ok=True)
