"""Quantities: a number and a unit of the trade, read into an SI float.

Each kind has a closed list of units with the trade's spellings, since a dimension check alone lets `300 %` pass for
an angle and megayears for megaamperes. The factors are checked against pint in the tests.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches


class QuantityError(ValueError):
    """A text that is no quantity of the kind asked for; its message says what was meant.

    The message is put together when it is read: it may ask pint, whose import costs half a second, and a reader that
    tries one form after another throws most of them away.
    """

    def __init__(self, explain: Callable[[], str]) -> None:
        super().__init__()
        self._explain = explain

    def __str__(self) -> str:
        return self._explain()


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in SI units together with its kind, for keys that take more than one kind."""

    kind: str
    value: float


@dataclass(frozen=True, slots=True)
class Unit:
    """A spelling: SI value = number * factor + offset."""

    factor: float
    offset: float = 0.0


_INCH = 0.0254
_POUND = 0.45359237
_OUNCE = _POUND / 16
_GRAVITY = 9.80665
_DEGREE = math.pi / 180


def _units(**factors: float) -> dict[str, Unit]:
    return {name: Unit(factor) for name, factor in factors.items()}


UNITS: dict[str, dict[str, Unit]] = {
    "voltage": _units(V=1.0, mV=1e-3, kV=1e3),
    "current": _units(A=1.0, mA=1e-3),
    "resistance": {**_units(ohm=1.0, mohm=1e-3, kohm=1e3), "Ω": Unit(1.0), "mΩ": Unit(1e-3)},
    "power": _units(W=1.0, mW=1e-3, kW=1e3),
    "energy": _units(Wh=3600.0, mWh=3.6, kWh=3.6e6, J=1.0, kJ=1e3),
    "length": {**_units(m=1.0, cm=1e-2, mm=1e-3, km=1e3, ft=12 * _INCH), "in": Unit(_INCH)},
    "diametral_pitch": {"DP": Unit(1 / _INCH)},
    "mass": _units(kg=1.0, g=1e-3, lb=_POUND, oz=_OUNCE),
    "area": {"mm2": Unit(1e-6), "mm²": Unit(1e-6)},
    "gauge": _units(AWG=1.0),
    "duration": _units(s=1.0, ms=1e-3, min=60.0, h=3600.0),
    "frequency": _units(Hz=1.0, kHz=1e3, MHz=1e6, GHz=1e9),
    "bitrate": {"bit/s": Unit(1.0), "kbit/s": Unit(1e3), "Mbit/s": Unit(1e6), "Gbit/s": Unit(1e9)},
    "angle": {"deg": Unit(_DEGREE), "°": Unit(_DEGREE), "rad": Unit(1.0)},
    "angular_speed": {"deg/s": Unit(_DEGREE), "rad/s": Unit(1.0), "rpm": Unit(2 * math.pi / 60)},
    "torque": {
        "N*m": Unit(1.0),
        "Nm": Unit(1.0),
        "N*cm": Unit(1e-2),
        "mN*m": Unit(1e-3),
        "cN*m": Unit(1e-2),
        "kg*cm": Unit(_GRAVITY * 1e-2),
        "oz*in": Unit(_OUNCE * _GRAVITY * _INCH),
        "oz-in": Unit(_OUNCE * _GRAVITY * _INCH),
        "lb*in": Unit(_POUND * _GRAVITY * _INCH),
        "lb-in": Unit(_POUND * _GRAVITY * _INCH),
        "lb*ft": Unit(_POUND * _GRAVITY * 12 * _INCH),
        "lb-ft": Unit(_POUND * _GRAVITY * 12 * _INCH),
    },
    "temperature": {"degC": Unit(1.0, 273.15), "degF": Unit(5 / 9, 459.67 * 5 / 9), "K": Unit(1.0)},
    "radio_power": _units(dBm=1.0),
    "decibel": {"dB": Unit(1.0), "dBi": Unit(1.0)},
    "ratio": {"%": Unit(1e-2)},
}

SAMPLES = {
    "voltage": "14.4 V",
    "current": "2 A",
    "resistance": "80 mohm",
    "power": "45 W",
    "energy": "98 Wh",
    "length": "45 cm",
    "diametral_pitch": "48 DP",
    "mass": "160 g",
    "area": "0.5 mm2",
    "gauge": "20 AWG",
    "duration": "60 min",
    "frequency": "2.4 GHz",
    "bitrate": "2.97 Gbit/s",
    "angle": "300 deg",
    "angular_speed": "900 deg/s",
    "torque": "0.08 N*m",
    "temperature": "20 degC",
    "radio_power": "20 dBm",
    "decibel": "0.25 dB",
    "ratio": "75 %",
}

RANGE_SAMPLES = {  # the kinds of which the format has ranges
    "voltage": "11 to 17 V",
    "frequency": "2400 to 2483.5 MHz",
    "angle": "-35 to 35 deg",
}

_NUMBER = r"[-+]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?"
_QUANTITY = re.compile(rf"\s*({_NUMBER})\s*([^\s\d.,_+-].*?)?\s*")
_RANGE = re.compile(r"\s*(\S.*?)\s+to\s+(\S.*?)\s*")
_LARGEST = 1e15  # beyond it a figure is a slip of the keyboard, and products of two could overflow
_SMALLEST = 1e-15  # below it likewise, and a quotient could overflow


def parse_quantity(text: str, kind: str) -> float:
    """The SI value of `text`, for example `45 cm` of kind `length` gives 0.45.

    Raises QuantityError with the unit that was expected and, where a unit is known elsewhere, what it may have meant.
    """
    match = _QUANTITY.fullmatch(text)
    if match is None:
        raise QuantityError(lambda: _say_no_number(text, kind))
    number_text, unit_text = match[1], match[2] or ""
    unit = UNITS[kind].get(unit_text)
    if unit is None:
        raise QuantityError(lambda: _say_wrong_unit(text, number_text, unit_text, kind))
    value = float(number_text) * unit.factor + unit.offset
    if not math.isfinite(value) or abs(value) > _LARGEST:
        msg = f"`{text}` is too large for {name_kind(kind)} in a rig"
        raise QuantityError(lambda: msg)
    if abs(float(number_text) * unit.factor) < _SMALLEST and re.match(r"\s*[-+]?[0.]*[1-9]", text):
        msg = f"`{text}` is too small for {name_kind(kind)} in a rig"
        raise QuantityError(lambda: msg)
    if kind == "temperature" and value < 0:
        msg = f"`{text}` is below absolute zero"
        raise QuantityError(lambda: msg)
    return value


def parse_range(text: str, kind: str) -> tuple[float, float]:
    """Lower and upper end in SI of `11 to 17 V` or `11 V to 17 V`.

    Raises QuantityError when it is a single value, when its upper end comes first, or when an end is no quantity.
    """
    match = _RANGE.fullmatch(text)
    if match is None:
        if _QUANTITY.fullmatch(text) or "," in text:
            parse_quantity(text, kind)  # a wrong unit or a comma is named before the missing end
        is_single = _QUANTITY.fullmatch(text) is not None
        fault = "is one value where a range is due, lower end first" if is_single else "is no range; write it as"
        msg = f"`{text}` {fault}: `{RANGE_SAMPLES[kind]}`"
        raise QuantityError(lambda: msg)
    low_text, high_text = match[1], match[2]
    high = parse_quantity(high_text, kind)
    if re.fullmatch(_NUMBER, low_text):
        unit_match = _QUANTITY.fullmatch(high_text)
        low_text = f"{low_text} {unit_match[2] if unit_match else ''}"
    low = parse_quantity(low_text, kind)
    if low > high:
        msg = f"`{text}` has its upper end first: write the lower end first"
        raise QuantityError(lambda: msg)
    return low, high


def parse_any(text: str, kinds: tuple[str, ...]) -> Quantity:
    """The value of `text` as the first of `kinds` that has its unit. Raises QuantityError."""
    match = _QUANTITY.fullmatch(text)
    unit_text = (match[2] or "") if match else ""
    for kind in kinds:
        if unit_text in UNITS[kind]:
            return Quantity(kind, parse_quantity(text, kind))
    return Quantity(kinds[0], parse_quantity(text, kinds[0]))


def name_kind(kind: str) -> str:
    """`angular_speed` as `an angular speed`."""
    words = kind.replace("_", " ")
    return f"an {words}" if words[0] in "aeiou" else f"a {words}"


def list_units(kind: str) -> str:
    """The spellings of a kind, as a message names them."""
    return ", ".join(f"`{unit}`" for unit in UNITS[kind])


def _say_no_number(text: str, kind: str) -> str:
    comma = re.fullmatch(r"\s*([-+]?[0-9]+),([0-9]+)(\s*\D.*)?", text)
    if comma:
        return f"`{text}`: write the decimal with a point, `{comma[1]}.{comma[2]}{comma[3] or ''}`"
    return f"`{text}` is not {name_kind(kind)}: a number and a unit are due, such as `{SAMPLES[kind]}`"


def _say_wrong_unit(text: str, number: str, unit: str, kind: str) -> str:
    due = name_kind(kind)
    if unit.startswith("to "):
        return f"`{text}` is a range where one value is due, such as `{SAMPLES[kind]}`"
    if not unit:
        return f"`{text}` has no unit: {due} is due, such as `{number} {SAMPLES[kind].split()[-1]}`"
    near = _near_unit(unit, kind)
    if near is not None:
        return f"`{text}`: did you mean `{number} {near}`? {due.capitalize()} is written in {list_units(kind)}"
    other = next((name for name, units in UNITS.items() if unit in units), None)
    if other is not None:
        return f"`{text}` is {name_kind(other)}; {due} is due here, in {list_units(kind)}"
    return f"`{text}`: `{unit}` is not used here{_ask_pint(unit)}; {due} is written in {list_units(kind)}"


def _near_unit(unit: str, kind: str) -> str | None:
    folded = {name.casefold(): name for name in UNITS[kind]}
    exact = folded.get(unit.casefold())
    if exact is not None:
        return exact
    if any(unit in units for units in UNITS.values()):
        return None
    near = get_close_matches(unit.casefold(), folded, n=1, cutoff=0.7)
    return folded[near[0]] if near else None


def _ask_pint(unit: str) -> str:
    """What pint takes a refused unit for, in brackets; imported only here, since it costs half a second."""
    import pint

    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    try:
        found = registry.Unit(unit.replace("°", "deg"))
    except Exception:  # pint raises many kinds on text that is no unit; any of them means unknown
        return ""
    return f" (it reads as {found})"
