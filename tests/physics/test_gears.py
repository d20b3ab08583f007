"""Module and pitch, ratio, torque and travel of gears, against published values and worked examples."""

from __future__ import annotations

import math

import pytest

from rigmint.physics.gears import (
    compute_coverage,
    compute_leftover,
    compute_pitch,
    compute_ratio,
    compute_ring_steps,
    compute_travel_time,
    compute_wheel_steps,
    do_mesh,
    find_module,
)

MM = 1e-3
INCH = 0.0254


@pytest.mark.parametrize(
    ("module", "pitch"),
    [  # p = pi m, sizes of DIN 780-1 and JIS B 1701-2 (from memory that 0.5 and 0.8 are in both)
        (0.5, 1.570796),
        (0.8, 2.513274),
        (1.0, 3.141593),
    ],
)
def test_pitch_of_standard_modules(module: float, pitch: float) -> None:
    assert compute_pitch(module * MM) == pytest.approx(pitch * MM, rel=1e-6)


@pytest.mark.parametrize(
    ("diametral_pitch", "module", "pitch"),
    [  # m = 25.4 mm / DP; conversion tables of gear makers
        (32, 0.79375, 2.493639),
        (48, 0.5291667, 1.662426),
        (64, 0.396875, 1.246820),
        (25.4, 1.0, 3.141593),
    ],
)
def test_module_of_a_diametral_pitch(diametral_pitch: float, module: float, pitch: float) -> None:
    found = find_module(diametral_pitch / INCH)

    assert found == pytest.approx(module * MM, rel=1e-6)
    assert compute_pitch(found) == pytest.approx(pitch * MM, rel=1e-6)


@pytest.mark.parametrize(
    ("module", "other", "mesh"),
    [
        (0.8, 0.8, True),
        (0.8, 0.8001, True),  # 0.0315 in
        (0.8, 0.79375, False),  # 32 DP: 0.8 % of pitch
        (0.8, 0.5, False),
        (0.5, 0.5291667, False),  # 48 DP
        (0.4, 0.396875, False),  # 64 DP
    ],
)
def test_gears_of_one_module_mesh(module: float, other: float, mesh: bool) -> None:
    assert do_mesh(module * MM, other * MM) is mesh
    assert do_mesh(other * MM, module * MM) is mesh


def test_worked_example_of_a_ring_of_130_teeth_and_a_gear_of_40() -> None:
    """i = 3.25; 270 deg of the ring are 877.5 deg of the motor; 0.20 N*m become 0.65 N*m; 1 deg of the motor is 0.307692
    deg of the ring (worked by hand from n1 z1 = n2 z2 and T2 = T1 i)."""
    ratio = compute_ratio(130, 40)

    assert ratio == 3.25
    assert math.degrees(compute_travel_time(math.radians(270.0), ratio, 1.0)) == pytest.approx(877.5)
    assert 0.20 * ratio == pytest.approx(0.65)
    assert 1.0 / ratio == pytest.approx(0.307692, abs=1e-6)


def test_travel_time() -> None:
    """877.5 deg at 900 deg/s."""
    assert compute_travel_time(math.radians(270.0), 3.25, math.radians(900.0)) == pytest.approx(0.975)


def test_a_wheel_of_330_deg() -> None:
    """At 1.2 ring lengths a full turn, 300 deg of wheel take the ring from end to end, and 30 deg are left over."""
    turn = math.radians(330.0)

    assert compute_coverage(1.2, turn) == pytest.approx(1.1)
    assert math.degrees(compute_leftover(1.2, turn)) == pytest.approx(30.0)
    assert compute_leftover(0.9, turn) == 0.0
    assert compute_leftover(0.0, turn) == 0.0


def test_steps_of_a_ring_and_of_a_wheel() -> None:
    """1000 steps a turn of the motor, 2.4375 turns for the ring; at one ring length a turn of the wheel, 2437.5 / 360
    steps a degree."""
    ring = compute_ring_steps(1000.0, 3.25, math.radians(270.0))

    assert ring == pytest.approx(2437.5)
    assert math.radians(compute_wheel_steps(ring, 1.0)) == pytest.approx(6.770833, rel=1e-6)


@pytest.mark.parametrize("diametral_pitch", [0.0, -32.0, math.nan])
def test_no_module_follows_from_no_pitch(diametral_pitch: float) -> None:
    with pytest.raises(ValueError, match="no module follows"):
        find_module(diametral_pitch)


def test_no_ratio_follows_without_teeth() -> None:
    with pytest.raises(ValueError, match="no ratio follows"):
        compute_ratio(130, 0)


def test_a_ring_gets_nowhere_without_speed() -> None:
    with pytest.raises(ValueError, match="gets nowhere"):
        compute_travel_time(1.0, 3.25, 0.0)
