"""The two sides of a comparison: two files, a file and its revision, or what git hands to a diff command."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

import click

from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.library.library_file import Library, find_library_file, load_library, show_path
from rigmint.library.revision import extract_revision

_FROM_GIT = (7, 9)
"""Arguments that git gives a diff command: path, then file, hash and mode of both sides; two more after a rename."""


@dataclass(frozen=True, slots=True)
class OneSide:
    """A rig as read, and the library that holds for it."""

    read: ReadRig
    library: Library


def read_files(old: Path, new: Path, library: Path | None) -> tuple[OneSide, OneSide]:
    """Two files, each with its own library unless one is given."""
    return read_side(old, library), read_side(new, library)


def read_revision(path: Path, name: str, library: Path | None, folder: Path) -> tuple[OneSide, OneSide]:
    """A file as it was at a revision, with the parts and the library of then, and as it is now. What the revision
    held is laid down below `folder`. Raises NoRevision."""
    revision = extract_revision(path, name, folder)
    old_library = revision.locate(library) if library is not None else None
    return read_side(revision.locate(path), old_library, f"{show_path(path)} at {name}"), read_side(path, library)


def is_from_git(arguments: tuple[str, ...]) -> bool:
    """Whether git itself calls, as a diff command."""
    return len(arguments) in _FROM_GIT and "GIT_DIFF_PATH_COUNTER" in os.environ


def read_from_git(arguments: tuple[str, ...], library: Path | None) -> tuple[OneSide | None, OneSide | None]:
    """The two sides that git hands over, read as if they stood at their path; None: the file is not there (git says
    so by the null device). Both take the parts and the library of the checkout."""
    path = Path(arguments[0])
    loaded = load_library(library if library is not None else find_library_file(path))

    def read(text: str, name: str) -> OneSide | None:
        if text == os.devnull:
            return None
        return OneSide(read_rig(path, loaded, text_from=Path(text), shown=f"{show_path(path)} {name}"), loaded)

    return read(arguments[1], "before"), read(arguments[4], "after")


def expect_paths(arguments: tuple[str, ...], wanted: int, names: str) -> tuple[Path, ...]:
    """The arguments as paths. Raises click.UsageError where there are more or fewer than wanted."""
    if len(arguments) != wanted:
        msg = f"{names} {'is' if wanted == 1 else 'are'} due, and {len(arguments)} came"
        raise click.UsageError(msg)
    return tuple(Path(one) for one in arguments)


def read_side(path: Path, library: Path | None, shown: str | None = None) -> OneSide:
    """One rig with its library: the one given, else the nearest above it. `shown`: the name reports know it by."""
    loaded = load_library(library if library is not None else find_library_file(path))
    return OneSide(read_rig(path, loaded, shown=shown), loaded)
