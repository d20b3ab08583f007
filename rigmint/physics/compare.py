"""Comparing figures with limits, beyond what adding and converting units costs in the last digits."""

_ROUNDING = 1e-9


def exceeds(value: float, limit: float) -> bool:
    """Whether a value is above a limit by more than rounding: 1.1 kg + 2.2 kg are no more than 3.3 kg."""
    return value > limit + _ROUNDING * abs(limit)
