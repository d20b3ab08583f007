"""Names that files and folders are laid down by: what may be one, and that nothing is ever written over."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from pathlib import Path

from rigmint.start.answers import Refusal

_SEGMENT = re.compile(r"[^\W_][\w .-]*")
_MOST_LETTERS = 100
_RESERVED = frozenset({"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))})


def find_file(name: str, suffix: str) -> Path:
    """Where a file of that name is laid down: a name or a path, with or without the suffix. Raises Refusal for a name
    that cannot be used, a folder that is not there, and a file that is there already."""
    path = Path(name)
    stem = path.name.removesuffix(suffix)
    _judge_segment(stem, name)
    target = path.with_name(f"{stem}{suffix}")
    _judge_parent(target)
    return target


def find_folder(name: str) -> Path:
    """Where a folder of that name is laid down. Raises Refusal as `find_file` does."""
    path = Path(name)
    _judge_segment(path.name, name)
    _judge_parent(path)
    return path


def find_stem(path: Path, suffix: str) -> str:
    """The name without folder and suffix."""
    return path.name.removesuffix(suffix)


def find_title(stem: str) -> str:
    """The name of a file as a title is written: words, the first with a capital."""
    words = " ".join(re.split(r"[-_ ]+", stem))
    return words[:1].upper() + words[1:]


def write_new(path: Path, text: str) -> None:
    """Write a file that is not there yet. Raises Refusal where it is, or where it cannot be written."""
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError as error:
        raise Refusal(_say_there(path)) from error
    except OSError as error:
        msg = f"{path} cannot be written: {(error.strerror or type(error).__name__).lower()}"
        raise Refusal(msg) from error


def write_folder(folder: Path, files: Mapping[str, str]) -> None:
    """Make a new folder with files in it, by their paths below it. Raises Refusal as `write_new` does."""
    try:
        folder.mkdir()
        for name in files:
            (folder / name).parent.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise Refusal(_say_there(folder)) from error
    except OSError as error:
        msg = f"{folder} cannot be made: {(error.strerror or type(error).__name__).lower()}"
        raise Refusal(msg) from error
    for name, text in files.items():
        write_new(folder / name, text)


def _judge_segment(segment: str, name: str) -> None:
    if not _SEGMENT.fullmatch(segment) or segment.endswith((".", " ")) or segment.casefold() in _RESERVED:
        msg = (
            f"`{name}` is no name for a file: letters, digits, `-`, `_`, `.` and spaces make one, beginning with a"
            " letter or a digit"
        )
        raise Refusal(msg)
    if len(segment) > _MOST_LETTERS or any(unicodedata.category(letter) == "Cf" for letter in segment):
        msg = f"`{name[:40]}...` is too long for the name of a file: up to {_MOST_LETTERS} letters make one"
        raise Refusal(msg)


def _judge_parent(path: Path) -> None:
    try:
        is_there = path.parent.is_dir()
        is_taken = path.exists() or path.is_symlink()
    except (OSError, ValueError) as error:
        msg = f"`{path}` cannot be looked at: {error}"
        raise Refusal(msg) from error
    if not is_there:
        msg = f"there is no folder {path.parent} to lay {path.name} down in: make it first"
        raise Refusal(msg)
    if is_taken:
        raise Refusal(_say_there(path))


def _say_there(path: Path) -> str:
    return f"{path} is there already, and nothing is written over: choose another name"
