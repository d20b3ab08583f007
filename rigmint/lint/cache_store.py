"""The folder of cached results: entries of JSON by key, whole or not there, bounded in size.

Whatever goes wrong with the folder, a run goes on without it. Imports next to nothing: it is asked first of all.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Iterator

from rigmint import TYPE_CHECKING

if TYPE_CHECKING:
    from typing import Any

FOLDER = "RIGMINT_CACHE"
"""Environment: the folder; set to nothing, there is no cache."""
FORMAT = "1"
"""Version of the entries: another one is another folder."""
MOST_BYTES = 64 * 1024 * 1024
_KEPT_SHARE = 0.8
"""Of the bound, once it is passed: what is left of the entries, the youngest."""
_DIGEST_LENGTH = 64


class CacheStore:
    """Entries on disk. Several processes may read and write at once: an entry is put in place whole."""

    def __init__(self, folder: str | None, most_bytes: int = MOST_BYTES) -> None:
        """`folder` None: nothing is found and nothing kept."""
        self._folder = os.path.join(folder, FORMAT) if folder is not None else None
        self._most_bytes = most_bytes
        self._has_written = False

    @property
    def is_on(self) -> bool:
        """Whether there is a folder to look into."""
        return self._folder is not None

    def find(self, key: str) -> Any | None:
        """The value of a key; None where there is none, or where it is not as it was written."""
        if self._folder is None:
            return None
        path = self._path(self._folder, key)
        try:
            with open(path, encoding="ascii") as stream:
                text = stream.read()
        except (OSError, ValueError):
            return None
        if text[:_DIGEST_LENGTH] != digest(text[_DIGEST_LENGTH:].encode()):
            return None
        try:
            value = json.loads(text[_DIGEST_LENGTH:])
        except (ValueError, RecursionError):
            return None
        self._touch(path)
        return value

    def keep(self, key: str, value: object) -> None:
        """Write an entry, in place of another of its key. Raises TypeError for what JSON does not have."""
        text = json.dumps(value, separators=(",", ":"))
        if self._folder is None:
            return
        path = self._path(self._folder, key)
        temporary = f"{path}.{os.getpid()}"
        try:
            os.makedirs(os.path.dirname(path), mode=0o700, exist_ok=True)
            with open(temporary, "w", encoding="ascii") as stream:
                stream.write(digest(text.encode()) + text)
            os.replace(temporary, path)
        except OSError:
            _remove(temporary)
            return
        self._has_written = True

    def close(self) -> None:
        """Throw out the oldest entries where the bound is passed; only after something was written."""
        if self._folder is None or not self._has_written:
            return
        found = sorted(_list_entries(self._folder))
        size = sum(bytes_ for _, bytes_, _ in found)
        if size <= self._most_bytes:
            return
        for _, bytes_, path in found:
            if size <= self._most_bytes * _KEPT_SHARE:
                return
            _remove(path)
            size -= bytes_

    @staticmethod
    def _path(folder: str, key: str) -> str:
        return os.path.join(folder, key[:2], f"{key[2:]}.json")

    @staticmethod
    def _touch(path: str) -> None:
        """What is used stays longest."""
        try:
            os.utime(path)
        except OSError:
            return


def digest(data: bytes) -> str:
    """The digest by which content is known."""
    return hashlib.sha256(data).hexdigest()


def make_key(*facts: object) -> str:
    """The key of an entry: a digest of plain facts in JSON."""
    return digest(json.dumps(facts, separators=(",", ":"), sort_keys=True).encode())


def open_store() -> CacheStore:
    """The store of this user: where the environment says, else where the platform keeps caches."""
    named = os.environ.get(FOLDER)
    if named is not None:
        return CacheStore(os.path.abspath(named) if named else None)
    return CacheStore(_find_platform_folder())


def _find_platform_folder() -> str | None:
    """By the XDG base directory specification; on macOS and Windows by their own customs. The library for this takes
    half as long to import as all that a cached answer takes."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA")
    elif sys.platform == "darwin":
        base = os.path.expanduser("~/Library/Caches")
    else:
        base = os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
    return os.path.join(base, "rigmint") if base and os.path.isabs(base) else None


def _list_entries(folder: str) -> Iterator[tuple[int, int, str]]:
    """Age, bytes and path of all that lies in the folder, also of what a killed process left."""
    for root, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(root, name)
            try:
                status = os.stat(path)
            except OSError:
                continue
            yield status.st_mtime_ns, status.st_size, path


def _remove(path: str) -> None:
    try:
        os.remove(path)
    except OSError:
        return
