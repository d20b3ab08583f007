"""What `rigmint parts` prints: parts of the catalogue, and the line to paste into a rig file."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.report.layout import count, wrap
from rigmint.report.part_page import describe_facts
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.rig.connector import Sex
from rigmint.rig.device import Setting
from rigmint.rig.electric import Port
from rigmint.rig.lead import LeadEnd
from rigmint.rig.part import Part

MOST_IN_FULL = 12
"""Up to so many parts are shown with their ports; beyond it, one line each."""
IN_FULL = 3
"""Up to so many parts are shown with all that is needed to write them into a rig."""
_INDENT = 4
_HEADING = 10


def render_parts(parts: Sequence[Part], style: Style) -> str:
    """Parts in the order given, ending in a newline."""
    if len(parts) > MOST_IN_FULL:
        width = max(len(clean(part.id)) for part in parts)
        lines = [f"{clean(part.id):<{width}}   {clean(part.name)}" for part in parts]
        return "\n".join([*lines, "", f"{count(len(parts), 'part')}; a further word narrows the search."]) + "\n"
    describe = _describe_in_full if len(parts) <= IN_FULL else _describe_part
    return "\n".join("\n".join(describe(part, style.width)) + "\n" for part in parts)


def _describe_in_full(part: Part, width: int) -> list[str]:
    lines = [*wrap(f"{part.id}   {part.name}", width, 0, _INDENT), " " * _INDENT + part.kind]
    facts = list(describe_facts(part))
    if part.lead is not None:
        facts += [
            ("end", f"{end.name}: {_describe_mate(end.connector.id, end.sex)}") for end in part.lead.ends.values()
        ]
    shown = ""
    for heading, fact in facts:
        label = heading if heading != shown else ""
        shown = heading
        lines += wrap(f"{label:<{_HEADING}}{fact}", width, _INDENT, _INDENT + _HEADING + 2)
    return [*lines, *wrap(f"{'write':<{_HEADING}}{_write_line(part)}", width, _INDENT, _INDENT + _HEADING)]


def _describe_part(part: Part, width: int) -> list[str]:
    lines = wrap(f"{part.id}   {part.name}", width, 0, _INDENT)
    connections = [_describe_port(port) for port in part.ports.values()]
    if part.lead is not None:
        connections += [_describe_end(end) for end in part.lead.ends.values()]
    if connections:
        lines += wrap(f"{part.kind}: {', '.join(connections)}", width, _INDENT, _INDENT + 2)
    else:
        lines += wrap(part.kind, width, _INDENT)
    return [*lines, " " * _INDENT + clean(_write_line(part))]


def _describe_port(port: Port) -> str:
    return f"{port.name} ({_describe_mate(port.connector.id, port.sex)})"


def _describe_end(end: LeadEnd) -> str:
    return f"end {end.name} ({_describe_mate(end.connector.id, end.sex)})"


def _describe_mate(connector: str, sex: Sex) -> str:
    return f"{connector} {sex.value}" if sex in (Sex.PLUG, Sex.SOCKET) else connector


def _list_unstated(part: Part) -> list[tuple[str, Setting]]:
    """Settings that a rig has to state, since the part has no default for them."""
    return [(name, one) for name, one in part.settings.items() if one.default is None and one.values]


def _write_line(part: Part) -> str:
    """As it is pasted under `kit:`, with the settings that have to be stated at their first value, or for a lead under
    `leads:`, where its label and ports are to be filled in."""
    if part.lead is None:
        stated = ", ".join(f"{name}: {setting.values[0]}" for name, setting in _list_unstated(part))
        return f"{part.kind}: {{part: {part.id}, set: {{{stated}}}}}" if stated else f"{part.kind}: {part.id}"
    ends = tuple(part.lead.ends)
    if ends == ("a", "b"):
        return f"P1: {{part: {part.id}, from: ITEM.PORT, to: ITEM.PORT}}"
    return f"P1: {{part: {part.id}, ends: {{{', '.join(f'{end}: ITEM.PORT' for end in ends)}}}}}"
