"""Digests of what a run reads: files, and all that counts below a folder. Imports next to nothing."""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Callable, Iterable, Iterator

from rigmint.library.walk import walk_catalogue_files, walk_code_files, walk_library_files, walk_rig_files

RIGS, NAMES, PARTS, CODE, INSTALLED = "rigs", "names", "parts", "code", "installed"
_WALKS: dict[str, Callable[[str], Iterator[os.DirEntry[str]]]] = {
    RIGS: walk_rig_files,
    PARTS: walk_catalogue_files,
    CODE: walk_code_files,
}
_OPENING = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0) | getattr(os, "O_CLOEXEC", 0)
_MARKS_OF_INSTALLS = (".dist-info", ".egg-info", ".pth", ".egg-link")
_MOST_BYTES = 256 * 1024 * 1024
_AT_ONCE = 1024 * 1024

Listing = list[tuple[str, str]]
"""Name and digest of each file of a tree, in the order of the walk."""


class Unreadable(Exception):
    """Something that cannot be digested: nothing is known of what was read from it."""


def list_tree(kind: str, folder: str) -> Listing:
    """Each file of a kind below a folder, by its path from there; of `INSTALLED`, what that folder of Python's packages
    has installed; of `NAMES`, only which rig and library files there are. Raises Unreadable."""
    if kind == INSTALLED:
        return _list_installed(folder)
    if not os.path.isdir(folder):
        raise Unreadable(folder)
    skip = len(folder.rstrip(os.sep)) + 1
    if kind == NAMES:
        return [(entry.path[skip:], "") for entry in walk_library_files(folder)]
    return [
        (
            _name(entry, skip),
            _mark_module(entry) if kind == CODE and entry.name.endswith(".py") else digest_file(entry.path),
        )
        for entry in _WALKS[kind](folder)
    ]


def _name(entry: os.DirEntry[str], skip: int) -> str:
    """A file's path in its tree, and of a link where it leads."""
    name = entry.path[skip:]
    return f"{name}\0{os.path.realpath(entry.path)}" if entry.is_symlink() else name


def combine_listing(listing: Iterable[tuple[str, str]]) -> str:
    """The digest of a tree."""
    text = "\n".join([f"{name}\0{digest}" for name, digest in listing])
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()


def digest_file(path: str) -> str:
    """The digest of a file's bytes. Raises Unreadable."""
    return hashlib.sha256(read_bytes(path)).hexdigest()


def read_bytes(path: str) -> bytes:
    """The bytes of a regular file, without waiting for a pipe. Raises Unreadable."""
    try:
        handle = os.open(path, _OPENING)
        try:
            status = os.fstat(handle)
            if not stat.S_ISREG(status.st_mode) or status.st_size > _MOST_BYTES:
                raise Unreadable(path)
            data = os.read(handle, status.st_size + 1)
            while len(data) != status.st_size and (more := os.read(handle, _AT_ONCE)):
                data += more
        finally:
            os.close(handle)
    except (OSError, ValueError) as error:
        raise Unreadable(path) from error
    return data


def _mark_module(entry: os.DirEntry[str]) -> str:
    """A module by its size and time, as Python itself judges whether what it compiled of it still holds."""
    try:
        status = entry.stat()
    except OSError as error:
        raise Unreadable(entry.path) from error
    return f"{status.st_size} {status.st_mtime_ns}"


def _list_installed(folder: str) -> Listing:
    """By what each install leaves, a folder of its name and version, which it makes anew."""
    try:
        with os.scandir(folder) as entries:
            marks = [entry for entry in entries if entry.name.endswith(_MARKS_OF_INSTALLS)]
            return sorted((entry.name, str(entry.stat().st_mtime_ns)) for entry in marks)
    except (FileNotFoundError, NotADirectoryError):
        return _list_archive(folder)
    except OSError as error:
        raise Unreadable(folder) from error


def _list_archive(path: str) -> Listing:
    """A place on Python's path that is no folder: a file by its size and time, or nothing."""
    try:
        status = os.stat(path)
    except OSError:
        return []
    return [(str(status.st_size), str(status.st_mtime_ns))]
