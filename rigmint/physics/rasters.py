"""Picture formats and the bit rate that a serial link needs for them."""

import re
from dataclasses import dataclass

BITS_PER_SAMPLE = 20
"""Y'CbCr 4:2:2 with 10 bit: the clock is 1/20 of the serial rate."""

_FORMAT = re.compile(r"(\d{3,4})(p|i|psf)(\d{2,3}(?:\.\d{1,3})?)")
_NTSC = {"23.976": 24000 / 1001, "23.98": 24000 / 1001, "29.97": 30000 / 1001, "47.952": 48000 / 1001,
         "59.94": 60000 / 1001, "119.88": 120000 / 1001}  # fmt: skip

# Total samples a line and total lines, blanking included: SMPTE ST 274 and ST 296, ITU-R BT.601 and BT.709, and twice
# the 1080 raster each way for 2160. By lines, then by the nearest whole frame rate.
_TOTAL_LINES = {480: 525, 576: 625, 720: 750, 1080: 1125, 2160: 2250}
_TOTAL_SAMPLES = {
    480: {30: 858},
    576: {25: 864},
    720: {24: 4125, 25: 3960, 30: 3300, 50: 1980, 60: 1650},
    1080: {24: 2750, 25: 2640, 30: 2200, 48: 2750, 50: 2640, 60: 2200},
    2160: {24: 5500, 25: 5280, 30: 4400, 48: 5500, 50: 5280, 60: 4400},
}


@dataclass(frozen=True, slots=True)
class Raster:
    """A picture format: visible lines, scan, frames a second."""

    lines: int
    scan: str
    frames: float

    def compute_bit_rate(self) -> float | None:
        """Total samples a line x lines x frames x bits, in bit/s; None for a raster that no standard here holds."""
        whole = round(self.frames)
        samples = _TOTAL_SAMPLES.get(self.lines, {}).get(whole)
        if samples is None or self.frames not in (whole, whole * 1000 / 1001):
            return None
        return samples * _TOTAL_LINES[self.lines] * self.frames * BITS_PER_SAMPLE


def parse_format(text: str) -> Raster | None:
    """`1080p25`, `1080i50`, `1080psf23.98`: lines, `p`, `i` or `psf`, frames a second; None for anything else.

    Interlaced formats are often named by fields: above 45 they are halved.
    """
    match = _FORMAT.fullmatch(text)
    if match is None:
        return None
    frames = _NTSC.get(match[3], float(match[3]))
    if match[2] == "i" and frames > 45:
        frames /= 2
    return Raster(int(match[1]), match[2], frames)


def find_bit_rate(text: str) -> float | None:
    """bit/s that a format needs; None where the text is no format or no standard here holds its raster."""
    raster = parse_format(text)
    return raster.compute_bit_rate() if raster is not None else None


def are_same_format(one: str, other: str) -> bool:
    """Whether two names mean one format: `1080i50` and `1080i25`, `1080p23.98` and `1080p23.976`."""
    raster = parse_format(one)
    return one == other or (raster is not None and raster == parse_format(other))
