"""Files that a cake file speaks of: read beside it, whole, when the cake is read."""

from __future__ import annotations

from pathlib import Path

from pydantic import PlainValidator, ValidationInfo

from templates_gen.cakefile.files import content_of, reason
from templates_gen.cakefile.rules import broken, clip, quoted
from templates_gen.drawing.attached import Attached


def attached(endings: tuple[str, ...], largest: int) -> PlainValidator:
    """Return what reads a file of one of the kinds, of up to ``largest`` bytes.

    Its name is looked up in the folder of the context, that of the cake file.
    """

    def read(value: object, info: ValidationInfo) -> Attached:
        if isinstance(value, Attached):
            return value
        allowed = f"the name of a file that ends in {' or '.join(endings)}"
        if not isinstance(value, str) or not value.lower().endswith(endings):
            raise broken(quoted(value), allowed)
        folder = (info.context or {}).get("folder")
        if folder is None:
            raise broken(
                f"{quoted(value)}, which is not with the cake",
                "a file that is at hand",
                "choose the file again; in a cake file that is handed on as text, give its folder",
            )
        return Attached(value, _content(folder, value, largest))

    return PlainValidator(read)


def _content(folder: Path, name: str, largest: int) -> bytes:
    try:
        content = content_of(folder / name, largest + 1)
    except (OSError, ValueError) as error:
        raise broken(
            f"“{clip(name)}”, which cannot be read: {reason(error)}",
            "a file in the folder of the cake file, or the way to one from there",
            "check the name and the folder",
        ) from None
    if len(content) > largest:
        raise broken(
            f"“{clip(name)}”, which is larger than {largest // 1000} kB",
            f"up to {largest // 1000} kB",
            "use a smaller file",
        )
    return content
