"""Any circuit as a netlist for ngspice, a general circuit simulator, and its answers.

Written from what the elements are stated to do, not from how they are solved. Which regulators are on is the one
thing that is given: a threshold on a solution's own input has no place in an operating-point analysis. The caller
checks it on the volts that come back.

Behaviour of the program (version 39, batch mode) that this relies on: its exit status says nothing of success, so an
answer counts if every printed name is there; every node has a first guess, or a constant power may end on the lower
of its two solutions; only names of vectors that `let` has made can be printed one by one.
"""

import math
import re
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rigmint.physics.circuit import Circuit, LoadKind, Regulator

PROGRAM = shutil.which("ngspice")

_TIMEOUT_SECONDS = 10.0
_TIE_OHMS = 1e6
_ZERO_OHMS = 1e-7
DIODE_SIEMENS = 1e6
"""A diode is a micro-ohm forward and a gigaohm reverse. The simulator's own diode with a small emission coefficient
is no use: it lets the junction move by microvolts a round, takes that for convergence, and is off by tenths of a volt
where little current flows. Where a micro-ohm is too stiff for it, a tenth as many siemens may do."""

_ANSWER = re.compile(r"^(\w+) = ([-+0-9.eE]+|[-+]?nan|[-+]?inf)\s*$", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Answer:
    """What the simulator found: volts of every node against its own ground, amps as Solution counts them."""

    node_volts: tuple[float, ...]
    cell_amps: tuple[float, ...]
    diode_amps: tuple[float, ...]
    load_amps: tuple[float, ...]
    input_amps: tuple[float, ...]
    output_amps: tuple[float, ...]
    resistor_amps: tuple[float, ...]


def simulate(
    circuit: Circuit,
    on: Sequence[bool],
    *,
    grounds: Sequence[int] = (0,),
    guess: Sequence[float] | None = None,
    siemens: float = DIODE_SIEMENS,
    limited: Sequence[bool] | None = None,
) -> Answer | None:
    """The operating point of a circuit by ngspice, or None where it finds none.

    on: which regulators are on. grounds: one node of each galvanic island, held at 0 V.
    guess: volts of each node to begin with, near a solution; None: guess_volts. siemens: of a diode that conducts.
    limited: which regulators are at their limit, for the caller to check; None: the simulator decides.
    """
    if PROGRAM is None:
        msg = "ngspice is not installed"
        raise RuntimeError(msg)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "circuit.cir"
        path.write_text(
            write_netlist(circuit, on, grounds=grounds, guess=guess, siemens=siemens, limited=limited), encoding="ascii"
        )
        try:
            run = subprocess.run(
                [PROGRAM, "-b", str(path)], capture_output=True, text=True, timeout=_TIMEOUT_SECONDS, check=False
            )
        except subprocess.TimeoutExpired:
            return None
    return read_answer(circuit, run.stdout)


def write_netlist(
    circuit: Circuit,
    on: Sequence[bool],
    *,
    grounds: Sequence[int] = (0,),
    guess: Sequence[float] | None = None,
    siemens: float = DIODE_SIEMENS,
    limited: Sequence[bool] | None = None,
) -> str:
    """The circuit as a netlist that prints every node's volts and every element's amps."""
    lines = ["* a direct-current circuit"]
    lines += [f"Rtie{node} n{node} 0 {_TIE_OHMS:g}" for node in range(circuit.nodes)]
    lines += [f"Rgnd{node} n{node} 0 1e-3" for node in grounds]
    prints = [(f"vn{node}", f"v(n{node})") for node in range(circuit.nodes)]
    for index, resistor in enumerate(circuit.resistors):
        if math.isfinite(resistor.ohms):
            lines += [
                f"Vr{index} n{resistor.a} r{index} 0",
                f"Rr{index} r{index} n{resistor.b} {max(resistor.ohms, _ZERO_OHMS):.12g}",
            ]
            prints.append((f"ir{index}", f"i(vr{index})"))
    for index, cell in enumerate(circuit.cells):
        if math.isfinite(cell.ohms):
            lines += [
                f"Vc{index} c{index} n{cell.minus} {cell.volts:.12g}",
                f"Rc{index} c{index} n{cell.plus} {max(cell.ohms, _ZERO_OHMS):.12g}",
            ]
            prints.append((f"ic{index}", f"-i(vc{index})"))
    for index, diode in enumerate(circuit.diodes):
        lines += [
            f"Vd{index} n{diode.anode} d{index} {diode.drop:.12g}",
            _write_diode(f"d{index}", f"d{index}", f"n{diode.cathode}", siemens),
        ]
        prints.append((f"id{index}", f"i(vd{index})"))
    for index, load in enumerate(circuit.loads):
        volts = f"V(n{load.plus},n{load.minus})"
        law = _write_load(load.kind, load.amount, load.window_low, volts)
        lines += [f"Vl{index} n{load.plus} l{index} 0", f"Bl{index} l{index} n{load.minus} I = {law}"]
        prints.append((f"il{index}", f"i(vl{index})"))
    for index, (regulator, is_on) in enumerate(zip(circuit.regulators, on, strict=True)):
        if is_on:
            lines += _write_regulator(index, regulator, siemens, None if limited is None else limited[index])
            prints += [(f"ii{index}", f"i(vi{index})"), (f"io{index}", f"i(vo{index})")]
    if guess is None:
        first = {f"n{node}": volts for node, volts in enumerate(guess_volts(circuit, on))}
    else:
        first = guess_inner_volts(circuit, on, guess)
    lines += [f".nodeset V({node})={volts:.9g}" for node, volts in first.items()]
    lines += [
        ".options reltol=1e-6 abstol=1e-9 vntol=1e-9 gmin=1e-15 itl1=2000",
        ".control",
        "set numdgt=12",
        "op",
    ]
    lines += [f"let {name} = {vector}" for name, vector in prints]
    lines += [f"print {name}" for name, _ in prints]
    return "\n".join([*lines, "quit 0", ".endc", ".end", ""])


def _write_diode(name: str, anode: str, cathode: str, siemens: float) -> str:
    volts = f"V({anode},{cathode})"
    return f"B{name} {anode} {cathode} I = {volts} > 0 ? {volts}*{siemens:g} : {volts}*1e-9"


def _write_load(kind: LoadKind, amount: float, low: float, volts: str) -> str:
    if kind is LoadKind.RESISTANCE:
        return f"{volts}/{amount:.12g}"
    if kind is LoadKind.CURRENT:
        return f"{volts} > {low:.12g} ? {amount:.12g} : {volts}*{amount / low:.12g}"
    return f"{volts} > {low:.12g} ? {amount:.12g}/{volts} : {volts}*{amount / low**2:.12g}"


def _write_regulator(index: int, regulator: Regulator, siemens: float, limited: bool | None) -> list[str]:
    """A source of its volts (its limit: a current source that a clamp holds to its volts) behind an ideal diode."""
    ground, low = f"n{regulator.ground}", max(regulator.takes_low, 0.1)
    if regulator.max_amps is None or limited is False:
        source = [f"Vreg{index} g{index} {ground} {regulator.volts:.12g}"]
    else:
        source = [f"Ireg{index} {ground} g{index} {regulator.max_amps:.12g}"]
    if regulator.max_amps is not None and limited is None:
        source += [
            f"Vreg{index} h{index} {ground} {regulator.volts:.12g}",
            _write_diode(f"reg{index}", f"g{index}", f"h{index}", siemens),
        ]
    volts = f"V(n{regulator.input},{ground})"
    power = f"V(n{regulator.output},{ground})*i(Vo{index})/{regulator.efficiency:.12g}"
    return [
        *source,
        _write_diode(f"out{index}", f"g{index}", f"o{index}", siemens),
        f"Vo{index} o{index} n{regulator.output} 0",
        f"Vi{index} n{regulator.input} i{index} 0",
        f"Bi{index} i{index} {ground} I = {volts} > {low:.12g} ? {power}/{volts} : {power}*{volts}/{low * low:.12g}",
    ]


def guess_volts(circuit: Circuit, on: Sequence[bool]) -> list[float]:
    """Each node's volts if nothing dropped any: a source's volts spread along wires, zero on grounds."""
    known: dict[int, float] = {}
    for cell in circuit.cells:
        known.setdefault(cell.minus, 0.0)
    for _ in range(circuit.nodes):
        before = dict(known)
        for cell in circuit.cells:
            _spread(known, cell.minus, cell.plus, cell.volts)
        for resistor in circuit.resistors:
            _spread(known, resistor.a, resistor.b, 0.0)
            _spread(known, resistor.b, resistor.a, 0.0)
        for diode in circuit.diodes:
            _spread(known, diode.anode, diode.cathode, -diode.drop)
        for regulator, is_on in zip(circuit.regulators, on, strict=True):
            if is_on:
                _spread(known, regulator.ground, regulator.output, regulator.volts)
        if known == before:
            break
    return [known.get(node, 0.0) for node in range(circuit.nodes)]


def guess_inner_volts(circuit: Circuit, on: Sequence[bool], volts: Sequence[float]) -> dict[str, float]:
    """The first guess for every node of the netlist, those inside of elements among them."""
    guess = {f"n{node}": at for node, at in enumerate(volts)}
    guess |= {f"r{index}": volts[resistor.a] for index, resistor in enumerate(circuit.resistors)}
    guess |= {f"c{index}": volts[cell.minus] + cell.volts for index, cell in enumerate(circuit.cells)}
    guess |= {f"d{index}": volts[diode.anode] - diode.drop for index, diode in enumerate(circuit.diodes)}
    guess |= {f"l{index}": volts[load.plus] for index, load in enumerate(circuit.loads)}
    for index, (regulator, is_on) in enumerate(zip(circuit.regulators, on, strict=True)):
        if is_on:
            output = volts[regulator.output]
            guess |= {f"g{index}": output, f"o{index}": output, f"i{index}": volts[regulator.input]}
    return guess


def _spread(known: dict[int, float], source: int, target: int, rise: float) -> None:
    if source in known and target not in known:
        known[target] = known[source] + rise


def read_answer(circuit: Circuit, printed: str) -> Answer | None:
    """What the simulator printed; None if it failed or left anything out."""
    if "solution failed" in printed:
        return None
    values = {name: float(value) for name, value in _ANSWER.findall(printed)}
    if any(f"vn{node}" not in values for node in range(circuit.nodes)):
        return None

    def collect(prefix: str, count: int) -> tuple[float, ...]:
        return tuple(values.get(f"{prefix}{index}", 0.0) for index in range(count))

    return Answer(
        node_volts=collect("vn", circuit.nodes),
        cell_amps=collect("ic", len(circuit.cells)),
        diode_amps=collect("id", len(circuit.diodes)),
        load_amps=collect("il", len(circuit.loads)),
        input_amps=collect("ii", len(circuit.regulators)),
        output_amps=collect("io", len(circuit.regulators)),
        resistor_amps=collect("ir", len(circuit.resistors)),
    )
