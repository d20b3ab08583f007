"""Walks folders for the files that count. Imports next to nothing: the cache is asked by it before anything else."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator

RIG_SUFFIX = ".rig.yaml"
LIBRARY_NAME = "rigmint.yaml"
CATALOGUE_KINDS = {".part.yaml": "part", ".connectors.yaml": "connectors", ".protocols.yaml": "protocols"}
_INSTALLED = frozenset({"node_modules"})
_OF_LIBRARIES = (RIG_SUFFIX, LIBRARY_NAME)
_MADE = "__pycache__"


def walk_rig_files(folder: str, on_error: Callable[[OSError], None] | None = None) -> Iterator[os.DirEntry[str]]:
    """Rig files below a folder. Hidden folders and installed ones are skipped, links to folders not followed."""
    return (
        entry
        for entry in _walk(folder, _may_hold_rigs, on_error)
        if entry.name.endswith(RIG_SUFFIX) and not entry.name.startswith(".")
    )


def walk_library_files(folder: str) -> Iterator[os.DirEntry[str]]:
    """Rig and library files below a folder, wherever a search for rigs may come."""
    return (entry for entry in _walk(folder, _may_hold_rigs) if entry.name.endswith(_OF_LIBRARIES))


def walk_catalogue_files(folder: str, on_error: Callable[[OSError], None] | None = None) -> Iterator[os.DirEntry[str]]:
    """Part, connector and protocol files below a folder, in name order, a folder's own files first."""
    suffixes = tuple(CATALOGUE_KINDS)
    entries = _walk(folder, lambda name: not name.startswith("."), on_error)
    return (entry for entry in entries if entry.name.endswith(suffixes))


def walk_code_files(folder: str) -> Iterator[os.DirEntry[str]]:
    """Everything below the folder of a Python package but what Python makes itself."""
    return _walk(folder, lambda name: name != _MADE)


def find_library_above(folder: str) -> str | None:
    """`rigmint.yaml` in a resolved folder or the nearest one above; the search stops at a folder that holds `.git` and
    at a file-system boundary, so that a file planted above a checkout is never read."""
    device = os.stat(folder).st_dev if os.path.exists(folder) else None
    while True:
        if device is not None and os.stat(folder).st_dev != device:
            return None
        path = os.path.join(folder, LIBRARY_NAME)
        if os.path.isfile(path):
            return path
        above = os.path.dirname(folder)
        if above == folder or os.path.exists(os.path.join(folder, ".git")):
            return None
        folder = above


def find_top_above(folder: str) -> str | None:
    """The folder of the library that holds for a resolved folder, else that of its checkout; None where there is
    neither."""
    library = find_library_above(folder)
    if library is not None:
        return os.path.dirname(library)
    while not os.path.exists(os.path.join(folder, ".git")):
        above = os.path.dirname(folder)
        if above == folder:
            return None
        folder = above
    return folder


def _may_hold_rigs(name: str) -> bool:
    return not name.startswith(".") and name not in _INSTALLED


def _walk(
    folder: str, goes_into: Callable[[str], bool], on_error: Callable[[OSError], None] | None = None
) -> Iterator[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as listing:
            entries = sorted(listing, key=lambda entry: entry.name)
    except OSError as error:
        if on_error is not None:
            on_error(error)
        return
    folders = []
    for entry in entries:
        if not _is_folder(entry):
            yield entry
        elif goes_into(entry.name) and not entry.is_symlink():
            folders.append(entry.path)
    for inner in folders:
        yield from _walk(inner, goes_into, on_error)


def _is_folder(entry: os.DirEntry[str]) -> bool:
    try:
        return entry.is_dir()
    except OSError:
        return False
