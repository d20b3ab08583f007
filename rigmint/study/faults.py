"""Single faults of a setup, each with what it does. Only what a fault touches is computed anew.

- Power: connectivity on the network with the fault; the circuit, unless what is opened carried nothing.
- Hands and flows: with everything off that has no power now; unless nothing on the way of any of them is touched, and
  once for all faults that leave the same.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from rigmint.graph.pins import PinNetwork
from rigmint.graph.presence import Presence
from rigmint.graph.signals import connect_ports
from rigmint.rig.axes import joints_of
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.fault_changes import OPENS, break_network, break_rig, break_setup
from rigmint.study.fault_list import FaultKind, SingleFault, list_single_faults
from rigmint.study.fault_outcome import AxisLoss, FaultOutcome, Forgotten, LostHead
from rigmint.study.fault_power import PowerBase, PowerState
from rigmint.study.fault_signals import SignalState, compare_flows, compare_holders, study_signals
from rigmint.study.hands import Hands


@dataclass(frozen=True, slots=True)
class Faults:
    """The study of one setup."""

    outcomes: tuple[FaultOutcome, ...]
    """In the order of `list_single_faults`."""
    powered: tuple[str, ...]
    """The items that have power with nothing broken."""
    before: SignalState

    def of(self, at: str) -> tuple[FaultOutcome, ...]:
        """The outcomes of a lead, `item.cell`, item or link."""
        return tuple(outcome for outcome in self.outcomes if outcome.fault.at == at)


def study_faults(rig: Rig, setup: Setup, network: PinNetwork, house: House, hands: Hands) -> Faults:
    """The study; `network` and `hands` are those of the setup.

    Raises SolveFailed where the iteration fails though a solution may exist: an internal error.
    """
    study = _FaultStudy(rig, setup, network, house, hands)
    faults = list_single_faults(rig, setup, network)
    powered = sorted({item for item, _ in study.power.state.feeding.fed})
    return Faults(tuple(study.judge(fault) for fault in faults), tuple(powered), study.signals)


class _FaultStudy:
    def __init__(self, rig: Rig, setup: Setup, network: PinNetwork, house: House, hands: Hands) -> None:
        self.rig = rig
        self.setup = setup
        self.house = house
        self.power = PowerBase(rig, setup, network, house.power.wire_temperature)
        self.signals = study_signals(rig, setup, house.leaves, hands)
        self._known: dict[object, SignalState] = {}

    def judge(self, fault: SingleFault) -> FaultOutcome:
        left = break_setup(self.rig, self.setup, fault)
        state = self._study_power(left, fault)
        down = self._find_down(left, fault, state)
        signals = self._study_signals(replace(left, off=left.off | down), fault)
        return compare_states(self.rig, self.setup, fault, (self.power.state, state), (self.signals, signals))

    def _study_power(self, left: Setup, fault: SingleFault) -> PowerState:
        if fault.kind is FaultKind.LINK_LOST:
            return self.power.state
        return self.power.study(left, break_network(self.rig, self.setup, self.power.network, fault))

    def _find_down(self, left: Setup, fault: SingleFault, state: PowerState) -> frozenset[str]:
        return find_down(self.power.state, state, left, fault)

    def _study_signals(self, left: Setup, fault: SingleFault) -> SignalState:
        touched = set(left.off - self.setup.off) | (self.setup.items - left.items) | (self.setup.leads - left.leads)
        touched |= {f"link:{name}" for name in self.setup.links - left.links}
        rig = self.rig
        if fault.kind in OPENS and self._changes_passing(fault):
            rig = break_rig(rig, fault)
            touched.add(fault.at)
        if not touched & self.signals.on_ways and not self._has_full_hub():
            return self.signals
        key = (left.items, left.off, left.leads, left.links, fault if rig is not self.rig else None)
        if key not in self._known:
            self._known[key] = study_signals(rig, left, self.house.leaves)
        return self._known[key]

    def _changes_passing(self, fault: SingleFault) -> bool:
        """Whether other protocols pass over the lead with its conductor open."""
        only = Presence(self.setup.items, frozenset({fault.at}), frozenset(), self.setup.off)
        before, after = connect_ports(self.rig, only), connect_ports(break_rig(self.rig, fault), only)
        return [one.protocols for one in before] != [one.protocols for one in after]

    def _has_full_hub(self) -> bool:
        """Whether some hub has more peers than it takes, so that one that falls out makes room for another."""
        for name in self.setup.links:
            hub, *others = self.rig.links[name].radios
            peers = self.rig.radio(hub).peers
            if peers is not None and len(others) > peers:
                return True
        return False


def find_down(before: PowerState, after: PowerState, left: Setup, fault: SingleFault) -> frozenset[str]:
    """The items that lose power, or get too little, apart from one that the fault switches off or takes out. `left` is
    the setup with the fault."""
    down = {item for item, _ in before.feeding.fed - after.feeding.fed}
    down |= {ref.item for ref in after.circuit.low if ref not in before.circuit.low}
    if after.circuit.weak and before.circuit.solution is not None:
        down.add(after.circuit.weak)
    return frozenset(down & left.items - left.off) - ({fault.at} if fault.kind is FaultKind.ITEM_OFF else set())


def compare_states(
    rig: Rig,
    setup: Setup,
    fault: SingleFault,
    power: tuple[PowerState, PowerState],
    signals: tuple[SignalState, SignalState],
) -> FaultOutcome:
    """What a fault does, from the states before and after it."""
    before, after = power
    down = find_down(before, after, break_setup(rig, setup, fault), fault)
    restarted = sorted(down | ({fault.at} if fault.kind is FaultKind.ITEM_OFF else set()))
    axes = compare_holders(*signals)
    return FaultOutcome(
        fault=fault,
        down=tuple(sorted(down)),
        axes=axes,
        flows=compare_flows(*signals),
        forgets=tuple(list_forgotten(rig, setup, restarted)),
        moves=tuple(item for item in restarted if does_move(rig, item)),
        recalibrates=tuple(item for item in restarted if does_calibrate(rig, item)),
        shields=tuple(
            found for item, found in sorted(after.circuit.shields.items()) if item not in before.circuit.shields
        ),
        low=tuple(found for ref, found in sorted(after.circuit.low.items()) if ref not in before.circuit.low),
        collapsed=after.circuit.solution is None and before.circuit.solution is not None,
        heads=tuple(_list_lost_heads(rig, axes, frozenset(restarted))),
    )


def list_forgotten(rig: Rig, setup: Setup, items: Iterable[str]) -> Iterator[Forgotten]:
    """The settings of items that are not at power-on what they are set to now."""
    for item in items:
        for setting in rig.items[item].part.settings.values():
            value = setup.setting(item, setting.name)
            if setting.forgets and value is not None and value != setting.default:
                yield Forgotten(item, setting.name, value, setting.default)


def does_move(rig: Rig, item: str) -> bool:
    """Whether an item moves when it is switched on."""
    wakes = rig.items[item].part.wakes
    return wakes is not None and wakes.moves


def does_calibrate(rig: Rig, item: str) -> bool:
    """Whether an item is a motor that looks for the ends of its ring when it is switched on."""
    drive = rig.items[item].part.drive
    return drive is not None and drive.calibration is not None


def _list_lost_heads(rig: Rig, axes: Iterable[AxisLoss], gone: frozenset[str]) -> Iterator[LostHead]:
    found: dict[str, LostHead] = {}
    for axis in axes:
        item, _, name = axis.place.partition(".")
        part = rig.items[item].part
        is_remote = any(holder.control.partition(".")[0] != item for holder in axis.lost)
        is_left = any(holder.control.partition(".")[0] != item for holder in axis.left)
        if name in joints_of(part) and item not in gone and is_remote and not is_left:
            found[item] = LostHead(item, part.on_loss)
    yield from found.values()
