"""Every check of a part, in one list."""

from __future__ import annotations

from rigmint.lint.parts import devices, figures, leads, pinouts, rails, signals, windows
from rigmint.lint.parts.hint import PartCheck

PART_CHECKS: tuple[PartCheck, ...] = (
    windows.check_works_inside_survives,
    windows.check_survives_its_rail,
    windows.check_outputs,
    windows.check_inputs_agree,
    windows.check_cells_suit_inputs,
    windows.check_connector_volts,
    windows.check_connector_amps,
    figures.check_loads,
    figures.check_cells,
    figures.check_levels,
    figures.check_payload,
    figures.check_joints,
    figures.check_radio_channels,
    rails.check_fed,
    rails.check_regulators,
    rails.check_load,
    rails.check_battery,
    pinouts.check_stated,
    pinouts.check_usual,
    pinouts.check_wires,
    pinouts.check_usb_power,
    leads.check_short,
    signals.check_controls,
    signals.check_passes,
    signals.check_mute,
    devices.check_head,
    devices.check_calibration,
    devices.check_mass,
)
