"""How a fault is named in a report: faults of packs are tied to no file."""

from __future__ import annotations

from rigmint.library.faults import Fault

_PACKS = "packs"
_NO_FILE = "files"


def is_in_file(fault: Fault) -> bool:
    """Whether the fault stands in a file; a pack's fault carries the pack's name there."""
    return bool(fault.file) and not fault.code.startswith("pack:")


def name_group(fault: Fault) -> str:
    """The heading under which a fault is listed that is tied to no rig."""
    if is_in_file(fault):
        return fault.file
    return _PACKS if fault.file else _NO_FILE
