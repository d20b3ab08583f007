"""The front of the sheet: what flies how, who has what, how long, what is open, how to stop it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.lint.results import FileReport, ReportedFinding
from rigmint.lint.wording import say_metres, say_minutes, say_volts
from rigmint.report.order import sort_findings
from rigmint.report.owner_marks import Mark, describe_holding
from rigmint.report.power_day import say_day
from rigmint.report.sheet.power_section import TELLING_VOLTS, hangs_on_battery
from rigmint.rig.rig import Rig, Setup
from rigmint.study.hands import AxisHands
from rigmint.study.power import Point
from rigmint.study.reach import find_reach
from rigmint.study.studies import Studies
from rigmint.words import AXES

_MOST_FINDINGS = 5


@dataclass(frozen=True, slots=True)
class Held:
    """An axis: its name, whose it is, the marks of what is not as meant, how far the hand reaches."""

    axis: str
    who: str
    marks: tuple[Mark, ...]
    reach: str


@dataclass(frozen=True, slots=True)
class SetupCard:
    """One setup on the front page."""

    name: str
    says: str
    flown: str
    """What it is on, its stance, what is around."""
    held: tuple[Held, ...]
    distances: tuple[str, ...]
    runtime: str
    change: tuple[str, ...]
    day: str


@dataclass(frozen=True, slots=True)
class Card:
    """The front page."""

    title: str
    job: str
    says: str
    setups: tuple[SetupCard, ...]
    findings: tuple[ReportedFinding, ...]
    more_findings: int
    stop_motors: tuple[str, ...]
    cut_power: tuple[str, ...]


def gather_card(studies: Studies, report: FileReport, setups: Sequence[Setup]) -> Card:
    """The front page of the setups shown."""
    rig = studies.rig
    findings = [finding for finding in sort_findings(report) if finding.accepted is None]
    return Card(
        title=rig.title,
        job=rig.job or "",
        says=rig.says or "",
        setups=tuple(_gather_setup(studies, setup) for setup in setups),
        findings=tuple(findings[:_MOST_FINDINGS]),
        more_findings=max(0, len(findings) - _MOST_FINDINGS),
        stop_motors=_list_stops(studies, setups),
        cut_power=_list_cuts(rig, setups),
    )


def _gather_setup(studies: Studies, setup: Setup) -> SetupCard:
    flown = [f"on {setup.on}" if setup.on else "not said what it is on", setup.stance or "", setup.where or ""]
    axes = studies.hands(setup).axes
    ranks = {axis: rank for rank, axis in enumerate(AXES)}
    places = sorted(axes, key=lambda place: (ranks.get(place.partition(".")[2], len(ranks)), place))
    told = [place for place in places if axes[place].meant or axes[place].claims]
    return SetupCard(
        name=setup.name,
        says=setup.says or "",
        flown=", ".join(word for word in flown if word),
        held=tuple(_describe_held(axes[place]) for place in told),
        distances=_list_distances(studies, setup),
        runtime=_say_runtime(studies, setup),
        change=_list_changes(studies, setup),
        day=say_day(studies.day(setup)),
    )


def _describe_held(axis: AxisHands) -> Held:
    holding = describe_holding(axis)
    reaches = [claim.reach for claim in axis.certain if claim.reach is not None]
    return Held(axis.name, holding.names, holding.marks, say_metres(min(reaches)) if reaches else "")


def _list_distances(studies: Studies, setup: Setup) -> tuple[str, ...]:
    """Each link: how far it is to go, and what the place leaves of its reach, the shortest of its hops."""
    told = []
    for name in sorted(setup.links):
        link = studies.rig.links[name]
        hub, *others = link.radios
        hops = [
            find_reach(studies.rig, setup, hub, other, link, studies.house.leaves)
            for other in others
            if other.item in setup.items
        ]
        known = [hop for hop in hops if hop is not None]
        wanted = setup.distances.get(name, setup.needs.distance)
        goes = f"{say_metres(wanted)} wanted" if wanted is not None else "distance not said"
        worst = min(known, key=lambda hop: hop.derated, default=None)
        reach = f"{'~' if worst.assumed else ''}{say_metres(worst.derated)}" if worst is not None else "not known"
        told.append(f"{name}: works to {reach}, {goes}")
    return tuple(told)


def _say_runtime(studies: Studies, setup: Setup) -> str:
    """The battery that is changed first."""
    lasting = {item: s for item, s in studies.own_runtimes(setup).items() if s is not None}
    if not lasting:
        return ""
    first = min(lasting, key=lambda item: (lasting[item], item))
    wanted = setup.needs.runtime
    asked = f", the job asks for {say_minutes(wanted)}" if wanted is not None else ""
    return f"{first} lasts {say_minutes(lasting[first])} at typical load{asked}"


def _list_changes(studies: Studies, setup: Setup) -> tuple[str, ...]:
    full = studies.whole_power(setup).points[Point.FULL].ports
    return tuple(
        f"change over when {ref.place} shows {say_volts(volts)}"
        for ref, volts in studies.runtime(setup).change_volts.items()
        if ref in full and full[ref].volts - volts >= TELLING_VOLTS and hangs_on_battery(studies, setup, ref)
    )


def _list_stops(studies: Studies, setups: Sequence[Setup]) -> tuple[str, ...]:
    """The hands on `stop`, then what moves and has none."""
    told: dict[str, None] = {}
    moving: dict[str, None] = {}
    for setup in setups:
        stopped = set()
        for place, axis in studies.hands(setup).axes.items():
            item, _, name = place.partition(".")
            for claim in axis.certain if name == "stop" else ():
                stopped.add(item)
                reach = f", reaches {say_metres(claim.reach)}" if claim.reach is not None else ""
                told[f"{item}: {claim.control}, {claim.person or 'by hand'}{reach}"] = None
        moving |= {name: None for name in sorted(setup.items - stopped) if studies.rig.items[name].part.kind == "head"}
    told |= {f"{name}: no stop control is written down: switch it off or cut its power": None for name in moving}
    return tuple(told)


def _list_cuts(rig: Rig, setups: Sequence[Setup]) -> tuple[str, ...]:
    """How each source on the rig comes off."""
    there = [name for name in rig.items if any(name in setup.items - setup.off for setup in setups)]
    told = []
    for name in there:
        item = rig.items[name]
        if item.part.kind not in ("battery", "supply") or (item.rides == "away" and item.part.kind == "battery"):
            continue
        told.append(_say_cut(rig, name))
    return tuple(told)


def _say_cut(rig: Rig, name: str) -> str:
    for dock in rig.docks:
        for here, there in ((dock.first, dock.second), (dock.second, dock.first)):
            if here.item == name:
                return f"take {name} off {there.item} ({rig.port(there).says})"
    for lead in rig.leads.values():
        for ref in lead.plugged.values():
            if ref.item == name:
                return f"pull {lead.label} at {name} ({rig.port(ref).says})"
    return f"switch {name} off"
