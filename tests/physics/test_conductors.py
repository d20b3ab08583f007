"""Conductors against published values; the source stands beside each."""

import math

import pytest

from rigmint.physics import conductors

FEET_1000 = 304.8

# Solid copper at 20 °C in ohm per 1000 ft: the classical copper-wire table (NBS Circular 31 and its reprints).
CLASSICAL_TABLE = {
    12: 1.588, 14: 2.525, 16: 4.016, 18: 6.385, 20: 10.15, 22: 16.14, 24: 25.67, 26: 40.81, 28: 64.90, 30: 103.2,
}  # fmt: skip

# Solid copper at 75 °C in ohm per 1000 ft: NEC chapter 9 table 8 (18 and 16 from memory).
NEC_SOLID_75 = {18: 7.77, 16: 4.89, 14: 3.07, 12: 1.93, 10: 1.21}

# Stranded copper at 75 °C in ohm per 1000 ft: NEC chapter 9 table 8 (all but 16 from memory).
NEC_STRANDED_75 = {18: 7.95, 16: 4.99, 14: 3.14, 12: 1.98, 10: 1.24}

# Diameters in mm: GNU Units 2.22, `wiregauge(n)`.
GNU_UNITS_DIAMETERS = {
    10: 2.5881867, 12: 2.0525254, 14: 1.6277266, 16: 1.2908459, 18: 1.0236873, 20: 0.81182097, 22: 0.6438033,
    24: 0.51055923, 26: 0.40489187, 28: 0.32109385, 30: 0.254639,
}  # fmt: skip

# Class 5 plain copper at 20 °C, maxima in ohm/km by mm²: IEC 60228 table 3.
IEC_60228_CLASS_5 = {0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95}


@pytest.mark.parametrize(("gauge", "millimetres"), GNU_UNITS_DIAMETERS.items())
def test_diameter_by_gauge(gauge: int, millimetres: float) -> None:
    assert conductors.compute_awg_diameter(gauge) * 1e3 == pytest.approx(millimetres, rel=1e-6)


def test_anchors_of_astm_b258() -> None:
    assert conductors.compute_awg_diameter(36) == pytest.approx(0.0050 * 0.0254, rel=1e-12)
    assert conductors.compute_awg_diameter(-3) == pytest.approx(0.4600 * 0.0254, rel=1e-12)


@pytest.mark.parametrize(("gauge", "ohms"), CLASSICAL_TABLE.items())
def test_solid_resistance_at_20(gauge: int, ohms: float) -> None:
    solid = conductors.compute_awg_ohms(gauge, FEET_1000) / conductors.AWG_STRANDING

    assert solid == pytest.approx(ohms, rel=5e-4)


@pytest.mark.parametrize(("gauge", "ohms"), NEC_SOLID_75.items())
def test_solid_resistance_at_75(gauge: int, ohms: float) -> None:
    solid = conductors.compute_awg_ohms(gauge, FEET_1000, celsius=75.0) / conductors.AWG_STRANDING

    assert solid == pytest.approx(ohms, rel=5e-3)


@pytest.mark.parametrize(("gauge", "ohms"), NEC_STRANDED_75.items())
def test_stranded_resistance_at_75(gauge: int, ohms: float) -> None:
    assert conductors.compute_awg_ohms(gauge, FEET_1000, celsius=75.0) == pytest.approx(ohms, rel=5e-3)


@pytest.mark.parametrize(("area", "ohms_per_km"), IEC_60228_CLASS_5.items())
def test_class_5_maximum_is_met(area: float, ohms_per_km: float) -> None:
    ours = conductors.compute_area_ohms(area * 1e-6, 1000.0)

    assert ours == pytest.approx(ohms_per_km, rel=1e-2)
    assert ohms_per_km > conductors.IACS_OHM_M / (area * 1e-6) * 1000.0


@pytest.mark.parametrize(("area", "factor"), [(0.5, 1.131), (1.0, 1.131), (1.25, 1.144), (1.5, 1.157), (6.0, 1.157)])
def test_stranding_factor_by_area(area: float, factor: float) -> None:
    assert conductors.compute_stranding_factor(area * 1e-6) == pytest.approx(factor, rel=1e-9)


@pytest.mark.parametrize(("celsius", "factor"), [(75.0, 1.21615), (60.0, 1.15720), (0.0, 0.92140), (20.0, 1.0)])
def test_temperature_factor(celsius: float, factor: float) -> None:
    # R(T) = R20 (1 + 0.00393 (T - 20)), IEC 60028.
    assert conductors.compute_temperature_factor(celsius) == pytest.approx(factor, abs=1e-5)


def test_round_trip_drop_of_a_published_example() -> None:
    # 2 × 100 ft of AWG 16 stranded at 75 °C, 4 A: 3.992 V (electrician's training text, NEC table 8's 4.99 ohm/kft).
    ohms = conductors.compute_awg_ohms(16, 2 * 30.48, celsius=75.0)

    assert 4.0 * ohms == pytest.approx(3.992, abs=0.01)


def test_two_thousand_feet_of_a_navy_table() -> None:
    # US Navy NEETS module 4, table 1-2: AWG 20 at 25 °C, 10.4 ohm/kft, hence 20.8 ohm in 2000 ft (solid).
    solid = conductors.compute_awg_ohms(20, 2 * FEET_1000, celsius=25.0) / conductors.AWG_STRANDING

    assert solid == pytest.approx(20.8, rel=1e-2)


@pytest.mark.parametrize(
    ("gauge", "amps"),
    # Common practice, flexible leads in free air.
    [(28, 1.0), (26, 1.5), (24, 3.0), (22, 5.0), (20, 7.5), (18, 10.0), (16, 15.0), (14, 20.0), (12, 30.0),
     (19, 7.5), (10, 30.0), (17.9, 10.0), (31, 0.49876)],
)  # fmt: skip
def test_rating_by_gauge(gauge: float, amps: float) -> None:
    assert conductors.rate_awg(gauge) == pytest.approx(amps, rel=1e-4)


@pytest.mark.parametrize(
    ("area", "amps"), [(0.5, 5.0), (0.75, 7.5), (1.0, 10.0), (1.5, 15.0), (2.5, 20.0), (4.0, 30.0)]
)
def test_rating_by_area(area: float, amps: float) -> None:
    assert conductors.rate_area(area * 1e-6) == amps


@pytest.mark.parametrize("area", [0.0, -1e-6, math.inf, math.nan])
def test_absurd_area_is_refused(area: float) -> None:
    with pytest.raises(ValueError, match="area"):
        conductors.compute_area_ohms(area, 1.0)


@pytest.mark.parametrize("metres", [-1.0, math.inf, math.nan])
def test_absurd_length_is_refused(metres: float) -> None:
    with pytest.raises(ValueError, match="length"):
        conductors.compute_awg_ohms(20, metres)


def test_absurd_gauge_and_temperature_are_refused() -> None:
    with pytest.raises(ValueError, match="gauge"):
        conductors.compute_awg_ohms(math.nan, 1.0)
    with pytest.raises(ValueError, match="resistance"):
        conductors.compute_awg_ohms(20, 1.0, celsius=-300.0)
