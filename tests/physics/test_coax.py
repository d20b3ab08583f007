"""Loss of coax at the frequencies at which serial digital picture is judged."""

import math

import pytest

from rigmint.physics.coax import compute_coax_loss

HALF_CLOCKS = (742.5e6, 1.485e9, 2.97e9, 5.94e9)
"""Hz: half the clock of SMPTE ST 292-1, ST 424, ST 2081-1 and ST 2082-1."""


def test_loss_grows_with_the_root_of_the_frequency() -> None:
    """Skin effect: by the square root of 2 for each doubling, to twice at four times the frequency."""
    losses = [compute_coax_loss(0.22, HALF_CLOCKS[0], hertz, 1.0) for hertz in HALF_CLOCKS]

    assert losses == pytest.approx([0.22, 0.22 * math.sqrt(2), 0.44, 0.22 * math.sqrt(8)])


def test_length_within_a_budget_of_20_db() -> None:
    """20 dB at 0.22 dB a metre is 90.9 m (common practice, charts of coax for ST 292-1)."""
    assert compute_coax_loss(0.22, 742.5e6, 742.5e6, 90.909) == pytest.approx(20.0, abs=1e-3)


@pytest.mark.parametrize(("at", "hertz"), [(0.0, 1e9), (1e9, 0.0), (-1e9, 1e9)])
def test_refuses_no_frequency(at: float, hertz: float) -> None:
    with pytest.raises(ValueError, match="no loss follows"):
        compute_coax_loss(0.22, at, hertz, 10.0)
