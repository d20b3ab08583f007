"""The libraries of the folders that are open, each read once and again when one of its files has changed."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.document import Document
from rigmint.library.faults import FaultList
from rigmint.library.library_file import find_library_file, show_path
from rigmint.library.paths import resolve_path
from rigmint.library.walk import CATALOGUE_KINDS, walk_catalogue_files
from rigmint.library.yaml import parse_yaml
from rigmint.lint.open_library import OpenLibrary, open_library
from rigmint.lint.packs import PackSet, load_packs

_Stamp = tuple[tuple[str, int, int], ...]
"""Path, time and size of each file that a library rests on."""


@dataclass(frozen=True, slots=True)
class _Held:
    stamp: _Stamp
    opened: OpenLibrary


class Shelf:
    """The libraries below some folders. A file's library is the nearest one above it that is not above what is open."""

    def __init__(self) -> None:
        self._folders: tuple[Path, ...] = ()
        self._held: dict[Path | None, _Held] = {}
        self._packs: PackSet | None = None
        self._texts: dict[str, str] = {}
        """Texts that stand for what files hold, by the name under which reports know the file."""
        self._parsed: dict[str, tuple[str, Document | None, FaultList]] = {}
        """Name to the text that was parsed last under it, and what came of it."""

    @property
    def folders(self) -> tuple[Path, ...]:
        """The folders that are open, resolved."""
        return self._folders

    def open_folders(self, folders: list[Path]) -> None:
        """Name the folders that are open, instead of those before."""
        self._folders = tuple(resolve_path(folder) for folder in folders)

    @property
    def packs(self) -> PackSet:
        """The installed packs."""
        if self._packs is None:
            self._packs = load_packs()
        return self._packs

    def hold_text(self, path: Path, text: str | None) -> None:
        """Take a text for what a part, connector or protocol file holds, until it is None again."""
        if text is None:
            self._texts.pop(show_path(path), None)
        elif path.name.endswith(tuple(CATALOGUE_KINDS)):
            self._texts[show_path(path)] = text

    def open_for(self, path: Path) -> OpenLibrary:
        """The library of a file, its house checks left out; the installed catalogue where there is none."""
        library_file = self.find_library(path)
        stamp = (*_list_stamps(library_file), *((name, hash(text), 0) for name, text in sorted(self._texts.items())))
        held = self._held.get(library_file)
        if held is None or held.stamp != stamp:
            opened = open_library(library_file, self.packs, house_checks=False, parse=self._parse)
            held = self._held[library_file] = _Held(stamp, opened)
        return held.opened

    def find_library(self, path: Path) -> Path | None:
        """The library file of a file, within the folder that is open around it."""
        found = find_library_file(path)
        if found is None or not any(resolve_path(found).is_relative_to(folder) for folder in self._folders):
            return None
        return found

    def _parse(self, text: str, name: str, faults: FaultList) -> Document | None:
        """As `parse_yaml`, once for each text: the installed catalogue is the same for each library."""
        text = self._texts.get(name, text)
        known = self._parsed.get(name)
        if known is None or known[0] != text:
            inner = FaultList()
            known = self._parsed[name] = text, parse_yaml(text, name, inner), inner
        _, document, inner = known
        faults.found += inner.found
        return document


def _list_stamps(library_file: Path | None) -> Iterator[tuple[str, int, int]]:
    if library_file is None:
        return
    files = [os.fspath(library_file), *(entry.path for entry in walk_catalogue_files(os.fspath(library_file.parent)))]
    for file in files:
        try:
            status = os.stat(file)
        except OSError:
            yield file, 0, 0
        else:
            yield file, status.st_mtime_ns, status.st_size
