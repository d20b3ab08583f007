"""Finds rig files and catalogue files: those named, and those below the folders named."""

from __future__ import annotations

import os
import stat
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from rigmint.library.faults import Fault
from rigmint.library.library_file import show_path
from rigmint.library.walk import CATALOGUE_KINDS, RIG_SUFFIX, walk_catalogue_files, walk_rig_files

_OnError = Callable[[OSError], None]
_Walk = Callable[[str, _OnError], Iterator[os.DirEntry[str]]]


def find_rig_files(paths: Iterable[Path]) -> tuple[tuple[Path, ...], tuple[Fault, ...]]:
    """Rig files, each once, by the name that reports show; faults for what is named and cannot be searched.

    A file that is named is taken whatever its name. Below a folder, hidden folders and installed ones are skipped, and
    links to folders are not followed. Where nothing at all is found, each folder that was searched is a fault.
    """
    return _find_files(paths, walk_rig_files, f"no rig file (`*{RIG_SUFFIX}`) lies in it or below")


def find_catalogue_files(paths: Iterable[Path]) -> tuple[tuple[Path, ...], tuple[Fault, ...]]:
    """Part, connector and protocol files, likewise. A file that is named must be called as one."""
    listed = ", ".join(f"`*{suffix}`" for suffix in CATALOGUE_KINDS)
    files, faults = _find_files(paths, walk_catalogue_files, f"no part file ({listed}) lies in it or below")
    strange = [file for file in files if not file.name.endswith(tuple(CATALOGUE_KINDS))]
    misnamed = tuple(_unreadable(file, f"it is not named as a part file is: {listed}") for file in strange)
    return tuple(file for file in files if file not in strange), (*faults, *misnamed)


def _find_files(paths: Iterable[Path], walk: _Walk, says_none: str) -> tuple[tuple[Path, ...], tuple[Fault, ...]]:
    found: dict[str, Path] = {}
    faults: list[Fault] = []
    searched: list[Path] = []
    for path in paths:
        try:
            is_folder = stat.S_ISDIR(path.stat().st_mode)
        except (OSError, ValueError) as error:  # the second for a name that no file can have
            faults.append(_unreadable(path, _describe_error(error)))
            continue
        if is_folder:
            searched.append(path)
        for file in _search(path, walk, faults) if is_folder else [path]:
            found.setdefault(os.path.abspath(file), file)
    if not found and not faults:
        faults = [_unreadable(folder, says_none) for folder in searched]
    return tuple(sorted(found.values(), key=show_path)), tuple(faults)


def _search(folder: Path, walk: _Walk, faults: list[Fault]) -> list[Path]:
    def record(error: OSError) -> None:
        faults.append(_unreadable(Path(error.filename), _describe_error(error)))

    return [Path(entry.path) for entry in walk(os.fspath(folder), record)]


def _describe_error(error: OSError | ValueError) -> str:
    reason = error.strerror if isinstance(error, OSError) else str(error)
    return f"it cannot be read: {(reason or type(error).__name__).lower()}"


def _unreadable(path: Path, says: str) -> Fault:
    return Fault(show_path(path), 1, 1, "file:unreadable", says)
