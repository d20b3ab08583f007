"""Puts new text in the place of a file, whole or not at all."""

from __future__ import annotations

import os
import secrets
import stat
from contextlib import suppress
from pathlib import Path

_BOM = b"\xef\xbb\xbf"


class NotWritten(Exception):
    """A file that was not changed, and why, for a person."""


def encode_text(text: str, held: bytes) -> bytes:
    """The text as UTF-8, with a byte order mark where `held`, the bytes that it was read from, has one."""
    return (_BOM if held.startswith(_BOM) else b"") + text.encode("utf-8")


def read_bytes(path: Path) -> bytes:
    """The bytes of a file. Raises NotWritten where it cannot be read."""
    try:
        return path.read_bytes()
    except OSError as error:
        raise _refusal(path, error) from error


def replace_file(path: Path, held: bytes, new: bytes) -> None:
    """Write `new` where `held` stands. Links are followed, the mode is kept, and a file that is write-protected is
    left alone.

    The new bytes go into a file beside it, which takes its name once they are on the disk: whenever this is broken
    off, the file is the old one or the new one. Raises NotWritten where the file is not what was read any more, or
    where something fails; the old file then stands.
    """
    target = Path(os.path.realpath(path))
    try:
        found = target.stat()
        if not stat.S_ISREG(found.st_mode):
            msg = f"{path} is no regular file"
            raise NotWritten(msg)
        if not os.access(target, os.W_OK):
            msg = f"{path} is write-protected: nothing was written"
            raise NotWritten(msg)
        beside = target.with_name(f".{target.name}.{secrets.token_hex(4)}.tmp")
        try:
            _write_beside(beside, new, found)
            _refuse_changed(path, target, held)
            os.replace(beside, target)
        except BaseException:
            with suppress(OSError):
                os.unlink(beside)
            raise
        _sync_folder(target.parent)
    except OSError as error:
        raise _refusal(path, error) from error


def _write_beside(beside: Path, data: bytes, like: os.stat_result) -> None:
    number = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        left = memoryview(data)
        while left:
            left = left[os.write(number, left) :]
        with suppress(PermissionError):  # only a privileged user may give a file away
            os.fchown(number, like.st_uid, like.st_gid)
        os.fchmod(number, stat.S_IMODE(like.st_mode))
        os.fsync(number)
    finally:
        os.close(number)


def _refuse_changed(path: Path, target: Path, held: bytes) -> None:
    if target.read_bytes() != held:
        msg = f"{path} was changed by somebody else meanwhile: nothing was written, run it again"
        raise NotWritten(msg)


def _sync_folder(folder: Path) -> None:
    """The name is on the disk too. Not every file system can, and the file is whole either way."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def _refusal(path: Path, error: OSError) -> NotWritten:
    msg = f"{path} was not changed: {(error.strerror or type(error).__name__).lower()}"
    return NotWritten(msg)
