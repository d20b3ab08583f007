"""Free outputs whose volts lie in the window of a device, for the lead that feeds it."""

from __future__ import annotations

from rigmint.rig.electric import Role, Window
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.worst_volts import WorstVolts


def find_outlets(
    rig: Rig, setup: Setup, worst: WorstVolts, nominal: WorstVolts, label: str, window: Window
) -> tuple[tuple[str, PortRef], ...]:
    """(end of the lead, free output that takes it and gives volts in the window, at the fullest and at nominal): those
    of the item that the end is plugged into now first. Only ends on outputs are moved."""
    lead = rig.leads[label]
    taken = {ref for name in setup.leads for ref in rig.leads[name].plugged.values()}
    taken |= {ref for index in setup.docks for ref in (rig.docks[index].first, rig.docks[index].second)}
    found = []
    for end, here in sorted(lead.plugged.items()):
        like = rig.port(here)
        if like.role is Role.IN or not like.carries_power:
            continue
        for item in sorted(setup.items - setup.off, key=lambda name: (name != here.item, name)):
            for port in rig.items[item].part.ports.values():
                ref = PortRef(item, port.name)
                fits = (port.connector.id, port.sex) == (like.connector.id, like.sex)
                if fits and port.role is not Role.IN and ref not in taken and _gives(worst, nominal, ref, window):
                    found.append((end, ref))
    return tuple(found)


def _gives(worst: WorstVolts, nominal: WorstVolts, ref: PortRef, window: Window) -> bool:
    highest = worst.ports[ref].high if ref in worst.ports else None
    usual = nominal.ports[ref].high if ref in nominal.ports else None
    if highest is None or usual is None:
        return False
    return highest.volts <= window.high and usual.volts >= window.low
