"""Sources without resistance that stand straight across each other."""

from rigmint.physics.circuit.arrays import Floats
from rigmint.physics.circuit.errors import Collapse
from rigmint.physics.circuit.frame import Frame
from rigmint.physics.circuit.law import STIFF_OHMS

_AGREE = 1e-9
"""Volts that differ by no more than this part are the same volts."""


def stiffen_cells(frame: Frame, volts: Floats, ohms: Floats) -> Floats:
    """Internal resistances, with a trace of it where cells of zero ohms close a ring, so that they share its current.

    volts, ohms: of each cell. Raises Collapse, naming the cells, where the volts around such a ring do not add up.
    """
    ideal = [index for index, value in enumerate(ohms.tolist()) if value < STIFF_OHMS]
    if not ideal:
        return ohms
    stiff, values = ohms.copy(), volts.tolist()
    # For each joint that a cell of zero ohms has reached: the joint that its volts count from, and those volts.
    place: dict[int, tuple[int, float]] = {}
    members: dict[int, list[int]] = {}
    inside: dict[int, list[int]] = {}
    slack = _AGREE * max(abs(value) for value in values)
    for index in ideal:
        plus, minus = int(frame.port_a[frame.cell][index]), int(frame.port_b[frame.cell][index])
        for joint in (plus, minus):
            if joint not in place:
                place[joint], members[joint], inside[joint] = (joint, 0.0), [joint], []
        (base_plus, at_plus), (base_minus, at_minus) = place[plus], place[minus]
        offset = values[index] - (at_plus - at_minus)
        if base_plus == base_minus:
            ring = (*inside[base_plus], index)
            if abs(offset) > slack:
                msg = "cells without resistance contradict each other"
                raise Collapse(msg, cells=ring)
            stiff[list(ring)] = STIFF_OHMS
        else:
            # The plus side's volts are moved so that this cell's own volts hold.
            for joint in members[base_plus]:
                place[joint] = (base_minus, place[joint][1] + offset)
            members[base_minus] += members.pop(base_plus)
            inside[base_minus] += inside.pop(base_plus)
        inside[place[plus][0]].append(index)
    return stiff
