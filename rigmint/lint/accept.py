"""Signs for a finding in the rig file."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path

from rigmint.library.build_rig import read_rig, reassemble_rig
from rigmint.library.document import Value
from rigmint.library.faults import find_nearest
from rigmint.library.text_edits import apply_text_edits, plan_text_edits
from rigmint.library.tree_edits import Edit, EditRefused
from rigmint.library.write_file import read_bytes
from rigmint.lint.accepted import Signed, Verdict, judge_entry, matches_entry
from rigmint.lint.finding import MergedFinding
from rigmint.lint.mend import Mending
from rigmint.lint.open_library import OpenLibrary
from rigmint.lint.prove import CheckedRig, Prover
from rigmint.rig.rig import Acceptance
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class Signature:
    """What is signed for, why, by whom; as on the command line."""

    code: str
    at: str
    why: str
    by: str
    until: datetime.date | None = None
    setup: str | None = None
    up_to: str | None = None

    def as_tree(self) -> dict[str, Value]:
        """The entry as it stands in the file."""
        entry: dict[str, Value] = {"code": self.code, "at": self.at}
        if self.setup is not None:
            entry["setup"] = self.setup
        entry |= {"why": self.why, "by": self.by}
        if self.until is not None:
            entry["until"] = self.until.isoformat()
        if self.up_to is not None:
            entry["up_to"] = self.up_to
        return entry


class NotSigned(Exception):
    """A signature that was refused, and why, for a person."""


def plan_acceptance(
    path: Path, opened: OpenLibrary, today: datetime.date, signature: Signature
) -> tuple[Mending, bytes]:
    """The rig file with the entry, and its bytes as they were read. Raises NotSigned where nothing is found that the
    entry would be for, or where it would not hold; NotWritten where the file cannot be read."""
    held = read_bytes(path)
    read = read_rig(path, opened.library)
    checked = Prover(read, opened.library, opened.packs, today).checked
    if checked is None:
        return Mending(read.file, "", "", (), (), read.faults), held
    found = _find_matching(checked, signature)
    _refuse_early(found, checked, signature, today)
    try:
        edits = _list_edits(checked, signature)
        text = apply_text_edits(checked.document.text, plan_text_edits(checked.document, edits))
    except EditRefused as error:
        raise NotSigned(str(error)) from error
    after = reassemble_rig(checked.document, text, opened.library)
    if after.rig is None:
        raise NotSigned("; ".join(fault.says for fault in after.faults))
    _refuse_one_that_does_not_hold(after.rig.accepted, found, signature, today)
    return Mending(read.file, checked.document.text, text, (), (), ()), held


def _find_matching(checked: CheckedRig, signature: Signature) -> list[Signed]:
    entry = Acceptance(signature.code, signature.at, signature.setup, "", "", None, None, "accepted")
    return [one for one in checked.signed if matches_entry(entry, one.merged, checked.rig)]


def _refuse_early(found: list[Signed], checked: CheckedRig, signature: Signature, today: datetime.date) -> None:
    if not signature.why.strip() or not signature.by.strip():
        msg = "say why, and by whom it is signed: neither may be empty"
        raise NotSigned(msg)
    if not found:
        raise NotSigned(_say_nothing_found(checked, signature))
    if all(one.accepted is not None for one in found):
        by = sorted({one.accepted.by for one in found if one.accepted is not None})
        msg = f"{signature.code} at {signature.at} is signed for already, by {', '.join(by)}"
        raise NotSigned(msg)
    if signature.until is not None and signature.until < today:
        msg = f"{signature.until.isoformat()} is over: sign until a day to come"
        raise NotSigned(msg)
    grades = {one.merged.finding.grade for one in found}
    if signature.until is None and grades & {Grade.BURN, Grade.HURT}:
        msg = f"{signature.code} can burn or hurt: it is signed for only until a day, with --until"
        raise NotSigned(msg)


def _say_nothing_found(checked: CheckedRig, signature: Signature) -> str:
    where = f" in the setup {signature.setup}" if signature.setup is not None else ""
    same = [one.merged for one in checked.signed if one.merged.finding.code == signature.code]
    if same:
        places = ", ".join(dict.fromkeys(_show_place(one) for one in same))
        return f"{signature.code} is not found at {signature.at}{where}; it is found at {places}"
    near = find_nearest(signature.code, {one.merged.finding.code for one in checked.signed})
    meant = f": did you mean {near}?" if near else ", so there is nothing to sign for"
    return f"the rig has no finding {signature.code}{meant}"


def _show_place(merged: MergedFinding) -> str:
    finding = merged.finding
    cause = f" (cause {finding.cause})" if finding.cause != finding.at else ""
    return f"{finding.at}{cause} in {', '.join(merged.setups)}"


def _list_edits(checked: CheckedRig, signature: Signature) -> list[Edit]:
    """A new entry; where there is one for the same code, place and setup, that one is signed anew."""
    entry = signature.as_tree()
    held = checked.document.as_mapping().get("accepted")
    for index, old in enumerate(held if isinstance(held, list) else []):
        if isinstance(old, dict) and all(old.get(key) == entry.get(key) for key in ("code", "at", "setup")):
            changed = [Edit("set", ("accepted", index, key), value) for key, value in entry.items()]
            gone = [Edit("remove", ("accepted", index, key)) for key in ("until", "up_to") if key in old]
            return [*changed, *(edit for edit in gone if edit.path[-1] not in entry)]
    return [Edit("add", ("accepted",), entry)]


def _refuse_one_that_does_not_hold(
    entries: tuple[Acceptance, ...], found: list[Signed], signature: Signature, today: datetime.date
) -> None:
    wanted = (signature.code, signature.at, signature.setup)
    entry = next(one for one in entries if (one.code, one.at, one.setup) == wanted)
    for one in found:
        verdict = judge_entry(entry, one.merged.finding, today)
        if verdict is not Verdict.HOLDS:
            raise NotSigned(_say_why_not(verdict, one.merged, signature))


def _say_why_not(verdict: Verdict, merged: MergedFinding, signature: Signature) -> str:
    measured = merged.finding.measured
    unit = measured.unit if measured is not None else "nothing"
    words = {
        Verdict.WRONG_UNIT: f"{signature.code} is measured in {unit}, and --up-to {signature.up_to} is not",
        Verdict.UNMEASURED: f"{signature.code} has no value that --up-to could be held against",
        Verdict.GROWN: f"it is beyond --up-to {signature.up_to} already: {merged.finding.says}",
    }
    return words.get(verdict, f"the entry would not hold: it is {verdict}")
