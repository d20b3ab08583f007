"""A length as a table of leads writes it: `1,5 m`, `6ft`, `6'`, `18"`, `5' 6"`, `3 metres`, or a bare number under a
heading that names its unit."""

from __future__ import annotations

import re

from rigmint.rig.quantity import QuantityError, parse_quantity

_WORDS = {
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "m": ("m", "metre", "metres", "meter", "meters", "mtr", "mtrs"),
    "ft": ("ft", "foot", "feet", "'", "\u2019", "\u2032"),
    "in": ("in", "inch", "inches", '"', "\u201d", "\u2033", "''"),
}
_UNITS = {word: unit for unit, words in _WORDS.items() for word in words}
_THOUSANDS = re.compile(r"\d,\d{3}(?!\d)")
_AMOUNT = re.compile(r"\s*(\d+(?:[.,]\d+)?|[.,]\d+)\s*([^\d\s.,]*)\.?\s*")
_INCHES_IN_A_FOOT = 12


def read_length(text: str, unit: str | None) -> tuple[str, float] | None:
    """As a rig file writes it, and in m; None for what is no length above zero with its unit, or may mean two
    lengths (`1,200 mm`). `unit`: what a bare number is in."""
    amounts = _split(text, unit) if not _THOUSANDS.search(text) else None
    if amounts is None:
        return None
    if len(amounts) == 1:
        number, found = amounts[0]
        written = f"{number:g} {found}"
    elif [found for _, found in amounts] == ["ft", "in"]:
        written = f"{amounts[0][0] * _INCHES_IN_A_FOOT + amounts[1][0]:g} in"
    else:
        return None
    try:
        metres = parse_quantity(written, "length")
    except QuantityError:
        return None
    return (written, metres) if metres > 0.0 else None


def _split(text: str, unit: str | None) -> list[tuple[float, str]] | None:
    """Numbers with their units, from the first letter to the last; None where something is left over."""
    amounts = []
    place = 0
    while place < len(text):
        match = _AMOUNT.match(text, place)
        found = (_UNITS.get(match[2].casefold()) if match[2] else unit) if match else None
        if match is None or found is None:
            return None
        amounts.append((float(match[1].replace(",", ".")), found))
        place = match.end()
    return amounts
