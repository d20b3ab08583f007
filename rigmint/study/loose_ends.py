"""What stands on the contacts of a lead's end that is in the air."""

from __future__ import annotations

from rigmint.graph.pins import Pin
from rigmint.rig.rig import Lead
from rigmint.study.worst_volts import WorstVolts


def find_loose_volts(worst: WorstVolts, lead: Lead, end: str) -> float | None:
    """The highest V that any live source can put on a contact of a loose end; None where none does."""
    pins = [
        worst.network.index[Pin(lead.label, end, contact, True)] for contact in lead.body.ends[end].connector.contacts
    ]
    nets = {worst.nets[pin] for pin in pins}
    volts = [
        reach.plus[net] for reach in worst.potentials for net in nets if net in reach.plus and net not in reach.minus
    ]
    return max(volts, default=None)
