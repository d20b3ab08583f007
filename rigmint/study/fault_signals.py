"""Hands and flows under a single fault: who still has each axis, and where picture and other flows still arrive."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from rigmint.rig.rig import Rig, Setup
from rigmint.study.fault_outcome import AxisLoss, FlowLoss, Holder
from rigmint.study.flows import FlowArrival, find_flow_arrivals, list_ends
from rigmint.study.hands import Hands
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands


@dataclass(frozen=True, slots=True)
class SignalState:
    """A setup, whole or with a fault. What has no power counts as off."""

    holders: Mapping[str, frozenset[Holder]]
    """Axis place to its hands."""
    names: Mapping[str, str]
    """Axis place to its short name."""
    arrivals: frozenset[FlowLoss]
    """Every flow and item at which it arrives sound."""
    ends: frozenset[FlowLoss]
    """Those of them where it is seen, needed, or goes no further."""
    on_ways: frozenset[str]
    """Every item, lead and link (as `link:NAME`) on the way of a hand or of a flow."""


def study_signals(rig: Rig, setup: Setup, leaves: Mapping[str, float], hands: Hands | None = None) -> SignalState:
    """The state of a setup; `hands`: its study of hands where there is one already."""
    signals = SignalMap(rig, setup, leaves)
    axes = (hands if hands is not None else tie_hands(signals, with_stops=False)).axes
    paths = [claim.path for axis in axes.values() for claim in axis.claims]
    arrivals: set[FlowLoss] = set()
    ends: set[FlowLoss] = set()
    for flow in _list_flows(rig, setup):
        found = [one for one in find_flow_arrivals(signals, flow) if _is_received(signals, one)]
        paths += [one.path for one in found]
        handed_on = {item for one in found for item in _list_inner_items(one)}
        needed = setup.needs.flows.get(flow, ())
        for item in {_item(one.place) for one in found}:
            arrivals.add(FlowLoss(flow, item))
            if item not in handed_on or item in needed or list_ends(signals, item, flow):
                ends.add(FlowLoss(flow, item))
    return SignalState(
        holders={
            place: frozenset(Holder(claim.control, claim.person or "") for claim in axis.claims)
            for place, axis in axes.items()
        },
        names={place: axis.name for place, axis in axes.items()},
        arrivals=frozenset(arrivals),
        ends=frozenset(ends),
        on_ways=frozenset(_item(place) for path in paths for place in path),
    )


def compare_holders(before: SignalState, after: SignalState) -> tuple[AxisLoss, ...]:
    """The axes that have lost hands."""
    losses = []
    for place, had in before.holders.items():
        left = after.holders.get(place, frozenset())
        if had - left:
            losses.append(AxisLoss(place, before.names[place], tuple(sorted(had - left)), tuple(sorted(left))))
    return tuple(losses)


def compare_flows(before: SignalState, after: SignalState) -> tuple[FlowLoss, ...]:
    """The ends at which a flow no longer arrives."""
    return tuple(sorted(before.ends - after.arrivals))


def _list_flows(rig: Rig, setup: Setup) -> list[str]:
    """The flows that something of the setup makes."""
    return sorted(
        {flow for item in setup.items for maker in rig.items[item].part.makes.values() for flow in maker.flows}
    )


def _is_received(signals: SignalMap, arrival: FlowArrival) -> bool:
    """Whether the flow arrives sound at another item that is on, and there on its screen if it has one for it."""
    item = _item(arrival.place)
    if arrival.problems or item == _item(arrival.maker) or item in signals.setup.off:
        return False
    ends = list_ends(signals, item, arrival.flow)
    return not ends or arrival.place.partition(".")[2] in ends


def _list_inner_items(arrival: FlowArrival) -> Iterable[str]:
    """The items between the maker's and the one at which it arrives."""
    own = {_item(arrival.maker), _item(arrival.place)}
    return (item for place in arrival.path if "." in place and (item := _item(place)) not in own)


def _item(place: str) -> str:
    return place.partition(".")[0]
