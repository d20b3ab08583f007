"""What passengers may carry of lithium-ion batteries by air."""

from __future__ import annotations

import pytest

from rigmint.physics.air_travel import AIR_EDITION, BatteryClass, classify_battery

FREE, APPROVED, FORBIDDEN = BatteryClass


@pytest.mark.parametrize(
    ("volts", "amp_hours", "due"),
    [
        (14.4, 6.8, FREE),
        (14.8, 6.6, FREE),
        (14.4, 6.94, FREE),
        (14.4, 6.95, APPROVED),
        (14.4, 10.2, APPROVED),
        (14.4, 11.1, APPROVED),
        (14.4, 11.12, FORBIDDEN),
        (26.0, 5.6, APPROVED),
        (14.4, 100 / 14.4, FREE),
        (14.8, 100 / 14.8, FREE),
        (14.4, 160 / 14.4, APPROVED),
        (14.8, 160 / 14.8, APPROVED),
    ],
)
def test_by_watt_hours_from_volts_and_ampere_hours(volts: float, amp_hours: float, due: BatteryClass) -> None:
    """Watt-hours are nominal volts times ampere-hours; "not exceeding" 100 and 160 Wh. IATA, Passengers travelling with
    lithium batteries, 2018 (DGR table 2.3.A)."""
    assert classify_battery(volts * amp_hours * 3600.0) is due


def test_names_the_documents_and_their_editions() -> None:
    assert "2018 edition (DGR table 2.3.A)" in AIR_EDITION
    assert "49 CFR 175.10, 2018 edition" in AIR_EDITION
