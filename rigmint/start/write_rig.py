"""Writes a draft as a rig file: as a prep room reads it, with a comment where the user's own goes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from rigmint.start.draft import Draft, DraftItem, DraftLead, DraftLink
from rigmint.start.render import render_template

_AXES = ("focus", "iris", "zoom", "pan", "tilt", "roll", "record")
_WIDTH = 76
_WHERE = {"vehicle": "vehicle", "studio": "steel"}


def write_rig(draft: Draft, title: str) -> str:
    """The file's text, ending in a newline."""
    answers = draft.answers
    return render_template(
        "rig.yaml.j2",
        title=quote(title),
        answers=answers,
        says=_say_rig(draft),
        where=_WHERE.get(answers.on, "open"),
        setup=_name_setup(answers.people),
        kit=list(_write_kit(draft)),
        docks=[f"- {first} > {second}" for first, second in draft.docks],
        leads=list(_write_leads(draft.leads)),
        links=[_write_link(link) for link in draft.links],
        fitted=", ".join(f"{motor}: {ring}" for motor, ring in draft.fitted.items()),
        crew=[f"{person}: [{', '.join(held)}]" for person, held in draft.crew.items() if held],
        idle=max(0, answers.people - len(draft.crew)),
        settings=[f"{place}: {value}" for place, value in draft.settings.items()],
        who=_write_who(draft),
        spares=[f"- {{part: {part}, count: {count}, why: day}}" for part, count in draft.spares],
        taped=draft.list_taped_leads(),
        tied=draft.list_loose_plugs(),
        has_bonds=any(draft.is_bonded(item) for item in draft.items.values()),
    )


def quote(text: str) -> str:
    """Text as a YAML scalar on one line."""
    import json

    return json.dumps(text, ensure_ascii=False)


def _name_setup(people: int) -> str:
    return {1: "one_up", 2: "two_up", 3: "three_up", 4: "four_up"}.get(people, "all_hands")


def _say_rig(draft: Draft) -> str:
    answers = draft.answers
    heads = {
        "none": "no head",
        "follow": "carried head by follow mode",
        "wheels": "head operated from wheels",
        "stick": "head operated from a joystick",
    }
    by = (answers.lens_by or "").replace("_", " ")
    lens = f"{' and '.join(answers.lens)} by {by}" if answers.lens else "no lens control"
    return f"{answers.camera} camera on {answers.on}, {heads[answers.head]}, {lens}"


def _write_kit(draft: Draft) -> Iterator[str]:
    items = sorted(draft.items.values(), key=lambda item: _find_groups(draft).index(item.group))
    for number, (group, members) in enumerate(groupby(items, key=lambda item: item.group)):
        yield from ([""] if number else [])
        yield f"# {group[0].upper()}{group[1:]}"
        yield from (_write_item(draft, item) for item in members)


def _find_groups(draft: Draft) -> list[str]:
    return list(dict.fromkeys(["power", *(item.group for item in draft.items.values())]))


def _write_item(draft: Draft, item: DraftItem) -> str:
    entries = [f"part: {item.part.id}"]
    if item.settings:
        entries.append(f"set: {{{', '.join(f'{name}: {value}' for name, value in item.settings.items())}}}")
    if item.rides is not None:
        entries.append(f"rides: {item.rides}")
    if item.watch is not None:
        entries.append(f"for: {item.watch}")
    if draft.is_bonded(item):
        entries.append("bond: true")
    value = f"{{{', '.join(entries)}}}" if len(entries) > 1 else item.part.id
    return write_remark(f"{item.name + ':':<11} {value}", item.remark)


def write_remark(line: str, remark: str | None) -> str:
    """A line with a comment after it, aligned where the line is short."""
    return f"{line:<{_WIDTH}}  # {remark}" if remark else line


def _write_leads(leads: Sequence[DraftLead]) -> Iterator[str]:
    groups = list(dict.fromkeys(["power", *(lead.group for lead in leads)]))
    ordered = sorted(leads, key=lambda lead: groups.index(lead.group))
    for number, (group, members) in enumerate(groupby(ordered, key=lambda lead: lead.group)):
        yield from ([""] if number else [])
        yield f"# {group[0].upper()}{group[1:]}"
        yield from (_write_lead(lead) for lead in members)


def _write_lead(lead: DraftLead) -> str:
    if set(lead.ends) == {"from", "to"}:
        ends = f"from: {lead.ends['from']}, to: {lead.ends['to']}"
    else:
        ends = f"ends: {{{', '.join(f'{end}: {place}' for end, place in lead.ends.items())}}}"
    length = f", length: {lead.length:g} m" if lead.length is not None else ""
    return write_remark(f"{lead.label}: {{part: {lead.part}, {ends}{length}}}", lead.remark)


def _write_link(link: DraftLink) -> str:
    radios = ", ".join(link.radios)
    return f"{link.name}: {{between: [{radios}], distance: {link.distance:g} m, channel: {link.channel}}}"


def _write_who(draft: Draft) -> str:
    entries = [(axis, draft.who[axis]) for axis in _AXES if axis in draft.who]
    return ", ".join(f"{axis}: {_write_people(people)}" for axis, people in entries)


def _write_people(people: Iterable[str]) -> str:
    listed = list(people)
    return listed[0] if len(listed) == 1 else f"[{', '.join(listed)}]"
