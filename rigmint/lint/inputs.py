"""All that a run reads, with digests: a run that was kept may be repeated as long as they hold. Imports next to
nothing."""

from __future__ import annotations

import os

from rigmint import TYPE_CHECKING
from rigmint.library.walk import find_library_above
from rigmint.lint.digests import (
    CODE,
    INSTALLED,
    NAMES,
    PARTS,
    RIGS,
    Listing,
    Unreadable,
    combine_listing,
    digest_file,
    list_tree,
)

if TYPE_CHECKING:
    from typing import Any

_BY_CHANGE = (RIGS, NAMES, PARTS, INSTALLED, CODE)
"""Kinds of trees, first what changes most."""


class Inputs:
    """What one run reads. Each thing is digested when it is noted, before it is read, so that what changes meanwhile
    does not hold afterwards. Paths are absolute, and lead through the links that the run goes through."""

    def __init__(self) -> None:
        self._trees: dict[tuple[str, str], Listing] = {}
        self._files: dict[str, str] = {}
        self._places: dict[str, str] = {}
        self.is_sure = True
        """Nothing was noted that cannot be read, or that was read as something else."""

    def note_tree(self, kind: str, folder: str) -> str:
        """The digest of a tree; nothing where it cannot be read."""
        if (kind, folder) not in self._trees:
            try:
                self._trees[kind, folder] = list_tree(kind, folder)
            except Unreadable:
                self.is_sure = False
                return ""
        return combine_listing(self._trees[kind, folder])

    def note_file(self, path: str) -> str:
        """The digest of a file; nothing where it cannot be read."""
        if path not in self._files:
            try:
                self._files[path] = digest_file(path)
            except Unreadable:
                self.is_sure = False
                return ""
        return self._files[path]

    def note_place(self, rig_file: str, library_file: str | None) -> None:
        """Where the library of a rig file was found."""
        self._places[rig_file if os.path.islink(rig_file) else os.path.dirname(rig_file)] = library_file or ""

    def find_rigs(self) -> dict[str, str]:
        """Path and digest of every file below the trees of rigs, and of single files."""
        found = dict(self._files)
        for (kind, folder), listing in self._trees.items():
            if kind == RIGS:
                found |= {os.path.join(folder, name.partition("\0")[0]): digest for name, digest in listing}
        return found

    def to_plain(self) -> dict[str, Any]:
        """As JSON has it."""
        trees = sorted(self._trees, key=lambda tree: (_BY_CHANGE.index(tree[0]), tree[1]))
        return {
            "trees": [[kind, folder, combine_listing(self._trees[kind, folder])] for kind, folder in trees],
            "files": sorted(self._files.items()),
            "places": sorted(self._places.items()),
        }


def do_inputs_hold(plain: Any, kinds: tuple[str, ...] = _BY_CHANGE) -> bool:
    """Whether all that was noted is as it was; of trees, those of these kinds. Raises TypeError, ValueError or KeyError
    for what notes nothing."""
    try:
        return (
            all((find_library_above(_resolve(place)) or "") == library for place, library in plain["places"])
            and all(digest_file(path) == digest for path, digest in plain["files"])
            and all(
                combine_listing(list_tree(kind, folder)) == digest
                for kind, folder, digest in plain["trees"]
                if kind in kinds
            )
        )
    except (Unreadable, OSError):
        return False


def _resolve(place: str) -> str:
    """The resolved folder of a place: a folder of rigs, or a rig file that is a link."""
    real = os.path.realpath(place)
    return os.path.dirname(real) if os.path.isfile(real) else real
