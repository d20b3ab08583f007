"""Free-space loss, the distance that a budget allows, and overlap of radio channels, against published values."""

import math

import pytest

from rigmint.physics.radio import SPEED_OF_LIGHT, compute_free_space_loss, compute_overlap, find_distance

P525_OFFSET = 20 * math.log10(4 * math.pi * 1e9 / SPEED_OF_LIGHT) - 32.4
"""dB: Recommendation ITU-R P.525 prints 32.4 + 20 log f(MHz) + 20 log d(km); the exact constant is 32.4478."""


@pytest.mark.parametrize(
    ("hertz", "metres", "printed"),
    [  # ITU-R P.525, by its formula as printed, with the constant 32.4
        (2.4e9, 100.0, 80.0042),
        (2.4e9, 2000.0, 106.0248),
        (2.45e9, 100.0, 80.1833),
        (5.18e9, 100.0, 86.6866),
        (5.5e9, 2000.0, 113.2279),
        (5.745e9, 100.0, 87.5858),
        (5.8e9, 100.0, 87.6686),
        (5.8e9, 2000.0, 113.6892),
    ],
)
def test_loss_is_that_of_p_525(hertz: float, metres: float, printed: float) -> None:
    assert compute_free_space_loss(metres, hertz) == pytest.approx(printed + P525_OFFSET, abs=1e-4)


@pytest.mark.parametrize(
    ("hertz", "metres", "published"),
    [
        (1e9, 1000.0, 92.44778322188337),  # documentation of the Python package `sdr`, free-space path loss
        (10e9, 10_000.0, 132.4478),  # documentation of `fspl` in a signal-processing toolbox
        (2.4e9, 100.0, 80.0520080561),  # pycraf, free-space loss
        (5.8e9, 2000.0, 113.7369430064),  # pycraf, free-space loss
    ],
)
def test_loss_is_that_of_other_programs(hertz: float, metres: float, published: float) -> None:
    assert compute_free_space_loss(metres, hertz) == pytest.approx(published, abs=5e-5)


def test_loss_grows_by_6_db_for_twice_the_distance() -> None:
    once, twice, ten = (compute_free_space_loss(metres, 2.4e9) for metres in (50.0, 100.0, 500.0))

    assert twice - once == pytest.approx(6.0206, abs=1e-4)
    assert ten - once == pytest.approx(20.0, abs=1e-9)


def test_loss_is_never_a_gain() -> None:
    """The formula holds in the far field; closer than a wavelength over 4 pi it would give a gain."""
    assert compute_free_space_loss(0.001, 2.4e9) == 0.0


@pytest.mark.parametrize(("metres", "hertz"), [(0.0, 2.4e9), (-1.0, 2.4e9), (100.0, 0.0), (math.nan, 2.4e9)])
def test_loss_refuses_what_is_no_distance(metres: float, hertz: float) -> None:
    with pytest.raises(ValueError, match="no loss follows"):
        compute_free_space_loss(metres, hertz)


def test_received_power_of_a_textbook_link() -> None:
    """50 W at 900 MHz, unity gains: -24.5 dBm at 100 m, -64.5 dBm at 10 km (T. S. Rappaport, Wireless Communications,
    from memory; the figures recompute)."""
    sent = 10 * math.log10(50_000)

    assert sent - compute_free_space_loss(100.0, 900e6) == pytest.approx(-24.5, abs=0.05)
    assert sent - compute_free_space_loss(10_000.0, 900e6) == pytest.approx(-64.5, abs=0.05)


@pytest.mark.parametrize("hertz", [868e6, 2.4e9, 5.8e9])
@pytest.mark.parametrize("metres", [10.0, 150.0, 3000.0])
def test_distance_is_the_inverse_of_loss(hertz: float, metres: float) -> None:
    assert find_distance(compute_free_space_loss(metres, hertz), hertz) == pytest.approx(metres, rel=1e-12)


def test_distance_refuses_no_frequency() -> None:
    with pytest.raises(ValueError, match="no distance follows"):
        find_distance(80.0, 0.0)


def centre_of(number: int) -> float:
    """Hz of a radio channel of IEEE 802.11 (17.3.8.3.2 and Annex J): 5 MHz steps from 2407 and from 5000 MHz."""
    if number == 14:
        return 2484e6
    return (2407 if number < 14 else 5000) * 1e6 + number * 5e6


@pytest.mark.parametrize(
    ("number", "megahertz"),
    [(1, 2412), (6, 2437), (11, 2462), (13, 2472), (36, 5180), (48, 5240), (149, 5745), (165, 5825)],
)
def test_centres_of_802_11(number: int, megahertz: int) -> None:
    """The table of centres that the next test rests on."""
    assert centre_of(number) == megahertz * 1e6


@pytest.mark.parametrize(
    ("first", "second", "shared_20", "shared_22"),
    [  # MHz by centre and width; 22 MHz is the width of the older direct-sequence channels
        (1, 6, 0, 0),  # "1, 6, 11 do not overlap": the common plan for 2.4 GHz
        (6, 11, 0, 0),
        (1, 5, 0, 2),  # touching at 20 MHz
        (1, 4, 5, 7),
        (1, 3, 10, 12),
        (1, 2, 15, 17),
        (13, 14, 8, 10),
        (40, 44, 0, 2),
        (6, 6, 20, 22),
    ],
)
def test_overlap_of_802_11(first: int, second: int, shared_20: int, shared_22: int) -> None:
    for width, shared in ((20e6, shared_20), (22e6, shared_22)):
        one, other = (centre_of(first), width), (centre_of(second), width)

        assert compute_overlap(one, other) == shared * 1e6
        assert compute_overlap(other, one) == shared * 1e6


def test_overlap_is_at_most_the_narrower_width() -> None:
    """A narrow channel inside a wide one is covered whole, and no more than that."""
    assert compute_overlap((2437e6, 20e6), (2440e6, 2e6)) == 2e6
    assert compute_overlap((2437e6, 20e6), (2447e6, 2e6)) == 1e6
    assert compute_overlap((2437e6, 20e6), (2448e6, 2e6)) == 0.0
