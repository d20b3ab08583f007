"""Quantities: every unit against pint, and what is said of each trap."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest

from rigmint.rig.quantity import (
    RANGE_SAMPLES,
    SAMPLES,
    UNITS,
    Quantity,
    QuantityError,
    parse_any,
    parse_quantity,
    parse_range,
)
from tests.schemas.schema_reading import KINDS, load_schema, walk_nodes

REGISTRY: Any = pint.UnitRegistry()
SI = {
    "voltage": "volt",
    "current": "ampere",
    "resistance": "ohm",
    "power": "watt",
    "energy": "joule",
    "length": "metre",
    "diametral_pitch": "1/metre",
    "mass": "kilogram",
    "area": "metre**2",
    "duration": "second",
    "frequency": "hertz",
    "bitrate": "bit/second",
    "angle": "radian",
    "angular_speed": "radian/second",
    "torque": "newton*metre",
    "temperature": "kelvin",
    "ratio": "dimensionless",
}
PINT_SPELLINGS = {
    "Ω": "ohm",
    "mΩ": "milliohm",
    "mohm": "milliohm",
    "kohm": "kiloohm",
    "in": "inch",
    "mm2": "mm**2",
    "mm²": "mm**2",
    "°": "degree",
    "Nm": "N*m",
    "DP": "1/inch",  # teeth an inch of pitch diameter
    "kg*cm": "kilogram_force*cm",
    "oz*in": "ounce_force*inch",
    "oz-in": "ounce_force*inch",
    "lb*in": "pound_force*inch",
    "lb-in": "pound_force*inch",
    "lb*ft": "pound_force*foot",
    "lb-ft": "pound_force*foot",
    "%": "percent",
}
# Numbers on a scale of their own: a gauge, and logarithms of a ratio. Nothing is converted.
SCALES = ("gauge", "radio_power", "decibel")
CONVERTED = [(kind, unit) for kind in SI for unit in UNITS[kind]]


def ask_pint(number: float, unit: str, kind: str) -> float:
    """The SI value by pint."""
    quantity = REGISTRY.Quantity(number, PINT_SPELLINGS.get(unit, unit))
    return float(quantity.to(SI[kind]).magnitude)


@pytest.mark.parametrize(("kind", "unit"), CONVERTED)
@pytest.mark.parametrize("number", [1.0, 37.5])
def test_every_unit_has_the_factor_that_pint_has(kind: str, unit: str, number: float) -> None:
    assert parse_quantity(f"{number} {unit}", kind) == pytest.approx(ask_pint(number, unit, kind), rel=1e-12, abs=0)


def test_every_kind_is_converted_or_a_scale_of_its_own() -> None:
    assert {*SI, *SCALES} == set(UNITS)
    assert {parse_quantity(f"3 {unit}", kind) for kind in SCALES for unit in UNITS[kind]} == {3.0}


def test_a_spelling_stands_for_one_kind() -> None:
    spellings = [unit for units in UNITS.values() for unit in units]

    assert sorted(spellings) == sorted(set(spellings))


@pytest.mark.parametrize("kind", list(UNITS))
def test_samples_can_be_read(kind: str) -> None:
    assert math.isfinite(parse_quantity(SAMPLES[kind], kind))


def test_the_schemas_have_ranges_of_the_kinds_that_have_a_sample() -> None:
    ranged = {
        node.schema["x-quantity"] for k in KINDS for node in walk_nodes(load_schema(k)) if node.schema.get("x-range")
    }

    assert ranged == set(RANGE_SAMPLES)
    assert all(low < high for low, high in (parse_range(text, kind) for kind, text in RANGE_SAMPLES.items()))


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("14.4 V", "voltage", 14.4),
        ("5V", "voltage", 5.0),
        ("  5   V  ", "voltage", 5.0),
        ("-0.3 V", "voltage", -0.3),
        ("+5 V", "voltage", 5.0),
        (".5 A", "current", 0.5),
        ("5. A", "current", 5.0),
        ("2e3 mA", "current", 2.0),
        ("0 V", "voltage", 0.0),
        ("2 mm2", "area", 2e-6),
        ("10 degC", "temperature", 283.15),
        ("14 degF", "temperature", 263.15),
        ("8 oz*in", "torque", 0.05649241451380834),
        ("75 %", "ratio", 0.75),
        ("0.5 %", "ratio", 0.005),
        ("98 Wh", "energy", 352_800.0),
    ],
)
def test_parse_quantity(text: str, kind: str, value: float) -> None:
    assert parse_quantity(text, kind) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("5 Ma", "current", "`5 Ma`: did you mean `5 mA`?"),
        ("100 mbit/s", "bitrate", "`100 mbit/s`: did you mean `100 Mbit/s`?"),
        ("2 mm2", "length", "`2 mm2` is an area; a length is due here, in `m`, `cm`"),
        ("3 mOhm", "resistance", "`3 mOhm`: did you mean `3 mohm`?"),
        ("24 v", "voltage", "`24 v`: did you mean `24 V`?"),
        ("0.5 mm^2", "area", "did you mean `0.5 mm2`?"),
        ("5 lbs", "mass", "did you mean `5 lb`?"),
        ("5", "current", "`5` has no unit: a current is due, such as `5 A`"),
        ("NaN A", "current", "`NaN A` is not a current: a number and a unit are due, such as `2 A`"),
        ("inf V", "voltage", "`inf V` is not a voltage"),
        ("1e400 A", "current", "`1e400 A` is too large for a current in a rig"),
        ("1e16 V", "voltage", "too large"),
        ("1e-400 V", "voltage", "`1e-400 V` is too small for a voltage in a rig"),
        ("0.0000000000001 mm", "length", "too small"),
        ("300 %", "angle", "`300 %` is a ratio; an angle is due here"),
        ("5 Wh", "torque", "`5 Wh` is an energy; a torque is due here"),
        ("900 Hz", "angular_speed", "`900 Hz` is a frequency; an angular speed is due here"),
        ("5 min", "angle", "`5 min` is a duration; an angle is due here"),
        ("0,5 mm2", "area", "`0,5 mm2`: write the decimal with a point, `0.5 mm2`"),
        ("-0,3 V", "voltage", "write the decimal with a point, `-0.3 V`"),
        ("12 volts", "voltage", "`volts` is not used here (it reads as volt); a voltage is written in `V`, `mV`, `kV`"),
        ("5 bananas", "voltage", "`5 bananas`: `bananas` is not used here; a voltage is written in"),
        ("5 Ah", "energy", "`Ah` is not used here (it reads as ampere_hour)"),
        ("11 to 17 V", "voltage", "`11 to 17 V` is a range where one value is due, such as `14.4 V`"),
        ("-300 degC", "temperature", "`-300 degC` is below absolute zero"),
        ("1_000 V", "voltage", "`1_000 V` is not a voltage"),
        ("1 200 mA", "current", "`1 200 mA` is not a current"),
        ("٣ V", "voltage", "`٣ V` is not a voltage"),
        ("V", "voltage", "`V` is not a voltage"),
        ("", "voltage", "`` is not a voltage"),
    ],
)
def test_what_is_said_of_a_trap(text: str, kind: str, says: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, kind)

    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("text", "kind", "ends"),
    [
        ("11 to 17 V", "voltage", (11.0, 17.0)),
        ("11 V to 17 V", "voltage", (11.0, 17.0)),
        ("-0.3 to 18 V", "voltage", (-0.3, 18.0)),
        ("-18 V to -3 V", "voltage", (-18.0, -3.0)),
        ("900 mV to 5 V", "voltage", (0.9, 5.0)),
        ("5 to 5 V", "voltage", (5.0, 5.0)),
        ("2400 to 2483.5 MHz", "frequency", (2.4e9, 2.4835e9)),
    ],
)
def test_parse_range(text: str, kind: str, ends: tuple[float, float]) -> None:
    assert parse_range(text, kind) == pytest.approx(ends, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("11 V", "`11 V` is one value where a range is due, lower end first: `11 to 17 V`"),
        ("17 to 11 V", "`17 to 11 V` has its upper end first"),
        ("5 V to 900 mV", "has its upper end first"),
        ("11 to 17", "`17` has no unit"),
        ("11 V to 17", "`17` has no unit"),
        ("11 to 17 A", "`17 A` is a current; a voltage is due here"),
        ("11 A to 17 V", "`11 A` is a current; a voltage is due here"),
        ("11 to 17 v", "did you mean `17 V`?"),
        ("11 v", "did you mean `11 V`?"),
        ("11,5 to 17 V", "write the decimal with a point, `11.5`"),
        ("11-17 V", "`11-17 V` is no range; write it as: `11 to 17 V`"),
        ("11..17 V", "is no range"),
        ("nan to 5 V", "`nan` is not a voltage"),
        ("11 to 1e400 V", "too large"),
        ("11 to 12 to 13 V", "is a range where one value is due"),
    ],
)
def test_what_is_said_of_a_range(text: str, says: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_range(text, "voltage")

    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("3 W", Quantity("power", 3.0)),
        ("250 mA", Quantity("current", 0.25)),
        ("4 ohm", Quantity("resistance", 4.0)),
    ],
)
def test_parse_any_tells_the_kind_by_the_unit(text: str, found: Quantity) -> None:
    assert parse_any(text, ("power", "current", "resistance")) == found


def test_parse_any_refuses_a_unit_of_another_kind() -> None:
    with pytest.raises(QuantityError, match="`5 V` is a voltage; a power is due here"):
        parse_any("5 V", ("power", "current", "resistance"))
