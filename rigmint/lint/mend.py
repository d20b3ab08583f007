"""Mends a rig file: proved fixes, worst first, until nothing is left that one would clear."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.library.faults import Fault
from rigmint.library.library_file import Library
from rigmint.library.tree_edits import EditRefused
from rigmint.library.write_file import encode_text, read_bytes, replace_file
from rigmint.lint.edits import list_edits
from rigmint.lint.finding import Fix, MergedFinding
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.prove import Proof, Prover
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Mended:
    """A finding that a fix cleared. `line`: of its cause, in the file as it was when its turn came."""

    code: str
    grade: Grade
    says: str
    line: int
    fix: str


@dataclass(frozen=True, slots=True)
class Left:
    """A finding that nothing cleared: its remedies, each with the reason why it was not taken."""

    code: str
    grade: Grade
    says: str
    line: int
    remedies: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Mending:
    """What mending one file came to. `before` and `after` are its texts; `faults`: why it could not be read or judged
    whole."""

    file: str
    before: str
    after: str
    mended: tuple[Mended, ...]
    left: tuple[Left, ...]
    faults: tuple[Fault, ...]

    @property
    def is_changed(self) -> bool:
        """Whether there is something to write."""
        return self.before != self.after


_BY_HAND = "by hand"
_NOT_PROVED = "not proved: it does not clear this, or something else comes"


def plan_mending(
    path: Path, opened: OpenLibrary, today: datetime.date, setup: str | None = None
) -> tuple[Mending, bytes]:
    """What mending a file would come to, and its bytes as they were read. `setup`: only what is found in that one.
    Raises NotWritten where the file cannot be read."""
    held = read_bytes(path)
    read = read_rig(path, opened.library)
    document = read.document
    if read.rig is None or document is None:
        return Mending(read.file, "", "", (), (), read.faults), held
    if setup is not None and setup not in read.rig.setups:
        listed = ", ".join(f"`{name}`" for name in read.rig.setups)
        fault = Fault(read.file, 1, 1, "file:unknown-name", f"there is no setup `{setup}`; the rig has {listed}")
        return Mending(read.file, document.text, document.text, (), (), (fault,)), held
    prover = Prover(read, opened.library, opened.packs, today, schemas=opened.schemas)
    return _mend(read, document.text, prover, setup), held


def order_by_base(files: Sequence[Path], find_library: Callable[[Path], Library]) -> list[Path]:
    """What others start from by `like:` comes first, so that it is mended where it is written and not once in each."""
    depths: dict[Path, int] = {}
    for file in files:
        document = read_rig(file, find_library(file)).document
        depth = 0
        while document is not None and document.base is not None:
            document, depth = document.base, depth + 1
        depths[file] = depth
    return sorted(files, key=lambda file: depths[file])


def write_mending(path: Path, mending: Mending, held: bytes) -> None:
    """Put the mended text in the place of the file. Raises NotWritten where it is not what was read any more, or cannot
    be written."""
    if mending.is_changed:
        replace_file(path, held, encode_text(mending.after, held))


def _mend(read: ReadRig, before: str, prover: Prover, setup: str | None) -> Mending:
    mended: list[Mended] = []
    text = before
    seen = {before}
    while True:
        step = _take_step(prover, setup, seen)
        if step is None:
            break
        merged, fix, proof = step
        mended.append(_describe(merged, fix, prover))
        text = proof.text
        seen.add(text)
        prover = prover.continue_from(proof.checked)
    checked = prover.checked
    left = tuple(_describe_left(one, prover) for one in _list_open(prover, setup))
    crashes = checked.run.crashes if checked is not None else ()
    return Mending(read.file, before, text, tuple(mended), left, crashes)


def _take_step(prover: Prover, setup: str | None, seen: set[str]) -> tuple[MergedFinding, Fix, Proof] | None:
    """The first proved fix of the worst finding that has one. A text that was there before is not gone back to."""
    for merged in _list_open(prover, setup):
        for fix in merged.finding.fixes:
            proof = _try(prover, merged, fix)
            if isinstance(proof, Proof) and proof.text not in seen:
                return merged, fix, proof
    return None


def _list_open(prover: Prover, setup: str | None) -> list[MergedFinding]:
    checked = prover.checked
    found = [*checked.open, *checked.own] if checked is not None else []
    return [one for one in found if setup is None or setup in one.setups]


def _try(prover: Prover, merged: MergedFinding, fix: Fix) -> Proof | str:
    """The proof of a fix, or why there is none."""
    checked = prover.checked
    if not fix.changes or checked is None:
        return _BY_HAND
    try:
        edits = list_edits(fix.changes, checked.rig, checked.document.tree, merged.setups)
        return prover.prove(merged, edits) or _NOT_PROVED
    except EditRefused as error:
        return str(error)


def _describe(merged: MergedFinding, fix: Fix, prover: Prover) -> Mended:
    finding = merged.finding
    return Mended(finding.code, finding.grade, finding.says, _find_line(merged, prover), fix.says)


def _describe_left(merged: MergedFinding, prover: Prover) -> Left:
    finding = merged.finding
    remedies = []
    for fix in finding.fixes:
        outcome = _try(prover, merged, fix)
        remedies.append((fix.says, outcome if isinstance(outcome, str) else "it leads back to what stood here before"))
    return Left(finding.code, finding.grade, finding.says, _find_line(merged, prover), tuple(remedies))


def _find_line(merged: MergedFinding, prover: Prover) -> int:
    checked = prover.checked
    return checked.rig.position(merged.finding.cause, merged.setups[0]).line if checked is not None else 1
