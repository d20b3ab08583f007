"""Free-space loss and the distance that a radio budget allows; overlap of radio channels."""

import math

SPEED_OF_LIGHT = 299_792_458.0
"""m/s (exact)."""


def compute_free_space_loss(metres: float, hertz: float) -> float:
    """Loss in dB between isotropic antennas (ITU-R P.525): 20 log10(4 pi d f / c), never below 0 dB.

    Raises ValueError unless both are above zero.
    """
    if not (metres > 0.0 and hertz > 0.0):
        msg = f"no loss follows from {metres} m at {hertz} Hz"
        raise ValueError(msg)
    return max(0.0, 20.0 * math.log10(4.0 * math.pi * metres * hertz / SPEED_OF_LIGHT))


def find_distance(loss: float, hertz: float) -> float:
    """The distance in m at which free space takes `loss` dB: the inverse of `compute_free_space_loss`."""
    if not hertz > 0.0:
        msg = f"no distance follows at {hertz} Hz"
        raise ValueError(msg)
    return SPEED_OF_LIGHT / (4.0 * math.pi * hertz) * math.pow(10.0, loss / 20.0)


def compute_overlap(first: tuple[float, float], second: tuple[float, float]) -> float:
    """Hz that two radio channels share, each as (centre, width) in Hz; at most the narrower width."""
    (centre, width), (other_centre, other_width) = first, second
    shared = (width + other_width) / 2.0 - abs(centre - other_centre)
    return max(0.0, min(shared, width, other_width))
