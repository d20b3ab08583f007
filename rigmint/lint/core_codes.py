"""The codes that the core itself reports: files that cannot be read, packs that cannot be used, acceptances."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.lint.part_codes import PART_CODES, PART_FAMILY
from rigmint.words import Grade


@dataclass(frozen=True, slots=True)
class CoreCode:
    """A code of the core; `grade` is None for what marks something as unread."""

    code: str
    grade: Grade | None
    title: str
    put_right: str

    @property
    def is_of_parts(self) -> bool:
        """Whether it is looked for in part files, by `parts check`, and not in rigs."""
        return self.code.startswith(f"{PART_FAMILY}:")


_UNREAD = (
    (
        "file:unreadable",
        "A file or folder cannot be read.",
        "See that it is there and may be read.",
    ),
    ("file:too-big", "A file is larger than 2 MiB.", "Split the rig, or move its parts into part files."),
    ("file:too-deep", "A file nests deeper than 50 levels.", "Look for brackets that are not closed."),
    ("file:too-many", "A file holds more nodes or items than are read.", "Split it into several files."),
    ("file:not-yaml", "A file is not YAML, or not UTF-8 text.", "Mend the syntax at the line given."),
    ("file:duplicate-key", "A key stands twice in one mapping.", "Take one of the two out, or rename it."),
    ("file:anchor", "A file uses an anchor, an alias or a tag.", "Write the value out, or use `like:`."),
    (
        "file:wrong-kind",
        "A value, or the whole file, is not of the kind that is due.",
        "Write what the message says.",
    ),
    (
        "file:unknown-key",
        "A key that the format does not have.",
        "Use the key suggested; `house:` takes your own.",
    ),
    ("file:missing-key", "A key that must be there is missing.", "Add the key that the message names."),
    (
        "file:unknown-name",
        "A part, port, setting, axis or other name that nothing declares.",
        "Correct the name.",
    ),
    (
        "file:wrong-unit",
        "A quantity without a unit, or with one of another kind.",
        "Write the unit that is due.",
    ),
    (
        "file:bad-value",
        "A value that the format does not allow there.",
        "Use one of the values that are listed.",
    ),
    (
        "file:circle",
        "`like:` leads back to where it began.",
        "Start one of the files afresh, without `like:`.",
    ),
    ("file:two-parts", "Two parts have one id.", "Give one of them an id of its own."),
    (
        "file:no-library",
        "A library file is needed or named, and is not there.",
        "Give the path of a `rigmint.yaml`.",
    ),
    (
        "pack:missing",
        "A pack that is standard or that the library needs is not installed.",
        "Install it, or list it under `packs: without:` in the library.",
    ),
    (
        "pack:refused",
        "A pack was built for another version of the pack contract.",
        "Install a version that fits.",
    ),
    (
        "pack:broken",
        "A pack cannot be loaded, or declares a rule that is not whole.",
        "Mend or remove the pack.",
    ),
    (
        "rule:crashed",
        "A rule stopped with an error; the others still ran.",
        "Report it to those who keep the pack.",
    ),
    ("study:failed", "A computation that rules rely on failed.", "Report it with the rig file."),
)

CORE_CODES: tuple[CoreCode, ...] = (
    *(CoreCode(code, None, title, put_right) for code, title, put_right in _UNREAD),
    CoreCode(
        "library:unsaid",
        None,
        "A library lists checks in Python, and the run does not say whether to run them.",
        "Say `--house-checks` or `--no-house-checks`; a pre-commit hook says it under `args:`.",
    ),
    CoreCode(
        "accepted:expired",
        Grade.THIN,
        "An acceptance does not hold, or not any more: its finding is open.",
        "Look at the finding anew, then sign for it with a later `until`, or put it right. What can burn or hurt is"
        " signed for only until a day.",
    ),
    CoreCode(
        "accepted:stale",
        Grade.TIDY,
        "An acceptance matches no finding.",
        "Take the entry out of `accepted:`, or correct its code or place.",
    ),
    *(CoreCode(*declared) for declared in PART_CODES),
)

CORE_FAMILIES = frozenset(core.code.partition(":")[0] for core in CORE_CODES)
"""Families of codes that no pack may declare."""
