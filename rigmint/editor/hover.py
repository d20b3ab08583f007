"""What is told of the word under the pointer: a port's volts, who has an axis, what a part is, what a key means."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.editor.cursor import Cursor
from rigmint.editor.judged import Judged
from rigmint.editor.known import Known
from rigmint.editor.schema_walk import find_place
from rigmint.report.owners import describe_claim
from rigmint.rig.rig import PortRef
from rigmint.study.hands import AxisHands
from rigmint.study.studies import Studies
from rigmint.words import AXES


@dataclass(frozen=True, slots=True)
class Word:
    """A word of a text, from one character offset to another, and where it stands."""

    text: str
    start: int
    end: int
    cursor: Cursor


def tell_of(word: Word, kind: str, known: Known, judged: Judged | None) -> str:
    """What is told of a word, line by line; nothing where there is nothing to tell. `judged`: the newest text in which
    everything could be read, for what the wiring does."""
    studies = judged.studies if judged is not None else None
    lines: list[str] = []
    if kind == "rig":
        lines += _tell_of_names(word.text, known)
        if studies is not None:
            lines += _tell_of_port(word.text, studies)
            lines += _tell_of_axes(word, studies)
    elif (part := known.catalogue.part(word.text)) is not None:
        lines.append(f"{part.name} ({part.kind.replace('_', ' ')})")
    return "\n".join(lines) or find_place(kind, word.cursor.keys).says


def _tell_of_names(text: str, known: Known) -> Iterator[str]:
    item, _, port_name = text.partition(".")
    part = known.part_of(item) or known.catalogue.part(text)
    if part is None:
        return
    port = part.ports.get(port_name)
    if port is None:
        yield f"{part.name} ({part.kind.replace('_', ' ')}), {part.id}"
    else:
        yield f"{part.name}: {port.says or port.name}, {port.connector.name}, {port.sex.value}"


def _tell_of_port(text: str, studies: Studies) -> Iterator[str]:
    rig = studies.rig
    item, _, name = text.partition(".")
    if item not in rig.items or name not in rig.items[item].part.ports:
        return
    ref = PortRef(item, name)
    if not rig.port(ref).carries_power:
        return
    for setup in rig.setups.values():
        if item not in setup.items:
            continue
        points = studies.power(setup).points
        volts = [f"{power.ports[ref].volts:.1f} V {point}" for point, power in points.items() if ref in power.ports]
        high = studies.worst_volts(setup).ports[ref].high
        worst = f"at most {high.volts:.1f} V, from {high.source.place}" if high is not None else "no source reaches it"
        yield f"{setup.name}: {', '.join([*volts, worst])}"


def _tell_of_axes(word: Word, studies: Studies) -> Iterator[str]:
    """The axes of a ring, a joint or a record; of an item, all that it has; of a key under `who`, that of its setup."""
    keys = word.cursor.keys
    only = keys[1] if keys[:1] == ("setups",) and len(keys) > 1 else None
    is_who = "who" in keys and word.text in (*AXES, *keys)
    for setup in studies.rig.setups.values():
        for axis in studies.hands(setup).axes.values():
            is_named = word.text in (axis.place, axis.place.partition(".")[0]) or (is_who and word.text == axis.name)
            if is_named and only in (None, setup.name):
                yield f"{setup.name}: {_say_axis(axis)}"


def _say_axis(axis: AxisHands) -> str:
    meant = f" (meant: {', '.join(axis.meant)})" if axis.meant else ""
    hands = "; ".join(describe_claim(claim) for claim in axis.certain)
    return f"{axis.name}{meant}: {hands or 'nobody has it'}"
