"""The resistance of a lead's conductors in a rig."""

from __future__ import annotations

from rigmint.physics.conductors import compute_area_ohms, compute_awg_ohms, rate_area, rate_awg
from rigmint.rig.lead import Conductor
from rigmint.rig.rig import Lead

FUSE_OHMS = 0.005
_ZERO_CELSIUS = 273.15


def conductor_ohms(lead: Lead, conductor: Conductor, kelvin: float) -> float:
    """ohm of one conductor over the lead's length at a wire temperature; a fuse adds 5 mohm."""
    celsius = kelvin - _ZERO_CELSIUS
    if conductor.area is not None:
        ohms = compute_area_ohms(conductor.area, lead.length, celsius=celsius)
    else:
        ohms = compute_awg_ohms(conductor.gauge or 0.0, lead.length, celsius=celsius)
    return ohms + (FUSE_OHMS if conductor.fuse is not None else 0.0)


def rate_conductor(conductor: Conductor) -> float | None:
    """A that a conductor carries in free air (common practice); None where neither gauge nor area is known."""
    if conductor.area is not None:
        return rate_area(conductor.area)
    return rate_awg(conductor.gauge) if conductor.gauge is not None else None
