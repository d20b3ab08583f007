"""What the server knows of its open texts, and its answers, in places of the protocol: no pygls in here."""

from __future__ import annotations

import datetime
import re
from dataclasses import dataclass
from pathlib import Path

from rigmint.editor.complete import Offer, list_offers
from rigmint.editor.cursor import read_cursor
from rigmint.editor.hover import Word, tell_of
from rigmint.editor.judged import Judged, Remark, judge_text
from rigmint.editor.known import Known
from rigmint.editor.rename import Renaming, find_renaming, rename
from rigmint.editor.shelf import Shelf
from rigmint.editor.text_lines import TextLines
from rigmint.library.catalogue import Catalogue
from rigmint.library.document import Document
from rigmint.library.library_file import show_path
from rigmint.library.walk import CATALOGUE_KINDS, LIBRARY_NAME
from rigmint.lint.finding import Fix
from rigmint.lint.prove import Proof

_WORD = re.compile(r"[\w./:-]+")


@dataclass(slots=True)
class OpenText:
    """A text that is open, and what was last known of it."""

    path: Path
    text: str
    version: int
    judged: Judged | None = None
    """Of the newest text that was judged."""
    read: Judged | None = None
    """Of the newest text that could be parsed."""
    sound: Judged | None = None
    """Of the newest text in which everything could be read."""

    @property
    def kind(self) -> str:
        """What kind of file it is, as the schemas are named."""
        if self.path.name == LIBRARY_NAME:
            return "library"
        return next((kind for suffix, kind in CATALOGUE_KINDS.items() if self.path.name.endswith(suffix)), "rig")


class Session:
    """The open texts of one editor."""

    def __init__(self) -> None:
        self.shelf = Shelf()
        self.encoding = "utf-16"
        self._open: dict[Path, OpenText] = {}
        self._told: set[Path] = set()

    def hold(self, path: Path, text: str, version: int) -> None:
        """Take a text as what a file holds now."""
        held = self._open.get(path)
        if held is None:
            self._open[path] = OpenText(path, text, version)
        else:
            held.text, held.version = text, version
        self.shelf.hold_text(path, text)

    def drop(self, path: Path) -> None:
        """The editor has closed a text: the file counts again."""
        self._open.pop(path, None)
        self.shelf.hold_text(path, None)

    @property
    def paths(self) -> list[Path]:
        """The files whose texts are open."""
        return list(self._open)

    def find(self, path: Path) -> OpenText | None:
        """An open text."""
        return self._open.get(path)

    def list_others(self, path: Path) -> list[Path]:
        """The open texts that have to be judged again when one has changed: all, where it is not a rig."""
        return [] if self._open[path].kind == "rig" else [other for other in self._open if other != path]

    def judge(self, path: Path) -> Judged:
        """Judge the newest text of a file."""
        held = self._open[path]
        judged = judge_text(held.text, path, self.shelf.open_for(path), datetime.date.today())
        held.judged = judged
        if judged.document is not None:
            held.read = judged
        if judged.studies is not None:
            held.sound = judged
        return judged

    def read_lines(self, path: Path) -> TextLines:
        """The lines of the newest text."""
        return TextLines(self._open[path].text, self.encoding)

    def list_fixes(self, path: Path, first: int, last: int) -> list[tuple[Remark, Fix, Proof]]:
        """The proved fixes of what is found on some lines, from 0. A text that has changed since is judged."""
        held = self._open[path]
        judged = held.judged
        if judged is None or judged.text != held.text:
            judged = self.judge(path)
        lines = self.read_lines(path)
        return [
            (remark, fix, proof)
            for remark in judged.remarks
            if remark.merged is not None and first <= lines.find_place(remark.start)[0] <= last
            for fix, proof in judged.list_proofs(remark.merged)
        ]

    def list_offers(self, path: Path, line: int, column: int) -> tuple[list[Offer], int]:
        """What may be typed at a place, and how many characters before it that replaces."""
        held, lines = self._open[path], self.read_lines(path)
        cursor = read_cursor(held.text[: lines.find_offset(line, column)])
        return list_offers(held.kind, cursor, self._know(held)), len(cursor.word)

    def tell_of(self, path: Path, line: int, column: int) -> tuple[str, Word] | None:
        """What is told of the word at a place."""
        held = self._open[path]
        word = self._find_word(held, line, column)
        if word is None:
            return None
        says = tell_of(word, held.kind, self._know(held), held.sound)
        return (says, word) if says else None

    def find_definition(self, path: Path, line: int, column: int) -> tuple[Path, Document, int] | None:
        """Where the part is written, or the item or lead, that the word at a place names: the file, what it holds, and
        the offset there."""
        held = self._open[path]
        word = self._find_word(held, line, column)
        if word is None:
            return None
        catalogue = self._catalogue(held)
        entry = catalogue.entry_of(word.text)
        if entry is not None and (file := catalogue.path_of(word.text)) is not None:
            span = entry.marks.values.get((*entry.prefix, "id"))
            return file, entry, span.start if span is not None else 0
        document = held.read.document if held.read is not None else None
        name = word.text.partition(".")[0].partition(":")[0]
        for section in ("kit", "leads") if document is not None else ():
            span = document.marks.keys.get((section, name)) if document is not None else None
            if span is not None and document is not None:
                return path, document, span.start
        return None

    def find_renaming(self, path: Path, line: int, column: int) -> Renaming | None:
        """The item or lead that is named at a place of a rig file whose text can be parsed as it stands."""
        held = self._open[path]
        document = self._parse_now(held)
        return (
            find_renaming(document, self.read_lines(path).find_offset(line, column)) if document is not None else None
        )

    def rename(self, path: Path, renaming: Renaming, new: str) -> str:
        """The text with a new name. Raises NotRenamed."""
        document = self._parse_now(self._open[path])
        assert document is not None
        return rename(document, renaming, new)

    def find_unrun_checks(self, path: Path) -> str | None:
        """What is to be told once of house checks that a library names and that are not run here."""
        library_file = self.shelf.find_library(path)
        opened = self.shelf.open_for(path)
        if library_file is None or library_file in self._told or not opened.left_out:
            return None
        self._told.add(library_file)
        return f"{show_path(library_file)} names house checks, which are Python and are not run in the editor"

    def _parse_now(self, held: OpenText) -> Document | None:
        if held.kind != "rig":
            return None
        if held.judged is None or held.judged.text != held.text:
            self.judge(held.path)
        return held.judged.document if held.judged is not None else None

    def _know(self, held: OpenText) -> Known:
        return Known(held.read.document if held.read is not None else None, self._catalogue(held))

    def _catalogue(self, held: OpenText) -> Catalogue:
        return self.shelf.open_for(held.path).library.catalogue

    def _find_word(self, held: OpenText, line: int, column: int) -> Word | None:
        lines = self.read_lines(held.path)
        offset, start = lines.find_offset(line, column), lines.start_of(line)
        for found in _WORD.finditer(lines.read_line(line)):
            if start + found.start() <= offset <= start + found.end():
                text = found[0].rstrip(":.")
                end = start + found.start() + len(text)
                return Word(text, start + found.start(), end, read_cursor(held.text[:end]))
        return None
