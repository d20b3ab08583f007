"""Wiring as a netlist for ngspice, and what that program answers, for given states of diodes and regulators.

No voltage sources: a source is a current beside its resistance, a conducting diode or a regulator that holds its volts
the same beside 10 micro-ohm. The simulator's elimination takes its pivots from the diagonal then; with voltage sources
it took cancelled milliohms for pivots and printed kilovolts as converged.

Each galvanic island is grounded at one source's minus. Each other net of wires is tied by 10 Mohm: a rail to its own
item's ground, so that a dead rail has no volts, others to the reference.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import dataclass

from tests.power.elements import Load, Place, Regulator, Wiring, reach_from
from tests.power.groups import Groups

PROGRAM = shutil.which("ngspice")

STIFF_OHMS = 1e-5
"""Behind every conducting diode and regulator: 0.1 mV at 10 A."""

_LEAST_OHMS = 1e-5
_TIE_OHMS = 1e7
_TIMEOUT_SECONDS = 20.0
_VALUE = re.compile(r"^(\S+) = ([-+0-9.eE]+)\s*$", re.MULTILINE)
HOLDING, LIMITED, HELD_UP, OFF = "holding", "limited", "held up", "off"
"""A regulator at its volts; at its current limit; at no current, held up by somebody else; off."""


@dataclass(frozen=True, slots=True)
class Moment:
    """An operating point's figures: volts and ohms of each source, amount of each load."""

    volts: tuple[float, ...]
    ohms: tuple[float, ...]
    amounts: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Readings:
    """Volts and amps of each port, the largest amps and the drop of each lead, volts and amps of each source."""

    ports: dict[Place, tuple[float, float]]
    leads: dict[str, tuple[float, float]]
    sources: dict[str, tuple[float, float]]
    load_volts: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class States:
    """Whether each diode conducts, and what each regulator does."""

    diodes: tuple[bool, ...]
    regulators: tuple[str, ...]


class Netlist:
    """The wiring of one setup, its nodes numbered once. `fed`: indices of regulators that a source reaches."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self._joined = Groups()
        for one, other in wiring.joined:
            self._joined.unite(one, other)
        self._grounds = self._find_grounds()
        self._live = self._find_live()
        self._numbers: dict[str, int] = {}
        reached = {node for source in wiring.sources for node in reach_from(wiring, source.plus)}
        self.fed = frozenset(n for n, one in enumerate(wiring.regulators) if one.input in reached)

    def run(self, moment: Moment, states: States, share: float) -> dict[str, float] | None:
        """Every node's volts by the program; None where it fails. `share` of their volts is the first guess for the
        outputs of regulators at their limit."""
        assert PROGRAM is not None
        text = self._write(moment, states, share)
        run = subprocess.run(
            [PROGRAM, "-b"], input=text, capture_output=True, text=True, timeout=_TIMEOUT_SECONDS, check=False
        )
        if "solution failed" in run.stdout or "aborted" in run.stdout:
            return None
        values = {name: float(value) for name, value in _VALUE.findall(run.stdout)}
        return values if all(f"n{number}" in values for number in self._numbers.values()) else None

    def _write(self, moment: Moment, states: States, share: float) -> str:
        wiring = self.wiring
        lines = ["* the direct-current circuit of a rig"]
        resistors = [(wire.a, wire.b, wire.ohms) for wire in wiring.wires]
        resistors += [(mate.other, mate.device, mate.ohms) for mate in wiring.mates]
        for index, (a, b, ohms) in enumerate(resistors):
            if a in self._live:
                lines.append(f"R{index} {self._node(a)} {self._node(b)} {max(ohms, _LEAST_OHMS):.12g}")
        for index, source in enumerate(wiring.sources):
            ohms = max(moment.ohms[index], STIFF_OHMS)
            ends = self._node(source.plus), self._node(source.minus)
            lines += _write_source(f"s{index}", *ends, moment.volts[index], ohms)
        for index, diode in enumerate(wiring.diodes):
            if states.diodes[index]:
                ends = self._node(diode.anode), self._node(diode.cathode)
                lines += _write_source(f"d{index}", *ends, diode.drop, STIFF_OHMS)
        for index, load in enumerate(wiring.loads):
            law = _write_load(load, moment.amounts[index], f"V({self._node(load.plus)},{self._node(load.minus)})")
            lines.append(f"Bl{index} {self._node(load.plus)} {self._node(load.minus)} I = {law}")
        for index, regulator in enumerate(wiring.regulators):
            lines += self._write_regulator(index, regulator, states.regulators[index])
        lines += self._write_ties()
        lines += [f"Rzero{number} {self._node(node)} 0 1e-3" for number, node in enumerate(self._grounds)]
        guess = self._guess(moment, states, share)
        lines += [f".nodeset V({node})={volts:.9g}" for node, volts in guess.items()]
        lines += [".options reltol=1e-7 abstol=1e-10 vntol=1e-10 gmin=1e-15 itl1=500", ".control", "set numdgt=15"]
        return "\n".join([*lines, "op", "print all", "quit 0", ".endc", ".end", ""])

    def _write_ties(self) -> list[str]:
        """One tie for each net of wires that is not grounded. Without it a net that hangs on a diode or a regulator
        alone is a matrix of cancelled milliohms to the simulator, and it takes what is left of them for a pivot; with
        one at every node the currents of the ties add up."""
        wiring, nets = self.wiring, Groups()
        pairs = [(wire.a, wire.b) for wire in wiring.wires] + [(mate.other, mate.device) for mate in wiring.mates]
        for a, b in (*wiring.joined, *pairs):
            nets.unite(a, b)
        standing = {nets.find(node) for node in self._grounds}
        tied: dict[str, str] = {}
        for node, to in (*wiring.tied, *((node, "") for node in sorted(self._live))):
            net = nets.find(node)
            if node in self._live and net not in standing | tied.keys() and (not to or nets.find(to) != net):
                tied[net] = f"{self._node(node)} {self._node(to) if to in self._live else '0'}"
        return [f"Rtie{number} {ends} {_TIE_OHMS:g}" for number, ends in enumerate(tied.values())]

    def _write_regulator(self, index: int, regulator: Regulator, state: str) -> list[str]:
        if state in (OFF, HELD_UP):
            return []
        plus, output, ground = (self._node(node) for node in (regulator.input, regulator.output, regulator.ground))
        volts, low = f"V({plus},{ground})", max(0.5 * regulator.takes[0], 0.1)
        if state == HOLDING:
            lines = _write_source(f"g{index}", output, ground, regulator.out, STIFF_OHMS)
            siemens = regulator.out / STIFF_OHMS / regulator.efficiency
            power = f"({regulator.out:.12g}-V({output},{ground}))*{siemens:.12g}"
        else:
            lines = [f"Ig{index} {ground} {output} {regulator.limit:.12g}"]
            power = f"{regulator.limit:.12g}*V({output},{ground})/{regulator.efficiency:.12g}"
        law = f"{volts} > {low:.12g} ? {power}/{volts} : {power}*{volts}/{low * low:.12g}"
        return [*lines, f"Bi{index} {plus} {ground} I = {law}"]

    def _guess(self, moment: Moment, states: States, share: float) -> dict[str, float]:
        """Volts of each node if nothing dropped any; regulators at their limit at a share of their volts."""
        wiring = self.wiring
        steps = [(wire.a, wire.b, 0.0) for wire in wiring.wires]
        steps += [(mate.other, mate.device, 0.0) for mate in wiring.mates]
        steps += [(b, a, 0.0) for a, b, _ in steps]
        steps += [(one.minus, one.plus, volts) for one, volts in zip(wiring.sources, moment.volts, strict=True)]
        steps += [(one.anode, one.cathode, -one.drop) for n, one in enumerate(wiring.diodes) if states.diodes[n]]
        on = [one for n, one in enumerate(wiring.regulators) if states.regulators[n] == HOLDING]
        limited = [one for n, one in enumerate(wiring.regulators) if states.regulators[n] == LIMITED]
        steps += [(one.ground, one.output, share * one.out) for one in limited]
        steps += [(one.ground, one.output, one.out) for one in on]
        onward: dict[str, list[tuple[str, float]]] = {}
        for near, far, rise in steps:
            if near in self._live and far in self._live:
                onward.setdefault(self._node(near), []).append((self._node(far), rise))
        known = {self._node(source.minus): 0.0 for source in wiring.sources}
        frontier = list(known)
        while frontier:
            here = frontier.pop(0)
            for far_node, rise in onward.get(here, ()):
                if far_node not in known:
                    known[far_node] = known[here] + rise
                    frontier.append(far_node)
        return known

    def _find_live(self) -> frozenset[str]:
        """The nodes on nets that hold an end of a source, a load, a diode or a regulator."""
        wiring, nets = self.wiring, Groups()
        for one, other in wiring.joined:
            nets.unite(one, other)
        for wire in wiring.wires:
            nets.unite(wire.a, wire.b)
        for mate in wiring.mates:
            nets.unite(mate.other, mate.device)
        terminals = [node for source in wiring.sources for node in (source.plus, source.minus)]
        terminals += [node for load in wiring.loads for node in (load.plus, load.minus)]
        terminals += [node for diode in wiring.diodes for node in (diode.anode, diode.cathode)]
        terminals += [node for one in wiring.regulators for node in (one.input, one.output, one.ground)]
        live = {nets.find(node) for node in terminals}
        return frozenset(node for node in nets.list_members() if nets.find(node) in live)

    def _find_grounds(self) -> list[str]:
        """The minus of one source for each galvanic island."""
        wiring, islands = self.wiring, Groups()
        pairs = list(wiring.joined) + [(wire.a, wire.b) for wire in wiring.wires]
        pairs += [(mate.other, mate.device) for mate in wiring.mates]
        pairs += [(source.plus, source.minus) for source in wiring.sources]
        pairs += [(load.plus, load.minus) for load in wiring.loads]
        pairs += [(diode.anode, diode.cathode) for diode in wiring.diodes]
        for one in wiring.regulators:
            pairs += [(one.input, one.ground), (one.output, one.ground)]
        for a, b in pairs:
            islands.unite(a, b)
        return list({islands.find(source.minus): source.minus for source in wiring.sources}.values())

    def _node(self, name: str) -> str:
        root = self._joined.find(name)
        return f"n{self._numbers.setdefault(root, len(self._numbers))}"

    def across(self, values: dict[str, float], plus: str, minus: str) -> float:
        """V between two nodes; 0 where one is on a net without any terminal."""
        if plus not in self._live or minus not in self._live:
            return 0.0
        return values[self._node(plus)] - values[self._node(minus)]

    def read(self, moment: Moment, values: dict[str, float]) -> Readings:
        """Ports, leads, sources and loads from the volts of the nodes."""
        wiring = self.wiring
        amps: dict[Place, float] = dict.fromkeys(wiring.ports, 0.0)
        for mate in wiring.mates:
            current = self.across(values, mate.other, mate.device) / max(mate.ohms, _LEAST_OHMS)
            for place, sign in mate.ports:
                if place in amps:
                    amps[place] += sign * current
        ports = {place: (self.across(values, *nodes), amps[place]) for place, nodes in wiring.ports.items()}
        leads = {}
        for label, places in wiring.leads.items():
            volts = [ports[place][0] for place in places if place in ports]
            most = max(
                (
                    abs(self.across(values, wire.a, wire.b)) / max(wire.ohms, _LEAST_OHMS)
                    for wire in wiring.wires
                    if wire.lead == label
                ),
                default=0.0,
            )
            leads[label] = (most, max(volts) - min(volts) if volts else 0.0)
        sources = {}
        for index, source in enumerate(wiring.sources):
            volts_there = self.across(values, source.plus, source.minus)
            given = (moment.volts[index] - volts_there) / max(moment.ohms[index], _LEAST_OHMS)
            sources[source.place] = (volts_there, given)
        load_volts = tuple(self.across(values, one.plus, one.minus) for one in wiring.loads)
        return Readings(ports, leads, sources, load_volts)


def _write_source(name: str, plus: str, minus: str, volts: float, ohms: float) -> list[str]:
    """Volts behind a resistance, as a current source beside it."""
    return [f"I{name} {minus} {plus} {volts / ohms:.15g}", f"R{name} {plus} {minus} {ohms:.12g}"]


def _write_load(load: Load, amount: float, volts: str) -> str:
    if load.unit == "ohm":
        return f"{volts}/{amount:.12g}"
    if load.unit == "A":
        return f"{volts} >= {load.low:.12g} ? {amount:.12g} : {volts}*{amount / load.low:.12g}"
    return f"{volts} >= {load.low:.12g} ? {amount:.12g}/{volts} : {volts}*{amount / load.low**2:.12g}"
