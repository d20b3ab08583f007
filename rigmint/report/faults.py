"""How a fault is named in a report: faults of packs are tied to no file."""

from __future__ import annotations

from rigmint.library.faults import Fault

_PACKS = "packs"
_NO_FILE = "files"
_WHOLE_FILE = frozenset({"file:unreadable", "file:too-big", "file:no-library", "rule:crashed", "study:failed"})


def is_in_file(fault: Fault) -> bool:
    """Whether the fault stands in a file; a pack's fault carries the pack's name there."""
    return bool(fault.file) and not fault.code.startswith("pack:")


def has_line(fault: Fault) -> bool:
    """Whether its line says something: what concerns a whole file is noted at the first line."""
    return is_in_file(fault) and (fault.line > 1 or fault.code not in _WHOLE_FILE)


def name_group(fault: Fault) -> str:
    """The heading under which a fault is listed that is tied to no rig."""
    if is_in_file(fault):
        return fault.file
    return _PACKS if fault.file else _NO_FILE
