"""`fit:unlatched`: plugs that nothing holds, on a rig that moves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Finding, Fix, Grade, PortRef, Rig, Rule, Setup, Unknown, end_place, say_list

_ON_THE_MOVE = ("hand", "vehicle", "crane", "overhead", "cable")
_AWAY = "away"


@dataclass(frozen=True, slots=True)
class _Plug:
    """A plug that does not latch; `names` are the places under which it may be tied."""

    ref: PortRef
    cause: str
    names: frozenset[str]


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One roll-up of the setup."""
    of_rig = [plug for plug in _list_plugs(case.rig) if not plug.names & case.rig.tied]
    plugs = [plug for plug in of_rig if _is_there(case.setup, plug)]
    if not plugs:
        return
    if case.setup.on is None:
        says = "what the rig is on decides whether plugs that do not latch must be tied"
        yield Unknown("fit:unlatched", "on", plugs[0].ref.place, says)
    elif case.setup.on in _ON_THE_MOVE:
        yield _report(case.setup.on, plugs, of_rig[0].cause)  # the rig's first, so that all setups speak of one cause


def _list_plugs(rig: Rig) -> Iterator[_Plug]:
    for lead in rig.leads.values():
        for end, ref in sorted(lead.plugged.items()):
            if lead.body.ends[end].connector.latches is False and _rides(rig, ref):
                names = frozenset({ref.place, end_place(lead.label, end), lead.label})
                yield _Plug(ref, lead.label, names)
    for dock in rig.docks:
        connector = rig.items[dock.first.item].part.ports[dock.first.port].connector
        if connector.latches is False and not connector.is_mechanical and _rides(rig, dock.first):
            yield _Plug(dock.first, dock.first.item, frozenset({dock.first.place, dock.second.place}))


def _rides(rig: Rig, ref: PortRef) -> bool:
    return rig.items[ref.item].rides != _AWAY


def _is_there(setup: Setup, plug: _Plug) -> bool:
    return plug.cause in setup.leads or (plug.cause in setup.items and plug.ref.item in setup.items)


def _report(on: str, plugs: list[_Plug], cause: str) -> Finding:
    places = sorted({plug.ref.place for plug in plugs})  # not by end: a lead that is turned round changes nothing here
    count = f"{len(places)} plugs that do not latch are" if len(places) > 1 else "one plug that does not latch is"
    them = "them" if len(places) > 1 else "it"
    says_on = {"hand": "Hand-held", "overhead": "Overhead"}.get(on, f"On a {on}")
    return Finding(
        code="fit:unlatched",
        grade=Grade.THIN,
        says=f"{says_on}, {count} not tied: {say_list(places)}.",
        at=places[0],
        cause=cause,
        also=tuple(places[1:]),
        fixes=(Fix(f"Tie or clamp {them} to the device, and write {them} under `tied:`."),),
    )


RULE = Rule(
    code="fit:unlatched",
    grades=(Grade.THIN,),
    title="Plugs that do not latch",
    looks_for=(
        "On hand, vehicle, crane, overhead or cable: plugs of connectors without a latch, on items that ride on the"
        " rig; one roll-up a setup. `tied:` answers it, with the port, the lead's end or the whole lead."
    ),
    why="A USB plug shakes out on the first bump, and a lens motor or the picture goes with it.",
    put_right="Tie or clamp them, and write down which are.",
    source="common practice",
    check=check,
)
