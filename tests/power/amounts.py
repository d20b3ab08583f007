"""Quantities by pint, and the figures of the design that a netlist needs: copper, and the discharge curve."""

from __future__ import annotations

import math
import re
from functools import cache
from itertools import pairwise

import pint

_NUMBER = r"[-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?"
_RANGE = re.compile(rf"({_NUMBER}) *(\S+)? +to +({_NUMBER}) *(\S+)")
_SINGLE = re.compile(rf"({_NUMBER}) *(\S+)")
_SPELT = {"mm2": "mm**2", "mm²": "mm**2", "in": "inch", "Wh": "watt_hour", "°": "degree"}

STRANDED = 1.02
_CURVE = ((0.0, 3.00), (0.05, 3.30), (0.15, 3.50), (0.3, 3.62), (0.5, 3.73), (0.7, 3.87), (0.9, 4.05), (1.0, 4.20))
"""Fraction left, V of a lithium-ion cell (common practice)."""


@cache
def _units() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def _to_si(number: str, unit: str) -> float:
    if unit == "AWG":
        return float(number)
    if unit == "%":
        return float(number) / 100.0
    return float(_units().Quantity(float(number), _SPELT.get(unit, unit)).to_base_units().magnitude)


@cache
def read_amount(text: str) -> float:
    """A quantity in SI units; AWG as its number."""
    found = _SINGLE.fullmatch(text.strip())
    assert found is not None, text
    return _to_si(found[1], found[2])


@cache
def read_range(text: str) -> tuple[float, float]:
    """A range in SI units; a single value is a range of no width."""
    found = _RANGE.fullmatch(text.strip())
    if found is None:
        return (read_amount(text), read_amount(text))
    return _to_si(found[1], found[2] or found[4]), _to_si(found[3], found[4])


def unit_of(text: str) -> str:
    """The unit as written."""
    return text.split()[-1]


def compute_ohms(gauge: float | None, area: float | None, metres: float, celsius: float) -> float:
    """One conductor of IACS copper (1/58 ohm mm2/m at 20 degC, 0.00393 /K), by gauge (ASTM B258) or by area in m2
    (IEC 60228, class 5)."""
    warm = 1.0 + 0.00393 * (celsius - 20.0)
    if area is not None:
        square = area * 1e6
        factor = min(1.157, max(1.131, 1.131 + (square - 1.0) / 0.5 * (1.157 - 1.131)))
        return metres / 58.0 / square * factor * warm
    assert gauge is not None
    diameter = 0.127 * math.pow(92.0, (36.0 - gauge) / 39.0)
    square = math.pi * diameter * diameter / 4.0
    return metres / 58.0 / square * STRANDED * warm


def find_curve_volts(low: float, high: float, left: float, curve: dict[str, str] | None) -> float:
    """Open-circuit volts of a cell with this fraction of its charge left: the curve stretched to its range."""
    points = sorted((float(at), read_amount(volts)) for at, volts in curve.items()) if curve else list(_CURVE)
    (_, bottom), (_, top) = points[0], points[-1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= left <= x1:
            volts = y0 + (y1 - y0) * (left - x0) / (x1 - x0)
            return float(low + (volts - bottom) / (top - bottom) * (high - low))
    msg = f"no such fraction: {left}"
    raise ValueError(msg)
