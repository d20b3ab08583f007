"""Loss of a coaxial lead."""

import math


def compute_coax_loss(per_metre: float, at: float, hertz: float, metres: float) -> float:
    """Loss in dB of `metres` of coax at a frequency, from its loss per metre at another: it grows with the square root
    of the frequency, since the current crowds into the skin of the conductor. Raises ValueError unless both
    frequencies are above zero."""
    if not (at > 0.0 and hertz > 0.0):
        msg = f"no loss follows from {at} Hz to {hertz} Hz"
        raise ValueError(msg)
    return per_metre * math.sqrt(hertz / at) * metres
