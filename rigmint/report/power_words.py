"""The sentences of `power` about one setup: what the change stands for, margins, what is not fed, runtime."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from rigmint.lint.wording import say_amps, say_list, say_minutes, say_volts
from rigmint.physics.circuit import RegulatorState
from rigmint.report.layout import list_some, show_tenths
from rigmint.report.power_bar import name_outside
from rigmint.report.power_setup import PowerReport, SetupPower
from rigmint.rig.electric import Role
from rigmint.rig.rig import PortRef, Rig
from rigmint.study.power import Point, Power
from rigmint.study.power_tree import SourceTree
from rigmint.study.runtime import Runtime, is_cold

_MOST = 8
_MOST_MARGIN = 10.0
_TELLING_VOLTS = 0.1


def say_change(report: PowerReport, shown: SetupPower) -> str:
    """What the third point is."""
    loads = shown.power.circuit.loads
    peaking = list(dict.fromkeys(loads[index].item for index in shown.power.peaking))
    peaks = f", with the peaks of {list_some(peaking, _MOST)}" if peaking else ""
    return f"At change (bars, amps, drops): {100 * report.house.power.change_at:.0f} % left in the batteries{peaks}."


def say_margin(power: Power) -> str:
    """How far the circuit is from having no solution."""
    margins = {point: found.margin for point, found in power.points.items() if not found.collapsed}
    if not margins:
        return ""
    told = [
        f"{'over ' if margin >= _MOST_MARGIN else ''}{margin:.1f} at {point.value}" for point, margin in margins.items()
    ]
    return f"Margin to collapse, in times the loads: {', '.join(told)}."


def list_collapses(power: Power) -> Iterator[str]:
    """Where the circuit has no solution that carries its loads."""
    for point, found in power.points.items():
        if found.collapsed:
            weak = f"; {found.weak} gives way first" if found.weak is not None else ""
            much = f"it carries {100 * found.margin:.0f} % of its loads" if found.solved else "nothing holds"
            yield f"The supply collapses at {point.value}: {much}{weak}."


def list_limited(power: Power) -> Iterator[str]:
    """`bank gives no more than 3.0 A at change`, for each regulator that is at its limit at some point."""
    points: dict[int, list[str]] = {}
    for point, found in power.points.items():
        states = found.solution.regulator_states if found.solution is not None else ()
        for index, state in enumerate(states):
            if state is RegulatorState.LIMITED:
                points.setdefault(index, []).append(point.value)
    for index, names in points.items():
        regulator = power.circuit.regulators[index]
        most = say_amps(regulator.spec.max_amps or 0.0)
        when = "" if len(names) == len(Point) else f" at {say_list(names)}"
        yield f"{regulator.owner} is at the limit of its regulator, {most} at {say_volts(regulator.out)}{when}"


def list_outside(rig: Rig, power: Power, refs: Collection[PortRef]) -> Iterator[str]:
    """`camera.dc_in too low at change`, for each port that sits outside its window at some point."""
    for ref in refs:
        works = rig.port(ref).works
        points: dict[str, list[str]] = {}
        for point, found in power.points.items():
            word = name_outside(found.ports[ref].volts, works) if works is not None and found.solved else ""
            if word:
                points.setdefault(word, []).append(point.value)
        for word, names in points.items():
            when = "" if len(names) == len(Point) else f" at {say_list(names)}"
            yield f"{ref.place} {word}{when}"


def list_idle_inputs(rig: Rig, shown: SetupPower, point: Point, busy: Collection[PortRef]) -> list[str]:
    """Inputs that carry nothing, with the V that they show; those of items that are off are left out."""
    ports = shown.power.points[point].ports
    return [
        f"{ref.place} {show_tenths(ports[ref].volts)}"
        for ref in ports
        if rig.port(ref).role is Role.IN and ref not in busy and ref.item not in shown.setup.off
    ]


def list_unfed(shown: SetupPower, trees: Collection[SourceTree]) -> list[str]:
    """The items with a load that no source reaches."""
    fed = {branch.ref.item for tree in trees for branch in tree.branches} | {tree.source.item for tree in trees}
    built = shown.power.circuit
    waiting = [load.item for index, load in enumerate(built.loads) if index not in built.idle]
    return [item for item in dict.fromkeys(waiting) if item not in fed]


def say_runtime(report: PowerReport, shown: SetupPower) -> str:
    """How long until the first battery is changed, why it ends there, and what the others have left."""
    runtime = shown.runtime
    lasted = {item: seconds for item, seconds in runtime.seconds.items() if seconds is not None}
    if not lasted:
        return ""
    seconds = min(lasted.values())
    at_change = [item for item in lasted if runtime.left[item] <= report.house.power.change_at + 1e-6]
    wanted = shown.setup.needs.runtime
    asked = f" The job asks for {say_minutes(wanted)}." if wanted is not None else ""
    end = _say_end(runtime, at_change)
    others = {item: runtime.left[item] for item in lasted if item not in at_change}
    left = f"; then left: {_say_left(others)}" if others else ""
    return f"Runtime at typical load, {_say_state(report, shown)}: {say_minutes(seconds)}, {end}{left}.{asked}"


def _say_state(report: PowerReport, shown: SetupPower) -> str:
    figures = report.house.power
    cold = f", and {100 * figures.cold:.0f} % of that in the cold" if is_cold(shown.setup) else ""
    return f"batteries aged to {100 * figures.age:.0f} %{cold}"


def _say_end(runtime: Runtime, at_change: list[str]) -> str:
    if at_change:
        return f"when {say_list(at_change)} {'is' if len(at_change) == 1 else 'are'} changed"
    if runtime.failed is not None:
        return f"when {runtime.failed.place} leaves its window"
    return "when the supply collapses"


def _say_left(left: Mapping[str, float]) -> str:
    return list_some([f"{item} {100 * fraction:.0f} %" for item, fraction in left.items()], _MOST)


def say_change_over(shown: SetupPower, trees: Collection[SourceTree]) -> str:
    """The volts by which the crew changes; nothing where the largest load hangs on no battery, or behind a regulator
    that hides how low its battery is."""
    on_battery = {branch.ref for tree in trees if tree.source.cell.is_battery for branch in tree.branches}
    full = shown.power.points[Point.FULL].ports
    told = [
        f"{ref.place} shows {say_volts(volts)}"
        for ref, volts in shown.runtime.change_volts.items()
        if ref in on_battery and ref in full and full[ref].volts - volts >= _TELLING_VOLTS
    ]
    return f"Change when {say_list(told)} at typical load." if told else ""
