"""Quantities as a person writes them: an SI value back into the trade's unit in which it is shortest."""

from __future__ import annotations

from rigmint.rig.quantity import SAMPLES, UNITS


def show_quantity(value: float, kind: str | None) -> str:
    """`2700.0` of kind `duration` as `45 min`; a bare number where the kind is None."""
    if kind is None:
        return f"{value:g}"
    usual = SAMPLES[kind].split()[-1]
    written = [(f"{(value - unit.offset) / unit.factor:.6g}", name) for name, unit in UNITS[kind].items()]
    number, name = min(written, key=lambda pair: (len(pair[0]), pair[1] != usual))
    return f"{number} {name}"
