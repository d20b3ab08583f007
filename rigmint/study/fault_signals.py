"""Hands and flows under a single fault: who still has each axis, and where picture and other flows still arrive.

A fault takes things away, so that a hand or a flow whose way it does not touch stays as it was; only the others are
searched for anew. The one exception is a hub with more peers than it takes: there a peer that falls out makes room.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Set
from dataclasses import dataclass

from rigmint.rig.rig import Rig, Setup
from rigmint.study.fault_outcome import AxisLoss, FlowLoss, Holder
from rigmint.study.flows import FlowArrival, find_flow_arrivals, list_ends
from rigmint.study.hands import Hands
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands


@dataclass(frozen=True, slots=True)
class FlowState:
    """A flow: the items at which it arrives sound, those of them where it is seen, needed or goes no further, and
    every item, lead and link on its ways."""

    arrivals: frozenset[str]
    ends: frozenset[str]
    on_ways: frozenset[str]


@dataclass(frozen=True, slots=True)
class SignalState:
    """A setup, whole or with a fault. What has no power counts as off."""

    holders: Mapping[str, frozenset[Holder]]
    """Axis place to its hands."""
    names: Mapping[str, str]
    """Axis place to its short name."""
    ways: Mapping[str, frozenset[str]]
    """Control to every item, lead and link (as `link:NAME`) on the ways of its hands."""
    flows: Mapping[str, FlowState]
    is_crowded: bool
    """Whether some hub has more peers than it takes."""


def study_signals(rig: Rig, setup: Setup, leaves: Mapping[str, float], hands: Hands | None = None) -> SignalState:
    """The state of a setup; `hands`: its study of hands where there is one already."""
    signals = SignalMap(rig, setup, leaves)
    found = hands if hands is not None else tie_hands(signals, with_stops=False)
    return SignalState(
        holders=_list_holders(found),
        names={place: axis.name for place, axis in found.axes.items()},
        ways=_list_ways(found),
        flows={flow: _study_flow(signals, flow) for flow in _list_flows(rig, setup)},
        is_crowded=_has_full_hub(rig, setup),
    )


def restudy_signals(
    before: SignalState, rig: Rig, setup: Setup, leaves: Mapping[str, float], touched: Set[str]
) -> SignalState:
    """The state after a fault, from that before it; `touched`: items, leads and links (as `link:NAME`) that it takes
    away or changes."""
    if before.is_crowded:
        return study_signals(rig, setup, leaves)
    controls = {control for control, way in before.ways.items() if touched & way}
    flows = [flow for flow, state in before.flows.items() if touched & state.on_ways]
    if not controls and not flows:
        return before
    signals = SignalMap(rig, setup, leaves)
    found = tie_hands(signals, with_stops=False, only=controls)
    still = _list_holders(found)
    kept = {
        place: frozenset(one for one in holders if one.control not in controls) | still.get(place, frozenset())
        for place, holders in before.holders.items()
    }
    ways = {control: way for control, way in before.ways.items() if control not in controls} | _list_ways(found)
    restudied = {flow: _study_flow(signals, flow) for flow in flows}
    return SignalState(kept, before.names, ways, {**before.flows, **restudied}, before.is_crowded)


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
    nothing: frozenset[str] = frozenset()
    arrivals = {flow: state.arrivals for flow, state in after.flows.items()}
    lost = ((flow, item) for flow, state in before.flows.items() for item in state.ends - arrivals.get(flow, nothing))
    return tuple(FlowLoss(flow, item) for flow, item in sorted(lost))


def _list_holders(hands: Hands) -> dict[str, frozenset[Holder]]:
    return {
        place: frozenset(Holder(claim.control, claim.person or "") for claim in axis.claims)
        for place, axis in hands.axes.items()
    }


def _list_ways(hands: Hands) -> dict[str, frozenset[str]]:
    ways: dict[str, set[str]] = defaultdict(set)
    for axis in hands.axes.values():
        for claim in axis.claims:
            ways[claim.control].update(_item(place) for place in claim.path)
    return {control: frozenset(way) for control, way in ways.items()}


def _list_flows(rig: Rig, setup: Setup) -> list[str]:
    """The flows that something of the setup makes."""
    makers = [maker for item in setup.items for maker in rig.items[item].part.makes.values()]
    return sorted({flow for maker in makers for flow in maker.flows})


def _study_flow(signals: SignalMap, flow: str) -> FlowState:
    found = [one for one in find_flow_arrivals(signals, flow) if _is_received(signals, one)]
    arrivals = frozenset(_item(one.place) for one in found)
    handed_on = {item for one in found for item in _list_inner_items(one)}
    needed = signals.setup.needs.flows.get(flow, ())
    return FlowState(
        arrivals=arrivals,
        ends=frozenset(
            item for item in arrivals if item not in handed_on or item in needed or list_ends(signals, item, flow)
        ),
        on_ways=frozenset(_item(place) for one in found for place in one.path),
    )


def _is_received(signals: SignalMap, arrival: FlowArrival) -> bool:
    """Whether the flow arrives sound at another item that is on, and there on its screen if it has one for it."""
    item = _item(arrival.place)
    if arrival.problems or item == _item(arrival.maker) or item in signals.setup.off:
        return False
    ends = list_ends(signals, item, arrival.flow)
    return not ends or arrival.place.partition(".")[2] in ends


def _list_inner_items(arrival: FlowArrival) -> Iterator[str]:
    """The items between the maker's and the one at which it arrives."""
    own = {_item(arrival.maker), _item(arrival.place)}
    return (item for place in arrival.path if "." in place and (item := _item(place)) not in own)


def _has_full_hub(rig: Rig, setup: Setup) -> bool:
    """Whether the peers of some hub come to more than it takes."""
    peers: dict[str, int] = defaultdict(int)
    for name in setup.links:
        hub, *others = rig.links[name].radios
        peers[hub.place] += len(others)
        most = rig.radio(hub).peers
        if most is not None and peers[hub.place] > most:
            return True
    return False


def _item(place: str) -> str:
    return place.partition(".")[0]
