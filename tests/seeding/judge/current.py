"""What the circuit does at typical load, by ngspice: too few volts at an input, too many amps anywhere."""

from __future__ import annotations

from collections.abc import Iterator

from tests.power.amounts import compute_ohms, read_amount
from tests.power.elements import Wire
from tests.power.moments import list_moment
from tests.power.search import NoAnswer, Search
from tests.seeding.judge.harm import UNSOLVED, Harm
from tests.seeding.judge.returns import Probe, judge_returns
from tests.seeding.judge.scene import Scene
from tests.seeding.judge.signals import split

_RATINGS = {28: 1.0, 26: 1.5, 24: 3.0, 22: 5.0, 20: 7.5, 18: 10.0, 16: 15.0, 14: 20.0, 12: 30.0}
_AREAS = {1.0e-6: 10.0, 1.5e-6: 15.0}
"""m2 to A, of the areas that take the rating of a gauge which is a little smaller or larger than they are."""
_PEAKS = 2
"""The largest extra peaks that the change counts."""
_PRESENT, _DRAWN, _TOLERANCE = 0.5, 0.01, 1.005


def judge_current(scene: Scene, point: str = "typical") -> Iterator[Harm]:
    """Too few volts, too many amps. `scene`: switches as they are set, without shorts. Where constant powers leave no
    solution, loads are under their windows in the one that the simulator finds; where it finds none, nothing is judged."""
    if not scene.wiring.sources:
        return
    probe = Probe(scene.wiring)
    try:
        readings = Search(probe).simulate(list_moment(scene.wiring, point, _PEAKS))
    except NoAnswer:
        yield Harm(UNSOLVED, "rig")
        return
    for (item, name), (volts, amps) in sorted(readings.ports.items()):
        port, body = scene.ports[f"{item}.{name}"], scene.parts[item]["ports"][name]
        if port.works and port.is_input and amps > _DRAWN and _PRESENT <= volts < port.works[0]:
            yield Harm("under", f"{item}.{name}")
        if "max" in body and abs(amps) > read_amount(body["max"]) * _TOLERANCE:
            yield Harm("amps", f"{item}.{name}")
    yield from _judge_conductors(scene, probe)
    yield from judge_returns(scene, probe)
    for place, (_, amps) in sorted(readings.sources.items()):
        item, cell = split(place)
        most = scene.parts[item]["cells"][cell].get("max")
        if most is not None and amps > read_amount(most) * _TOLERANCE:
            yield Harm("amps", place)


def _judge_conductors(scene: Scene, probe: Probe) -> Iterator[Harm]:
    for wire in scene.wiring.wires:
        rating = find_rating(scene, wire)
        if rating is not None and wire.lead is not None:
            amps = abs(probe.amps(wire.a, wire.b, wire.ohms))
            if amps > rating * _TOLERANCE:
                yield Harm("amps", wire.lead)
    for mate in scene.wiring.mates:
        connector = scene.shelf.connectors[scene.ports[".".join(mate.device.split(".")[:2])].connector]
        if "amps" in connector:
            amps = abs(probe.amps(mate.other, mate.device, mate.ohms))
            if amps > read_amount(connector["amps"]) * _TOLERANCE:
                yield Harm("amps", ".".join(mate.device.split(".")[:2]))


def find_rating(scene: Scene, wire: Wire) -> float | None:
    """A that a lead's conductor stands in free air; None for what is no conductor."""
    if wire.lead is None or wire.conductor is None:
        return None
    body = scene.leads[wire.lead].conductors[wire.conductor].body
    if "area" in body:
        area = read_amount(body["area"])
        if area in _AREAS:
            return _AREAS[area]
        return max((amps for gauge, amps in _RATINGS.items() if _square(gauge) <= area), default=None)
    if "gauge" in body:
        gauge = int(read_amount(body["gauge"]))
        return _RATINGS.get(gauge) or max((amps for one, amps in _RATINGS.items() if one >= gauge), default=None)
    return None


def _square(gauge: int) -> float:
    """m2 of a solid conductor, from its ohms per metre."""
    return 1.02 / (58e6 * compute_ohms(gauge, None, 1.0, 20.0))
