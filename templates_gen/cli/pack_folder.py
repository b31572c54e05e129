"""Packs that lie in a folder: which of their files are still as they were made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from templates_gen.cakefile.slug import file_name
from templates_gen.cli.journal import digest_of, is_inside, naming, unsettled
from templates_gen.cli.output import alone_in, replace
from templates_gen.errors import FileError
from templates_gen.writers.manifest import Listing, read_listing

FolderState = frozenset[tuple[str, int, int]]


def state_of(folder: Path) -> FolderState:
    """Return what changes whenever a pack is put into a folder."""
    stats = [(path.name, path.stat()) for path in _manifests(folder)]
    return frozenset((name, stat.st_ino, stat.st_mtime_ns) for name, stat in stats)


def _manifests(folder: Path) -> list[Path]:
    """Return the files that may be manifests; a link that leads nowhere or a pipe is none."""
    return sorted(path for path in folder.glob("*.json") if path.is_file())


def packs_in(folder: Path) -> Iterator[tuple[Path, Listing]]:
    """Yield the manifest files in a folder with what they list, by name."""
    for path in _manifests(folder):
        try:
            listing = read_listing(path.read_bytes())
        except OSError:
            continue
        # a copy under another name is not the manifest of a pack
        if listing and file_name(listing.name) == path.stem and all(map(is_inside, listing.files)):
            yield path, listing


def settled(folder: Path) -> FolderState:
    """Return the state of a folder, after settling what a killed run left. Raises FileError."""
    with naming(folder):
        if unsettled(folder):
            with alone_in(folder):
                pass
        return state_of(folder)


def put_pack(
    folder: Path, title: str, files: Mapping[str, bytes], before: FolderState
) -> list[str]:
    """Put a pack in a folder that was in the state ``before`` when its run began.

    What the older packs of the cake have and this one lacks is removed where it is unchanged; its
    names are returned. Raises FileError, and changes nothing, when it cannot be done or another
    run has put a pack in the folder in the meantime.
    """
    with alone_in(folder):
        if state_of(folder) != before:
            raise FileError(
                f"Another run has put a pack into {folder} since this one began. Nothing was"
                " changed; run it again if its pack is the one to keep, or choose another folder"
            )
        removes = _left_over(folder, title, set(files))
        replace(folder, {folder / name: content for name, content in files.items()}, removes)
    return list(removes)


def _left_over(folder: Path, title: str, names: set[str]) -> dict[str, str]:
    """Return the SHA-256 of each file of the older packs of a cake that a new one lacks, by name.

    A file that is no longer as its manifest lists it is not among them.
    """
    found: dict[str, str] = {}
    for path, listing in packs_in(folder):
        if listing.title == title:
            listed = dict(listing.files)
            listed[path.name] = digest_of(path) or ""
            found |= {name: digest for name, digest in listed.items() if name not in names}
    return {name: digest for name, digest in found.items() if digest_of(folder / name) == digest}


def check_folder(folder: Path) -> list[str]:
    """Return a line for each pack in a folder. Raises FileError when one is not whole."""
    lines, problems = [], []
    for path, listing in packs_in(folder):
        problems += [
            f"{folder / name} {problem}" for name, problem in _problems(folder, listing.files)
        ]
        lines.append(
            f"{path}: {listing.title}, pack mark {listing.pack_mark}, {len(listing.files)} files,"
            " all as they were made."
        )
    if not lines:
        raise FileError(f"{folder} is a folder without a pack; give the name of a cake file")
    if problems:
        raise FileError("\n".join([*problems, "Make the pack again to have it whole."]))
    return lines


def _problems(folder: Path, files: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    for name, digest in files.items():
        found = digest_of(folder / name)
        if found != digest:
            yield name, "is not as it was made" if found else "is missing"
