"""What returns through signal leads, by ngspice: more than one may carry, or more of a device's own than its minus."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import replace

from tests.power.elements import Mate
from tests.power.moments import list_moment
from tests.power.netlist import Moment, Netlist, Readings
from tests.power.search import NoAnswer, Search
from tests.seeding.judge.feeding import list_signal_leads
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene

_MOST_AMPS, _MOST_SHARE, _NOTICED = 1.0, 0.4, 0.1
_LEAST_OHMS = 1e-5
_TOLERANCE = 1.005


class Probe(Netlist):
    """Keeps the volts of every node of the last answer."""

    values: Mapping[str, float] = {}

    def read(self, moment: Moment, values: dict[str, float]) -> Readings:
        """The readings; the volts are kept."""
        self.values = values
        return super().read(moment, values)

    def amps(self, near: str, far: str, ohms: float) -> float:
        """A from one end of a resistance to the other."""
        return self.across(dict(self.values), near, far) / max(ohms, _LEAST_OHMS)


def judge_returns(scene: Scene, probe: Probe) -> Iterator[Harm]:
    """`probe`: read at typical load."""
    by_signal, by_minus = _list_returns(scene)
    whole = {
        item: [probe.amps(mate.device, mate.other, mate.ohms) for mate in mates] for item, mates in by_signal.items()
    }
    for item, amps in whole.items():
        if any(abs(one) > _MOST_AMPS * _TOLERANCE for one in amps) or (
            sum(amps) > _NOTICED and by_minus.get(item) and _sends_its_own(scene, item, by_signal[item], by_minus[item])
        ):
            yield Harm("shield", item)


def _sends_its_own(scene: Scene, item: str, by_signal: list[Mate], by_minus: list[Mate]) -> bool:
    """Whether a device, if it alone drew anything, would send too much of it out through signals."""
    probe = Probe(scene.wiring)
    moment = list_moment(scene.wiring, "typical", 0)
    amounts = tuple(
        amount if load.item == item else 0.0 for amount, load in zip(moment.amounts, scene.wiring.loads, strict=True)
    )
    if not any(amounts):
        return False
    # A load in ohms draws nothing where it is endless.
    amounts = tuple(
        1e9 if load.unit == "ohm" and load.item != item else amount
        for amount, load in zip(amounts, scene.wiring.loads, strict=True)
    )
    try:
        Search(probe).simulate(replace(moment, amounts=amounts))
    except NoAnswer:
        return False
    out = [sum(probe.amps(mate.device, mate.other, mate.ohms) for mate in mates) for mates in (by_signal, by_minus)]
    return out[0] > _NOTICED and out[0] > _MOST_SHARE * _TOLERANCE * sum(out)


def _list_returns(scene: Scene) -> tuple[dict[str, list[Mate]], dict[str, list[Mate]]]:
    """Of each item the mated minus contacts that signals have, and those of feeds."""
    signal_leads = list_signal_leads(scene)
    by_signal: dict[str, list[Mate]] = defaultdict(list)
    by_minus: dict[str, list[Mate]] = defaultdict(list)
    for mate in scene.wiring.mates:
        item, name, contact = mate.device.split(".")
        port = scene.ports[f"{item}.{name}"]
        if contact in port.minus:
            is_signal = not port.feeds or mate.other.partition(":")[0] in signal_leads
            (by_signal if is_signal else by_minus)[item].append(mate)
    return by_signal, by_minus
