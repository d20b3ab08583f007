"""How many packs the day takes beside those on the rig."""

from __future__ import annotations

from rigmint.library.build_rig import assemble_rig
from rigmint.library.faults import FaultList
from rigmint.library.library_file import Library
from rigmint.library.yaml import parse_yaml
from rigmint.physics.circuit.errors import BadCircuit, SolveFailed
from rigmint.rig.rig import Rig
from rigmint.study.studies import Studies


def read_text_as_rig(text: str, library: Library) -> Rig | None:
    """The rig of a text that lies in no file yet; None where it cannot be read."""
    faults = FaultList()
    document = parse_yaml(text, "started.rig.yaml", faults)
    return assemble_rig(document, library, faults).rig if document is not None else None


def count_spares(text: str, library: Library) -> list[tuple[str, int]]:
    """(part, packs) to put in the case for the day that the rig states, without charging; nothing where the rig cannot
    be solved, which its check will say."""
    rig = read_text_as_rig(text, library)
    if rig is None:
        return []
    studies = Studies(rig, library.house)
    try:
        days = [studies.day(setup) for setup in rig.setups.values()]
    except (SolveFailed, BadCircuit):
        return []
    packs = [one for day in days if day is not None for one in day.packs]
    return [(one.parts[0].id, one.missing) for one in packs if one.missing]
