"""Copper conductors: resistance by gauge or by area, and what they carry in free air."""

import math

IACS_OHM_M = 1e-6 / 58.0
"""Resistivity of annealed copper at 20 °C, ohm m (IEC 60028: 1/58 ohm mm²/m)."""

ALPHA_PER_K = 0.00393
"""Temperature coefficient of copper at 20 °C, 1/K (IEC 60028)."""

AWG_STRANDING = 1.02
"""Stranded over solid, by gauge (NEC chapter 9 table 8, stranded against solid column)."""

_CLASS_5_FINE = 1.131
_CLASS_5_COARSE = 1.157
_FINE_UP_TO_M2 = 1.0e-6
_COARSE_FROM_M2 = 1.5e-6

_FREE_AIR_AMPS = {28: 1.0, 26: 1.5, 24: 3.0, 22: 5.0, 20: 7.5, 18: 10.0, 16: 15.0, 14: 20.0, 12: 30.0}

# 1.0 mm² counts as AWG 18 and 1.5 mm² as AWG 16; an area that was converted from a gauge must find that gauge again.
_AREA_SLACK = 1.0 + 1e-9


def compute_awg_diameter(gauge: float) -> float:
    """Diameter in metres of a solid conductor of this gauge (ASTM B258: 0.127 mm × 92^((36 - n) / 39))."""
    return 0.127e-3 * math.pow(92.0, (36.0 - gauge) / 39.0)


def compute_awg_area(gauge: float) -> float:
    """Copper cross-section in m² of this gauge."""
    return math.pi / 4.0 * compute_awg_diameter(gauge) ** 2


def compute_temperature_factor(celsius: float) -> float:
    """Resistance at this temperature over resistance at 20 °C. Raises ValueError below the law's range."""
    factor = 1.0 + ALPHA_PER_K * (celsius - 20.0)
    if not (math.isfinite(factor) and factor > 0.0):
        msg = f"copper has no resistance by this law at {celsius} °C"
        raise ValueError(msg)
    return factor


def compute_stranding_factor(area: float) -> float:
    """What stranding and lay add to the ideal resistance of a flexible conductor of this area (m²).

    Meets the maxima of IEC 60228 for class 5: 1.131 up to 1.0 mm², rising linearly to 1.157 at 1.5 mm².
    """
    if area <= _FINE_UP_TO_M2:
        return _CLASS_5_FINE
    if area >= _COARSE_FROM_M2:
        return _CLASS_5_COARSE
    along = (area - _FINE_UP_TO_M2) / (_COARSE_FROM_M2 - _FINE_UP_TO_M2)
    return _CLASS_5_FINE + along * (_CLASS_5_COARSE - _CLASS_5_FINE)


def compute_awg_ohms_per_metre(gauge: float, *, celsius: float = 20.0) -> float:
    """Resistance in ohm/m of one stranded conductor of this gauge (0000 is -3)."""
    if not math.isfinite(gauge):
        msg = f"no such gauge: {gauge}"
        raise ValueError(msg)
    return IACS_OHM_M / compute_awg_area(gauge) * AWG_STRANDING * compute_temperature_factor(celsius)


def compute_area_ohms_per_metre(area: float, *, celsius: float = 20.0) -> float:
    """Resistance in ohm/m of one flexible conductor of this area (m²). Raises ValueError unless it is positive."""
    if not (math.isfinite(area) and area > 0.0):
        msg = f"a conductor's area must be above zero, not {area}"
        raise ValueError(msg)
    return IACS_OHM_M / area * compute_stranding_factor(area) * compute_temperature_factor(celsius)


def compute_awg_ohms(gauge: float, metres: float, *, celsius: float = 20.0) -> float:
    """Resistance in ohm of one conductor of this gauge and length; plus and minus are two conductors."""
    return compute_awg_ohms_per_metre(gauge, celsius=celsius) * _check_length(metres)


def compute_area_ohms(area: float, metres: float, *, celsius: float = 20.0) -> float:
    """Resistance in ohm of one conductor of this area (m²) and length; plus and minus are two conductors."""
    return compute_area_ohms_per_metre(area, celsius=celsius) * _check_length(metres)


def rate_awg(gauge: float) -> float:
    """Current in amps that a flexible conductor of this gauge carries in free air (common practice).

    The rating of the thickest listed gauge that is not thicker. Thinner than AWG 28: in proportion to area, from
    AWG 28 down.
    """
    return rate_area(compute_awg_area(gauge))


def rate_area(area: float) -> float:
    """Current in amps that a flexible conductor of this area (m²) carries in free air (common practice).

    The rating of the thickest listed gauge that is not larger; 1.0 mm² counts as AWG 18, 1.5 mm² as AWG 16.
    Below AWG 28 in proportion to area.
    """
    fitting = [amps for gauge, amps in _FREE_AIR_AMPS.items() if compute_awg_area(gauge) <= area * _AREA_SLACK]
    if fitting:
        return max(fitting)
    return _FREE_AIR_AMPS[28] * max(area, 0.0) / compute_awg_area(28)


def _check_length(metres: float) -> float:
    if not (math.isfinite(metres) and metres >= 0.0):
        msg = f"a conductor's length cannot be {metres} m"
        raise ValueError(msg)
    return metres
