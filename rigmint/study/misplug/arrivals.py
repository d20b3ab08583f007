"""Hands, picture and other flows that a mistake takes away: what arrives as the rig file has it and then does not."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import TypeAlias

from rigmint.graph.signals import connect_lead
from rigmint.rig.rig import Lead, Rig, Setup
from rigmint.study.flows import FlowArrival, find_flow_arrivals
from rigmint.study.hands import AxisHands, Claim
from rigmint.study.misplug.losses import Loss, LossKind
from rigmint.study.misplug.mistakes import Mistake, rewrite_rig
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import tie_hands
from rigmint.words import NOBODY

Joint: TypeAlias = tuple[str, str, frozenset[str]]
"""Two ports, and the protocols that pass between them."""
Support: TypeAlias = frozenset[str]
"""The leads on one way by which something arrives."""


class Arrivals:
    """What arrives in one setup, and what does not once a mistake is made.

    What has a way that no changed lead is on arrives as before. Only for the rest is the search made anew, and for
    mistakes that change the same joints only once.
    """

    def __init__(self, rig: Rig, setup: Setup) -> None:
        self._rig = rig
        self._setup = setup
        makers = [maker for name in sorted(setup.items) for maker in rig.items[name].part.makes.values()]
        self._flows = tuple(sorted({flow for maker in makers for flow in maker.flows}))
        self._supports = self._find_supports(SignalMap(rig, setup, {}), self._flows, with_hands=True)
        self._joints = {label: _list_joints(rig, rig.leads[label]) for label in setup.leads}
        self._seen: dict[int, tuple[Lead, frozenset[Joint]]] = {}
        self._known: dict[tuple[frozenset[Joint], frozenset[Joint]], frozenset[Loss]] = {}

    def list_lost(self, mistake: Mistake) -> frozenset[Loss]:
        """What does not arrive any more."""
        if mistake.docks_out or mistake.items:
            return self._search(mistake, frozenset(self._supports))
        lost: set[Joint] = set()
        gained: set[Joint] = set()
        changed = set()
        for label, lead in mistake.leads.items():
            before = self._joints.get(label, frozenset())
            after = self._list_joints(lead)
            lost |= before - after
            gained |= after - before
            if before - after:
                changed.add(label)
        suspects = frozenset(
            thing for thing, supports in self._supports.items() if all(not changed.isdisjoint(one) for one in supports)
        )
        if not suspects:
            return frozenset()
        tokens = {thing.token for thing in suspects}
        helping = frozenset(joint for joint in gained if not tokens.isdisjoint(self._list_tokens(joint)))
        key = frozenset(lost), helping
        if key not in self._known:
            self._known[key] = self._search(mistake, suspects)
        return self._known[key]

    def _list_joints(self, lead: Lead) -> frozenset[Joint]:
        """What passes over a lead. The lead is kept with it, so that its number stays its own."""
        if id(lead) not in self._seen:
            self._seen[id(lead)] = lead, _list_joints(self._rig, lead)
        return self._seen[id(lead)][1]

    def _list_tokens(self, joint: Joint) -> set[str]:
        return {token for name in joint[2] for token in self._rig.protocols[name].carries}

    def _search(self, mistake: Mistake, suspects: frozenset[Loss]) -> frozenset[Loss]:
        signals = SignalMap(*rewrite_rig(self._rig, self._setup, mistake), {})
        flows = tuple(sorted({one.token for one in suspects if one.kind is LossKind.FLOW}))
        with_hands = any(one.kind is LossKind.HAND for one in suspects)
        return suspects - self._find_supports(signals, flows, with_hands=with_hands).keys()

    def _find_supports(
        self, signals: SignalMap, flows: tuple[str, ...], *, with_hands: bool
    ) -> Mapping[Loss, list[Support]]:
        """What arrives, each with the leads on every way by which it was found to."""
        found: dict[Loss, list[Support]] = defaultdict(list)
        if with_hands:
            for place, axis in tie_hands(signals, with_stops=False).axes.items():
                for claim in _list_meant(axis):
                    found[Loss(LossKind.HAND, place, place.partition(".")[2])].append(self._list_leads(claim.path))
        for flow in flows:
            arrivals = [one for one in find_flow_arrivals(signals, flow) if not one.problems]
            for place, path in _list_goals(self._rig, arrivals):
                found[Loss(LossKind.FLOW, place, flow)].append(self._list_leads(path))
        return found

    def _list_leads(self, path: tuple[str, ...]) -> Support:
        return frozenset(path) & self._setup.leads


def _list_joints(rig: Rig, lead: Lead) -> frozenset[Joint]:
    joints = set()
    for one in connect_lead(rig, lead):
        if one.protocols:
            near, far = sorted((one.first, one.second))
            joints.add((near.place, far.place, one.protocols))
    return frozenset(joints)


def _list_meant(axis: AxisHands) -> list[Claim]:
    """The claims of those who are meant to have an axis; where nobody is named, of anybody."""
    if not axis.meant:
        return list(axis.claims)
    if axis.meant == (NOBODY,):
        return []
    return [claim for claim in axis.claims if claim.person in axis.meant or claim.automatic]


def _list_goals(rig: Rig, arrivals: list[FlowArrival]) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Where a flow is meant to come to, with the way: the screens of an item, or else the item itself."""
    by_item: dict[str, list[FlowArrival]] = defaultdict(list)
    for arrival in arrivals:
        item = arrival.place.partition(".")[0]
        if item != arrival.maker.partition(".")[0]:
            by_item[item].append(arrival)
    for item, found in by_item.items():
        shows = rig.items[item].part.shows
        screens = [one for one in found if one.place.partition(".")[2] in shows]
        for arrival in screens or found:
            yield (arrival.place if screens else item), arrival.path
