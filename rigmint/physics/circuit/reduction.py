"""A frame in given modes, reduced to the ports whose law is bent.

In given modes cells, diodes and regulator outputs are linear, and so is what the pieces of wiring add up to; all of
that is eliminated once. What is left are the *unknowns*: amps into the varying ports (loads, weak resistors, regulator
inputs), and the level of each piece that only varying ports tie to the rest.
"""

from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from rigmint.physics.circuit.arrays import Bools, Floats, Ints
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.islands import find_references
from rigmint.physics.circuit.law import FixedLaw, find_conducting_ports

_MOST_KEPT = 16

_Kept = TypeVar("_Kept")


@dataclass(frozen=True, slots=True)
class Reduction:
    """Everything linear as a function of the unknowns u and the constants of the fixed law: `by_u` u + `by_constant` c.

    Sights, in rows: volts of the varying ports, volts of the switching ports, amps into the switching ports.
    Rest, in rows: amps into the fixed ports, levels of the pieces that are neither references nor unknown.
    Sums, in rows: amps that do not add up at each piece of unknown level.
    """

    reference: Ints
    """For each piece, the reference of its island."""
    base: Ints
    """Pieces whose level is an unknown."""
    determined: Ints
    """Pieces whose level is in the rest."""
    sights_by_u: Floats
    sights_by_constant: Floats
    rest_by_u: Floats
    rest_by_constant: Floats
    sums_by_u: Floats
    sums_by_constant: Floats
    key: bytes
    """Equal for equal modes and islands."""


class Reducer:
    """Makes reductions of one frame, and remembers the last few: they depend on modes, islands and cell ohms only."""

    def __init__(self, frame: Frame) -> None:
        self.frame = frame
        self._islands: dict[bytes, tuple[Ints, Ints]] = {}
        self._reductions: dict[bytes, Reduction] = {}

    def reduce(self, fixed: FixedLaw, drawing: Bools) -> Reduction:
        """The reduction in these modes; drawing: which regulator inputs draw current."""
        reference, held_reference = self.find_islands(fixed, drawing)
        key = reference.tobytes() + held_reference.tobytes() + fixed.modes.key + fixed.alpha.tobytes()
        reduction = self._reductions.get(key)
        if reduction is None:
            reduction = _build_reduction(self.frame, fixed, reference, held_reference)
            _remember(self._reductions, key, reduction)
        return reduction

    def find_islands(self, fixed: FixedLaw, drawing: Bools) -> tuple[Ints, Ints]:
        """The reference of each piece's island, by all conducting ports and by those of given volts alone."""
        conducts = find_conducting_ports(self.frame, fixed, drawing)
        key = conducts.tobytes()
        islands = self._islands.get(key)
        if islands is None:
            held_only = np.zeros_like(conducts)
            held_only[self.frame.fixed] = conducts[self.frame.fixed]
            islands = find_references(self.frame, conducts), find_references(self.frame, held_only)
            _remember(self._islands, key, islands)
        return islands


def _remember(known: dict[bytes, _Kept], key: bytes, value: _Kept) -> None:
    if len(known) >= _MOST_KEPT:
        known.clear()
    known[key] = value


def _build_reduction(frame: Frame, fixed: FixedLaw, reference: Ints, held_reference: Ints) -> Reduction:
    """reference: of each piece by all conducting ports; held_reference: by those of given volts alone."""
    pieces = np.arange(len(reference))
    base = pieces[(held_reference == pieces) & (reference != pieces)]
    determined = pieces[held_reference != pieces]
    middle, varying = frame.fixed, frame.varying
    fixed_count, beta = len(fixed.alpha), fixed.beta[:, None]
    rise_middle, rise_varying = frame.rise[middle], frame.rise[varying]

    own = np.zeros((fixed_count + len(determined),) * 2)
    own[:fixed_count, :fixed_count] = np.diag(fixed.alpha) - beta * frame.z[middle, middle]
    own[:fixed_count, fixed_count:] = beta * rise_middle[:, determined]
    own[fixed_count:, :fixed_count] = rise_middle[:, determined].T
    other = np.zeros((len(own), len(varying) + len(base)))
    other[:fixed_count, : len(varying)] = -beta * frame.z[middle][:, varying]
    other[:fixed_count, len(varying) :] = beta * rise_middle[:, base]
    other[fixed_count:, : len(varying)] = rise_varying[:, determined].T
    inverse = np.linalg.inv(own)
    rest_by_u, rest_by_constant = -(inverse @ other), np.ascontiguousarray(inverse[:, :fixed_count])

    seen = np.concatenate((varying, np.arange(frame.switching.start, frame.switching.stop)))
    volts_by_rest = np.concatenate((-frame.z[seen][:, middle], frame.rise[seen][:, determined]), axis=1)
    volts_by_u = np.concatenate((-frame.z[seen][:, varying], frame.rise[seen][:, base]), axis=1)
    switching = slice(frame.cells, fixed_count)
    # Each base is counted with all pieces that ports of given volts hold to it.
    members = (held_reference[:, None] == base[None, :]).astype(np.float64)
    sums_by_fixed = (rise_middle @ members).T
    sums_by_u = sums_by_fixed @ rest_by_u[:fixed_count]
    sums_by_u[:, : len(varying)] += (rise_varying @ members).T
    return Reduction(
        reference=reference,
        base=base,
        determined=determined,
        sights_by_u=np.concatenate((volts_by_u + volts_by_rest @ rest_by_u, rest_by_u[switching])),
        sights_by_constant=np.concatenate((volts_by_rest @ rest_by_constant, rest_by_constant[switching])),
        rest_by_u=rest_by_u,
        rest_by_constant=rest_by_constant,
        sums_by_u=sums_by_u,
        sums_by_constant=sums_by_fixed @ rest_by_constant[:fixed_count],
        key=fixed.modes.key + reference.tobytes(),
    )
