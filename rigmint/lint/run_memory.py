"""What a whole run leaves for the next: the text that it printed and its status, with all that it rests on."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from rigmint.library.catalogue import Parse
from rigmint.library.paths import is_folder
from rigmint.library.yaml import parse_yaml
from rigmint.lint.cache_store import CacheStore, make_key
from rigmint.lint.code_inputs import note_code
from rigmint.lint.digests import NAMES, PARTS, RIGS
from rigmint.lint.inputs import Inputs, do_inputs_hold
from rigmint.lint.lasting import ALL_DAYS, is_lasting
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.outcome import Outcome
from rigmint.lint.packs import PackSet
from rigmint.lint.parsed_files import ParsedFiles
from rigmint.lint.results import Report


class RunMemory:
    """Notes what a run reads, and keeps what came of it."""

    def __init__(self, store: CacheStore, *, fresh: bool = False) -> None:
        """`fresh`: nothing of what is kept is used, and what is found is kept all the same."""
        self.store = store
        self.fresh = fresh
        self._inputs = Inputs()
        self._code = ""
        self._days = ALL_DAYS
        self._lasts = True

    def note_paths(self, paths: Iterable[Path]) -> None:
        """The files and folders that are to be checked, before they are searched."""
        for path in paths if self.store.is_on else ():
            if is_folder(path):
                self._inputs.note_tree(RIGS, os.fspath(path.absolute()))
            else:
                self._inputs.note_file(os.fspath(path.absolute()))

    def note_packs(self, packs: PackSet) -> None:
        """The code that judges, once it is loaded."""
        if self.store.is_on:
            self._code = note_code(self._inputs, packs)

    @property
    def parse(self) -> Parse:
        """How catalogue files are parsed: not at all, where they were before."""
        return ParsedFiles(self.store, self._code).parse if self._code and not self.fresh else parse_yaml

    def note_place(self, rig_file: Path, library_file: Path | None) -> None:
        """A library that was found for a rig, or that none was, before it is read."""
        if self.store.is_on:
            self._inputs.note_place(
                os.fspath(rig_file.absolute()), os.fspath(library_file) if library_file is not None else None
            )

    def note_library_file(self, library_file: Path | None) -> None:
        """A library file that is about to be read."""
        if self.store.is_on and library_file is not None:
            self._inputs.note_file(os.fspath(library_file.absolute()))

    def make_context(self, opened: OpenLibrary, library_file: Path | None) -> str | None:
        """The digest of all that judges the rigs of a library; None where it cannot be said."""
        if not self.store.is_on:
            return None
        inputs, library, paths = self._inputs, opened.library, opened.library.house_paths
        facts: list[object] = [self._code, library.house.file]
        facts += [inputs.note_file(os.fspath(library_file.absolute()))] if library_file is not None else []
        facts += [inputs.note_tree(PARTS, os.fspath(folder)) for folder in library.roots[1:]]
        house = [one for one in (paths.rig_schema, paths.part_schema, *paths.checks) if one is not None]
        facts += [(one.shown, inputs.note_file(os.fspath(one.path))) for one in house]
        if library.house.accepted and library.roots:  # whether one matches nothing is said where all rigs were checked
            inputs.note_tree(NAMES, os.fspath(library.roots[0]))
        facts += [opened.left_out, opened.is_unsaid]
        return make_key("context", *facts) if inputs.is_sure else None

    def note_outcomes(self, paths: Sequence[Path], outcomes: Sequence[Outcome], digests: Mapping[str, str]) -> None:
        """What came of each file, and the digests of what was read of it."""
        if not self.store.is_on:
            return
        noted = self._inputs.find_rigs()
        for path, outcome in zip(paths, outcomes, strict=True):
            name = os.fspath(path.absolute())
            self._days = self._days.meet(outcome.days)
            self._lasts = self._lasts and outcome.lasts and noted.get(name) == digests.get(name, "")
            for base, digest in outcome.bases:
                self._lasts = self._lasts and self._inputs.note_file(base) == digest

    def keep(self, key: str, report: Report, text: str, status: int) -> None:
        """Keep the text that a run prints and its status, where the same would come again."""
        if not self.store.is_on or not self._lasts or not self._inputs.is_sure or not is_lasting(report.unread):
            return
        inputs = self._inputs.to_plain()
        if do_inputs_hold(inputs, (PARTS,)):
            days = {"after": self._days.after, "until": self._days.until}
            self.store.keep(key, {"inputs": inputs, **days, "text": text, "status": status})
