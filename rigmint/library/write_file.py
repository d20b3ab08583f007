"""Puts new text in the place of a file, whole or not at all."""

from __future__ import annotations

import errno
import os
import secrets
import stat
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

_BOM = b"\xef\xbb\xbf"


class NotWritten(Exception):
    """A file that was not changed, and why, for a person."""


def encode_text(text: str, held: bytes) -> bytes:
    """The text as UTF-8, with a byte order mark where `held`, the bytes that it was read from, has one."""
    return (_BOM if held.startswith(_BOM) else b"") + text.encode("utf-8")


def read_bytes(path: Path) -> bytes:
    """The bytes of a file. Raises NotWritten where it cannot be read, as what is no file, such as a pipe."""
    try:
        if os.path.exists(path) and not os.path.isfile(path):
            msg = f"{path} is no regular file"
            raise NotWritten(msg)
        return path.read_bytes()
    except OSError as error:
        raise _refusal(path, error) from error


def put_file(path: Path, data: bytes) -> None:
    """Make a file of these bytes, or put them in the place of one, whole or not at all. What is no file, such as a
    device or a pipe, is written to; so is a file in a folder that takes no new ones. Raises OSError."""
    target = Path(os.path.realpath(path))
    found = target.stat() if os.path.exists(target) else None
    if found is not None and (not stat.S_ISREG(found.st_mode) or _is_open_as_output(found)):
        path.write_bytes(data)
        return
    if found is not None and not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    try:
        _put_beside(target, data, found)
    except PermissionError:
        path.write_bytes(data)


def _is_open_as_output(found: os.stat_result) -> bool:
    """Whether a file is what standard output or error goes to, as `/dev/stdout` is: others write to it too."""
    for number in (1, 2):
        with suppress(OSError):
            if os.path.samestat(os.fstat(number), found):
                return True
    return False


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
        _put_beside(target, new, found, lambda: _refuse_changed(path, target, held))
    except OSError as error:
        raise _refusal(path, error) from error


def _put_beside(
    target: Path, data: bytes, like: os.stat_result | None, is_still_due: Callable[[], None] = lambda: None
) -> None:
    """`like`: whose owner and mode the file gets; without, those of a new file. `is_still_due`: raises where not."""
    beside = target.with_name(f".{secrets.token_hex(8)}.tmp")  # of a length that every file system has
    try:
        _write_beside(beside, data, like)
        is_still_due()
        os.replace(beside, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise
    _sync_folder(target.parent)


def _write_beside(beside: Path, data: bytes, like: os.stat_result | None) -> None:
    number = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666 if like is None else 0o600)
    try:
        left = memoryview(data)
        while left:
            left = left[os.write(number, left) :]
        if like is not None:
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
