"""`voltage:under`: fewer volts than a device works on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import (
    Case,
    Finding,
    Fix,
    Grade,
    LeadRemedy,
    Measured,
    MoveEnd,
    Point,
    Port,
    PortRef,
    Reach,
    Role,
    Rule,
    Trial,
    Way,
    Window,
    say_amps,
    say_metres,
    say_volts,
)
from rigmint_voltage.causes import fix_outlet

_PRESENT = 0.5
_WEIGHTY_DROP = 0.2


@dataclass(frozen=True, slots=True)
class _Low:
    ref: PortRef
    works: Window
    point: Point
    volts: float
    grade: Grade


def check(case: Case) -> Iterator[Finding]:
    """One finding for each lead or source to which low volts are put down."""
    typical, change = case.power.points[Point.TYPICAL], case.power.points[Point.CHANGE]
    if not typical.solved:
        return
    for ref, power in typical.ports.items():
        port = case.port(ref)
        if port.works is None or port.role is Role.OUT or not case.is_drawn_from(ref) or power.volts < _PRESENT:
            continue
        margin = _margin(port, power.volts)
        low = _judge(ref, port.works, margin, power.volts, change.ports[ref].volts if change.solved else None)
        if low is not None:
            yield _report(case, low)


def _judge(ref: PortRef, works: Window, margin: float, typical: float, change: float | None) -> _Low | None:
    if typical < works.low:
        return _Low(ref, works, Point.TYPICAL, typical, Grade.DEAD)
    if change is not None and change < works.low + margin:
        return _Low(ref, works, Point.CHANGE, change, Grade.THIN)
    return None


def _margin(port: Port, typical: float) -> float:
    """V that should be left: 0.5 V on 12 V, 1 V on 24 V, 5 % else (common practice). The class is that of the feed,
    since some windows span all three. A 5 V feed against a window that nobody stated has none to spare by nature."""
    if typical >= 18.0:
        return 1.0
    if typical >= 9.0 or port.works is None:
        return 0.5
    return 0.0 if "works" in port.assumed else 0.05 * port.works.low


def _report(case: Case, low: _Low) -> Finding:
    reach = case.worst_volts.ports[low.ref].high
    when = "at typical load" if low.point is Point.TYPICAL else case.say_change()
    assumed = case.assumed_of(low.ref, "works")
    shown = say_volts(low.works.low, assumed=bool(assumed))
    outcome = f"it works from {shown}" if low.volts < low.works.low else f"little above the {shown} that it works from"
    cause, path, fixes = _find_cause(case, low, reach)
    limited = case.find_limiting(low.ref, low.point)
    why = f", since {limited.owner} is at its limit of {say_amps(limited.amps)}" if limited is not None else ""
    return Finding(
        code="voltage:under",
        grade=low.grade,
        says=f"{low.ref.place} gets {say_volts(max(low.volts, 0.0))} {when}{why}; {outcome}.",
        at=low.ref.place,
        cause=cause,
        path=path,
        measured=Measured(low.volts, low.works.low, "V", low_is_bad=True),
        assumed=assumed,
        fixes=fixes,
    )


def _find_cause(case: Case, low: _Low, reach: Reach | None) -> tuple[str, tuple[str, ...], tuple[Fix, ...]]:
    if reach is None:
        return low.ref.item, (), (Fix(f"Feed {low.ref.place} from a source in its window."),)
    way = case.worst_volts.way_to(low.ref, reach)
    limited = case.find_limiting(low.ref, low.point)
    if limited is not None:
        says = f"Move the heaviest load off {limited.owner}, whose regulator gives {say_amps(limited.amps)} at most."
        return limited.owner, way.places, (Fix(says), Fix(f"Use a stronger regulator than {limited.owner}."))
    leads = case.power.points[low.point].leads
    if reach.volts < low.works.low or not way.leads:
        cause = way.leads[-1] if way.leads else reach.source.item
        words = Fix(f"Feed {low.ref.place} from a source of its own voltage class.")
        return cause, way.places, (*fix_outlet(case, cause, low.ref), words)
    worst = max(way.leads, key=lambda label: leads[label].drop)
    if leads[worst].drop < _WEIGHTY_DROP:
        says = f"Change {reach.source.item} earlier, or use a source of higher volts."
        return reach.source.item, way.places, (Fix(says),)
    return worst, way.places, _list_fixes(case, low, worst, way)


def _list_fixes(case: Case, low: _Low, label: str, way: Way) -> tuple[Fix, ...]:
    """Only what was computed to cure: the port keeps its margin at typical and at the change."""

    def cures(trial: Trial) -> bool:
        typical, change = trial.find_volts(low.ref, Point.TYPICAL), trial.find_volts(low.ref, Point.CHANGE)
        port = case.port(low.ref)
        return typical is not None and _judge(low.ref, low.works, _margin(port, typical), typical, change) is None

    fixes = []
    tap = case.find_tap_remedy(way, low.point, cures)
    if tap is not None:
        says = f"Plug {tap.label} into {tap.to.place}, a tap of its own: {_say_gain(low, tap.trial)}."
        fixes.append(Fix(says, (MoveEnd(tap.label, tap.end, tap.to.place),)))
    for remedy in case.find_lead_remedies(label, cures):
        fixes.append(Fix(f"Use a {label} of {_say_lead(remedy)}: {_say_gain(low, remedy.trial)}."))
    return tuple(fixes) or (Fix(f"Shorten the way to {low.ref.place}, or feed it from a source of its own."),)


def _say_gain(low: _Low, trial: Trial) -> str:
    return f"{low.ref.place} then gets {say_volts(trial.find_volts(low.ref, low.point) or 0.0)}"


def _say_lead(remedy: LeadRemedy) -> str:
    if remedy.gauge is not None:
        return f"{remedy.gauge:g} AWG"
    return f"{1e6 * remedy.area:g} mm2" if remedy.area is not None else _say_length(remedy.length or 0.0)


def _say_length(metres: float) -> str:
    return say_metres(metres) if metres >= 3 else f"{100 * metres:.0f} cm"


RULE = Rule(
    code="voltage:under",
    grades=(Grade.DEAD, Grade.THIN),
    title="Fewer volts than a device works on",
    looks_for=(
        "A device whose port is below its working window at typical load (dead); below it, or with less than 0.5 V"
        " left on 12 V, 1 V on 24 V, 5 % else, at the battery change with the largest peaks (thin). The circuit is"
        " solved, with every conductor and contact."
    ),
    why="Devices brown out when both motors pull at the end of a battery, and take their settings with them.",
    put_right="The heaviest load on its own free tap; a thicker or shorter trunk; an earlier change.",
    source="the maker's window; margins: common practice",
    check=check,
)
