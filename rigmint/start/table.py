"""Reads a table as a spreadsheet saves it: comma, semicolon or tab, a byte order mark or none, quoted or not, in UTF-8,
in UTF-16 or in the western code page of an older `CSV`."""

from __future__ import annotations

import codecs
import csv
import io
import os
import stat
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from rigmint.library.yaml import MAX_BYTES
from rigmint.start.answers import Refusal

MOST_ROWS = 5000
_DELIMITERS = (",", ";", "\t")
_CODE_PAGE = "cp1252"
_MARKS = ((codecs.BOM_UTF8, "utf-8-sig"), (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))


@dataclass(frozen=True, slots=True)
class Row:
    """One row: the line of the file that it begins on, and its cells by heading; empty ones are left out."""

    line: int
    cells: Mapping[str, str]

    @property
    def text(self) -> str:
        """The cells as one printable line."""
        return " | ".join(one_line(cell) for cell in self.cells.values())


@dataclass(frozen=True, slots=True)
class Table:
    """A table with its headings as they stand in the file. `says`: how it was read, where that had to be guessed."""

    name: str
    headings: tuple[str, ...]
    rows: tuple[Row, ...]
    says: str | None = None


def one_line(text: str) -> str:
    """A text on one line, without characters that do not print: fit for a comment."""
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())


def read_table(path: Path) -> Table:
    """The table of a file. Raises Refusal with a sentence for what cannot be read as one."""
    text, says = _decode(path, _read_bytes(path))
    lines = text.splitlines()
    skipped = 0
    if lines and lines[0].casefold().startswith("sep="):  # a spreadsheet's own hint
        skipped, text = 1, text.partition("\n")[2]
    head = next((line for line in text.splitlines() if line.strip(' ,;\t"')), "")
    if not head:
        msg = f"{path} holds no table: a row of headings is due, such as `label, from, to, length`"
        raise Refusal(msg)
    delimiter = max(_DELIMITERS, key=lambda mark: _count_outside_quotes(head, mark))
    return replace(_build(path, text, delimiter, skipped), says=says)


def _read_bytes(path: Path) -> bytes:
    try:
        with open(path, "rb", opener=_open_at_once) as file:
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                msg = f"{path} is no file that can hold a table"
                raise Refusal(msg)
            data = file.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or type(error).__name__
        msg = f"{path} cannot be read: {reason.lower()}"
        raise Refusal(msg) from error
    if len(data) > MAX_BYTES:
        msg = f"{path} is larger than 2 MiB, the most that is read"
        raise Refusal(msg)
    return data


def _open_at_once(name: str, flags: int) -> int:
    return os.open(name, flags | getattr(os, "O_NONBLOCK", 0))  # a pipe with nobody at its other end must not hang us


def _decode(path: Path, data: bytes) -> tuple[str, str | None]:
    """The text, and a sentence where its encoding is a guess."""
    marked = next((name for mark, name in _MARKS if data.startswith(mark)), None)
    says = None
    try:
        text = data.decode(marked or "utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        try:
            text = data.decode(_CODE_PAGE if marked is None else marked)
        except UnicodeDecodeError:
            msg = f"{path} is not UTF-8 text at line {line}: save the table as `CSV UTF-8`"
            raise Refusal(msg) from error
        says = f"{path} is not UTF-8 at line {line} and is read as Windows-1252: look at its accents and signs"
    if "\0" in text:
        msg = f"{path} is no text but something else, such as a spreadsheet's own file: save the table as CSV"
        raise Refusal(msg)
    return text, says


def _count_outside_quotes(line: str, mark: str) -> int:
    return sum(part.count(mark) for part in line.split('"')[::2])


def _build(path: Path, text: str, delimiter: str, skipped: int) -> Table:
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True, skipinitialspace=True)
    headings: tuple[str, ...] = ()
    rows: list[Row] = []
    line = skipped + 1
    try:
        for cells in reader:
            stripped = [cell.strip() for cell in cells]
            if any(stripped) and not headings:
                headings = _name_headings(stripped)
            elif any(stripped):
                rows.append(_build_row(line, stripped, headings))
            if len(rows) > MOST_ROWS:
                msg = f"{path} has more than {MOST_ROWS} rows, the most that are read"
                raise Refusal(msg)
            line = skipped + reader.line_num + 1
    except csv.Error as error:
        msg = f"{path} is no table at line {line}: {error}; a quotation mark that is opened there has to be closed"
        raise Refusal(msg) from error
    return Table(str(path), headings, tuple(rows))


def _name_headings(cells: list[str]) -> tuple[str, ...]:
    """The headings; one that is empty is named by its column."""
    return tuple(cell or f"column {index}" for index, cell in enumerate(cells, start=1))


def _build_row(line: int, cells: list[str], headings: tuple[str, ...]) -> Row:
    named = {}
    for index, cell in enumerate(cells):
        heading = headings[index] if index < len(headings) else f"column {index + 1}"
        if cell:
            key = heading if heading not in named else f"{heading} (column {index + 1})"
            named[key] = cell
    return Row(line, named)
