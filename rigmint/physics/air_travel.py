"""What passengers may carry of lithium-ion batteries by air. Limits are inclusive ("not exceeding").

The documents are issued anew each year: what is encoded here names the edition that was read, and who flies asks the
airline for the one in force.
"""

from __future__ import annotations

from enum import Enum

JOULES_PER_WATT_HOUR = 3600.0
FREE_WATT_HOURS = 100.0
"""Up to here without approval. IATA 2018, table 2.3.A of the Dangerous Goods Regulations; 49 CFR 175.10(a)(18)."""
APPROVED_WATT_HOURS = 160.0
"""Up to here with the operator's approval; above it not as baggage at all. As above."""
MOST_FREE_SPARES = 20
"""Spares of up to 100 Wh a person, unless the operator approves more. IATA 2018."""
MOST_APPROVED_SPARES = 2
"""Spares of over 100 and up to 160 Wh a person. IATA 2018; 49 CFR 175.10(a)(18)(i)."""
AIR_EDITION = (
    "IATA, Passengers travelling with lithium batteries, 2018 edition (DGR table 2.3.A); 49 CFR 175.10, 2018 edition"
)
"""The documents and the editions that were read."""

_ROUNDING = 1e-9


class BatteryClass(Enum):
    """How a battery may fly with a passenger."""

    FREE = "without approval"
    APPROVED = "with the operator's approval"
    FORBIDDEN = "not as baggage"


def classify_battery(joules: float) -> BatteryClass:
    """How a lithium-ion battery of this energy may fly."""
    watt_hours = joules / JOULES_PER_WATT_HOUR * (1.0 - _ROUNDING)
    if watt_hours <= FREE_WATT_HOURS:
        return BatteryClass.FREE
    return BatteryClass.APPROVED if watt_hours <= APPROVED_WATT_HOURS else BatteryClass.FORBIDDEN
