"""Picture formats and the rates that they need, against the standards' rasters and nominal serial rates."""

import pytest

from rigmint.physics.rasters import BITS_PER_SAMPLE, Raster, are_same_format, find_bit_rate, parse_format

NTSC = 1000 / 1001


@pytest.mark.parametrize(
    ("text", "samples", "lines", "frames"),
    [  # total samples and lines: SMPTE ST 274 and ST 296, ITU-R BT.709 and BT.601; the 720, 1080 and 2160 rows agree
        # with the CTA-861 timings as `edid-decode` and the Linux header v4l2-dv-timings.h give them
        ("576i25", 864, 625, 25),
        ("480i29.97", 858, 525, 30 * NTSC),
        ("720p50", 1980, 750, 50),
        ("720p60", 1650, 750, 60),
        ("1080i50", 2640, 1125, 25),
        ("1080i60", 2200, 1125, 30),
        ("1080psf25", 2640, 1125, 25),
        ("1080p23.976", 2750, 1125, 24 * NTSC),
        ("1080p24", 2750, 1125, 24),
        ("1080p25", 2640, 1125, 25),
        ("1080p29.97", 2200, 1125, 30 * NTSC),
        ("1080p30", 2200, 1125, 30),
        ("1080p50", 2640, 1125, 50),
        ("1080p59.94", 2200, 1125, 60 * NTSC),
        ("1080p60", 2200, 1125, 60),
        ("2160p24", 5500, 2250, 24),
        ("2160p25", 5280, 2250, 25),
        ("2160p30", 4400, 2250, 30),
        ("2160p50", 5280, 2250, 50),
        ("2160p59.94", 4400, 2250, 60 * NTSC),
        ("2160p60", 4400, 2250, 60),
    ],
)
def test_rate_is_that_of_the_raster(text: str, samples: int, lines: int, frames: float) -> None:
    assert find_bit_rate(text) == pytest.approx(samples * lines * frames * BITS_PER_SAMPLE, rel=1e-9)


@pytest.mark.parametrize(
    ("nominal", "texts"),
    [
        (270e6, ("576i25", "480i29.97")),  # SMPTE ST 259, level C
        (1.485e9, ("720p50", "720p60", "1080i50", "1080i60", "1080p24", "1080p25", "1080p30", "1080psf25")),  # ST 292-1
        (2.97e9, ("1080p50", "1080p60")),  # SMPTE ST 424
        (5.94e9, ("2160p24", "2160p25", "2160p30")),  # SMPTE ST 2081-1
        (11.88e9, ("2160p50", "2160p60")),  # SMPTE ST 2082-1
    ],
)
def test_rate_is_the_nominal_one_of_its_interface(nominal: float, texts: tuple[str, ...]) -> None:
    for text in texts:
        assert find_bit_rate(text) == nominal


@pytest.mark.parametrize(
    ("text", "published"),
    # The rates divided by 1.001, as they are printed for ST 292-1, ST 424 and ST 2082-1.
    [
        ("1080p23.976", 1.4835165e9),
        ("1080p29.97", 1.4835165e9),
        ("1080p59.94", 2.9670330e9),
        ("2160p59.94", 11.8681319e9),
    ],
)
def test_rate_over_1_001(text: str, published: float) -> None:
    assert find_bit_rate(text) == pytest.approx(published, rel=1e-7)


@pytest.mark.parametrize(
    "text", ["1080", "1080p", "1080x25", "p25", "1080p25 ", "1080P25", "4kp25", "1080p2.5", "none", ""]
)
def test_refuses_what_is_no_format(text: str) -> None:
    assert parse_format(text) is None
    assert find_bit_rate(text) is None


@pytest.mark.parametrize("text", ["1080p26", "1080p24.5", "1080p29.5", "1234p25", "2160p100", "480p60"])
def test_gives_no_rate_for_a_raster_that_no_standard_holds(text: str) -> None:
    assert parse_format(text) is not None
    assert find_bit_rate(text) is None


@pytest.mark.parametrize(
    ("text", "raster"),
    [
        ("1080i50", Raster(1080, "i", 25.0)),  # interlaced formats are named by fields or by frames
        ("1080i25", Raster(1080, "i", 25.0)),
        ("1080i59.94", Raster(1080, "i", 30 * NTSC)),
        ("1080i29.97", Raster(1080, "i", 30 * NTSC)),
        ("1080p50", Raster(1080, "p", 50.0)),
        ("1080psf23.98", Raster(1080, "psf", 24 * NTSC)),
    ],
)
def test_reads_scan_and_frames(text: str, raster: Raster) -> None:
    assert parse_format(text) == raster


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("1080i50", "1080i25", True),
        ("1080p23.98", "1080p23.976", True),
        ("raw", "raw", True),
        ("1080p25", "1080psf25", False),
        ("1080p24", "1080p23.976", False),
        ("1080p25", "raw", False),
        ("raw", "log", False),
    ],
)
def test_knows_two_names_of_one_format(one: str, other: str, same: bool) -> None:
    assert are_same_format(one, other) is same
