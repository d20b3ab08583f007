"""Leaves out, before anything is computed, the moves that cannot destroy anything, so that a check stays quick.

Taking a plug out only takes ways away from every source, so what matters is what the plug joins in its wrong socket.
That brings no volts anywhere where each pair of contacts that it joins is

- one piece of metal already,
- or reached by no source, on either side,
- or ground on either side, where no plus waits for that ground to come back by,
- or plus on one side and reached by no source on the other, where all that lies behind stands it (`onward.py`).

The sieve is for rigs as they are built. What goes through to the exact study: a lead with a diode or a regulator in it;
everything of a rig that is shorted as it stands, or in which a regulator that steps up feeds itself, since taking out
what bridges it lets it step up; and, which the caller sees to, what changes the volts that a source settles on.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from rigmint.graph.lead_contacts import spread_contacts
from rigmint.graph.pins import Pin
from rigmint.rig.connector import go_together
from rigmint.rig.rig import Lead, PortRef, Rig
from rigmint.study.misplug.judge import Judge
from rigmint.study.misplug.moves import Move
from rigmint.study.misplug.onward import Onward
from rigmint.study.misplug.wired import Wired


@dataclass(frozen=True, slots=True)
class _Wire:
    """A contact of a lead's end: the nets that it is wired to at the other ends, and contacts of its own end that it is
    joined to."""

    contact: str
    nets: tuple[int, ...]
    beside: tuple[str, ...]


class Sieve:
    """The sieve of one wiring."""

    def __init__(self, rig: Rig, wired: Wired, judge: Judge) -> None:
        self._rig = rig
        self._wired = wired
        self._nets = wired.base.nets
        reaches = wired.base.reaches
        self._plus: dict[int, float] = {}
        """Net to the most V that a source brings there."""
        for reach in reaches:
            for net, volts in reach.plus.items():
                self._plus[net] = max(volts, self._plus.get(net, volts))
        self._minus = {net for reach in reaches for net in reach.minus}
        self._is_odd = any(reach.shorted is not None for reach in reaches) or self._has_loop()
        self._awaited = frozenset(self._list_awaited(judge)) | frozenset(
            self._nets[diode.cathode] for diode in wired.network.diodes
        )
        self._waiting = frozenset(self._list_waiting())
        self._onward = Onward(wired, judge)
        self._wires: dict[tuple[str, str], tuple[_Wire, ...]] = {}
        self._judged: dict[tuple[tuple[_Wire, ...], PortRef], bool] = {}
        self._ports: dict[PortRef, dict[str, int]] = {}

    def is_idle(self, move: Move) -> bool:
        """Whether a move joins nothing that could bring volts anywhere."""
        if self._is_odd or any(c.diode is not None or c.regulator is not None for c in move.lead.body.conductors):
            return False
        key = self._list_wires(move.lead, move.end), move.into
        if key not in self._judged:
            self._judged[key] = self._stands(*key)
        return self._judged[key]

    def _stands(self, wires: tuple[_Wire, ...], into: PortRef) -> bool:
        brought: dict[int, float] = {}
        joined: dict[int, list[int]] = defaultdict(list)
        for socket, wire in self._list_pairs(wires, into):
            if self._is_idle_pair(socket, wire):
                joined[socket].append(wire)
                joined[wire].append(socket)
            elif self._is_cold(socket) and self._is_plus(wire):
                brought[socket] = max(self._plus[wire], brought.get(socket, 0.0))
            elif self._is_cold(wire) and self._is_plus(socket):
                brought[wire] = max(self._plus[socket], brought.get(wire, 0.0))
            else:
                return False
        return not brought or self._onward.stands(brought, joined)

    def _list_pairs(self, wires: tuple[_Wire, ...], into: PortRef) -> Iterator[tuple[int, int]]:
        """The nets that a plug joins in a socket, two by two: that of the socket's contact first."""
        contacts = self._list_contacts(into)
        for wire in wires:
            if wire.contact in contacts:
                beside = (contacts[one] for one in wire.beside if one in contacts)
                yield from ((contacts[wire.contact], net) for net in (*wire.nets, *beside))

    def _list_contacts(self, ref: PortRef) -> dict[str, int]:
        """Contact to net of a port."""
        if ref not in self._ports:
            node = self._wired.metal.node
            contacts = self._rig.port(ref).connector.contacts
            self._ports[ref] = {one: self._nets[node(Pin(ref.item, ref.port, one))] for one in contacts}
        return self._ports[ref]

    def _list_wires(self, lead: Lead, end: str) -> tuple[_Wire, ...]:
        """What each contact of an end is wired to."""
        if (lead.label, end) not in self._wires:
            contacts = lead.body.ends[end].connector.contacts
            self._wires[lead.label, end] = tuple(self._follow(lead, end, contact) for contact in contacts)
        return self._wires[lead.label, end]

    def _follow(self, lead: Lead, end: str, contact: str) -> _Wire:
        joined = spread_contacts([(end, contact)], lead.body.conductors)
        beside = tuple(sorted(other for one, other in joined if one == end and other != contact))
        nets = []
        for one, other in sorted(joined):
            ref = lead.plugged.get(one)
            if one != end and ref is not None and go_together(self._rig.port(ref), lead.body.ends[one]):
                nets += [net for name, net in self._list_contacts(ref).items() if name == other]
        return _Wire(contact, tuple(nets), beside)

    def _is_idle_pair(self, socket: int, wire: int) -> bool:
        if socket == wire:
            return True
        nets = socket, wire
        if all(self._is_cold(net) for net in nets):
            return True
        return all(net in self._minus and net not in self._plus and net not in self._awaited for net in nets)

    def _is_cold(self, net: int) -> bool:
        return net not in self._plus and net not in self._minus and net not in self._waiting

    def _is_plus(self, net: int) -> bool:
        return net in self._plus and net not in self._minus and net not in self._waiting

    def _list_awaited(self, judge: Judge) -> Iterator[int]:
        """The nets that would close a circuit if a source's minus came to them."""
        nets = self._nets
        pairs = [(node, row.minus) for row in judge.power for node in row.feeds]
        pairs += [(row.minus, node) for row in judge.power for node in row.feeds]
        pairs += [(row.node, row.ground) for row in judge.signals]
        pairs += [(source.plus, source.minus) for source in self._wired.sources]
        pairs += [(one.source, one.ground) for one in self._wired.network.regulators]
        for reach in self._wired.base.reaches:
            for plus, minus in pairs:
                if nets[plus] in reach.plus and nets[minus] not in reach.minus:
                    yield nets[minus]

    def _list_waiting(self) -> Iterator[int]:
        """The output and the ground of each regulator that has a feed and no way back yet: joined, they short it."""
        for regulator in self._wired.network.regulators:
            ground = self._nets[regulator.ground]
            if self._nets[regulator.source] in self._plus and ground not in self._minus:
                yield from (self._nets[regulator.output], ground)

    def _has_loop(self) -> bool:
        """Whether the output of a regulator that steps up leads back to its feed."""
        nets, network = self._nets, self._wired.network
        onward: dict[int, set[int]] = defaultdict(set)
        for diode in network.diodes:
            onward[nets[diode.anode]].add(nets[diode.cathode])
        for regulator in network.regulators:
            onward[nets[regulator.source]].add(nets[regulator.output])
            if regulator.spec.blocks is not True:
                onward[nets[regulator.output]].add(nets[regulator.source])
        return any(
            regulator.out > regulator.spec.takes.low
            and nets[regulator.source] in _follow_all(onward, nets[regulator.output])
            for regulator in network.regulators
        )


def _follow_all(onward: Mapping[int, set[int]], start: int) -> set[int]:
    found, pending = {start}, [start]
    while pending:
        for net in onward.get(pending.pop(), set()) - found:
            found.add(net)
            pending.append(net)
    return found
