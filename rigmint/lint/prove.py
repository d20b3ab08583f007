"""Proves a fix: applied in memory and checked again, its finding is gone and nothing at `thin` or worse has come."""

from __future__ import annotations

import copy
from collections.abc import Sequence
from dataclasses import replace

from rigmint.library.build_rig import ReadRig, assemble_rig
from rigmint.library.document import Value
from rigmint.library.faults import FaultList
from rigmint.library.library_file import Library
from rigmint.lint.edits import Edit, Key
from rigmint.lint.engine import MergedFinding, RuleRun, run_rules
from rigmint.lint.packs import PackSet
from rigmint.rig.rig import Rig
from rigmint.words import Grade


class EditRefused(ValueError):
    """An edit that does not fit the file."""


class Prover:
    """Tries fixes on one rig."""

    def __init__(self, read: ReadRig, library: Library, packs: PackSet, others: tuple[Rig, ...] = ()) -> None:
        self._read = read
        self._library = library
        self._packs = packs
        self._others = others
        self._before: set[tuple[str, str, str]] | None = None

    def prove(self, merged: MergedFinding, edits: Sequence[Edit]) -> bool:
        """Whether the edits clear the finding and bring nothing new."""
        document = self._read.document
        if document is None or self._read.rig is None:
            return False
        if self._before is None:
            self._before = _list_weighty(self._run(self._read.rig))
        try:
            tree = apply_edits(document.tree, edits)
        except EditRefused:
            return False
        changed = assemble_rig(replace(document, tree=tree), self._library, FaultList())
        if changed.rig is None:
            return False
        run = self._run(changed.rig)
        after = _list_weighty(run)
        finding = merged.finding
        is_gone = not any(
            one.finding.code == finding.code and one.finding.cause == finding.cause for one in run.findings
        )
        return is_gone and after <= self._before and not run.crashes

    def _run(self, rig: Rig) -> RuleRun:
        return run_rules(rig, self._library.house, self._packs.rules, others=self._others)


def _list_weighty(run: RuleRun) -> set[tuple[str, str, str]]:
    return {
        (one.finding.code, one.finding.at, one.finding.cause)
        for one in run.findings
        if one.finding.grade.is_at_least(Grade.THIN)
    }


def apply_edits(tree: Value, edits: Sequence[Edit]) -> Value:
    """A copy of a rig's tree with the edits made. Raises EditRefused where one does not fit."""
    changed = copy.deepcopy(tree)
    for edit in edits:
        _apply(changed, edit)
    return changed


def _apply(tree: Value, edit: Edit) -> None:
    parent = _descend(tree, edit.path[:-1], make=edit.do != "remove")
    last = edit.path[-1]
    if not isinstance(parent, dict):
        msg = f"nothing can be {edit.do} below {edit.path[:-1]}"
        raise EditRefused(msg)
    key = str(last)
    if edit.do == "set":
        parent[key] = edit.value
    elif edit.do == "add":
        entries = parent.setdefault(key, [])
        if not isinstance(entries, list):
            msg = f"{edit.path} is no list"
            raise EditRefused(msg)
        entries.append(edit.value)
    elif key in parent:
        del parent[key]
    else:
        msg = f"{edit.path} is not there"
        raise EditRefused(msg)


def _descend(tree: Value, path: Sequence[Key], *, make: bool) -> Value:
    here = tree
    for key in path:
        if isinstance(here, dict):
            if str(key) not in here and make:
                here[str(key)] = {}
            if str(key) not in here:
                return None
            here = here[str(key)]
        elif isinstance(here, list) and isinstance(key, int) and key < len(here):
            here = here[key]
        else:
            return None
    return here
