"""What the flags of a line say: label, volts and source, what passes, distance."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from rigmint.lint.wording import say_metres
from rigmint.report.draw.model import Flag, Mark
from rigmint.report.draw.sizes import FIGURE, MOST_FIGURE, MOST_ROW, ROW
from rigmint.report.draw.text import cut, fold
from rigmint.report.layout import show_tenths
from rigmint.rig.rig import PortRef
from rigmint.study.layers import Layer
from rigmint.study.uses import Use

_MOST_ROWS = 3


def find_volts(uses: Iterable[Use], refs: Sequence[PortRef]) -> tuple[float, float] | None:
    """The lowest and highest V over the setups at the first of the ports that shows any."""
    found = list(uses)
    for ref in refs:
        volts = [use.volts[ref] for use in found if ref in use.volts]
        if volts:
            return min(volts), max(volts)
    return None


def say_range(volts: tuple[float, float]) -> str:
    """`14.1 V`, or `13.8 to 14.1 V` where setups differ."""
    low, high = (show_tenths(value) for value in volts)
    return f"{low} V" if low == high else f"{low} to {high} V"


def make_power_flag(
    label: str, uses: Sequence[Use], volts: tuple[float, float] | None, marks: tuple[Mark, ...]
) -> Flag:
    """Volts at typical and the source that feeds the lead."""
    sources = list(dict.fromkeys(source for use in uses for source in use.sources))
    if volts is None:
        return Flag(label, "no volts", (), marks)
    says = ", ".join(sources) if sources else "no source"
    return Flag(
        label, cut(say_range(volts), MOST_FIGURE, FIGURE, bold=True), tuple(fold(says, MOST_ROW, ROW, most=2)), marks
    )


def make_signal_flag(label: str, uses: Sequence[Use], layers: Iterable[Layer], marks: tuple[Mark, ...]) -> Flag:
    """The axes and flows that use the lead; else the protocols that pass."""
    says = say_traffic(uses, layers)
    return Flag(label, "", tuple(fold(says, MOST_ROW, ROW, most=_MOST_ROWS)), marks)


def say_traffic(uses: Sequence[Use], layers: Iterable[Layer]) -> str:
    """`pan tilt roll record`, `picture 1080p25`, a protocol that nothing uses yet, or `nothing passes`."""
    shown = set(layers)
    words: dict[str, None] = {}
    for use in uses:
        if Layer.CONTROL in shown:
            words |= dict.fromkeys([*use.axes, *(flow for flow in use.flows if flow == "range")])
        if Layer.PICTURE in shown:
            for flow in use.flows:
                if flow != "range":
                    words |= dict.fromkeys([flow, *(use.formats if flow == "picture" else ())])
    if words:
        return " ".join(words)
    protocols = dict.fromkeys(name for use in uses for name in use.protocols)
    return f"unused {' '.join(protocols)}" if protocols else "nothing passes"


def make_link_flag(
    label: str, distances: Mapping[str, float | None], uses: Sequence[Use], layers: Iterable[Layer], channel: str | None
) -> Flag:
    """Distance, channel, and what goes over it. `distances`: by setup, m."""
    known = sorted({distance for distance in distances.values() if distance is not None})
    figure = "no distance"
    if known:
        texts = list(dict.fromkeys(say_metres(distance) for distance in (known[0], known[-1])))
        figure = " to ".join(texts)
    rows = fold(say_traffic(uses, layers), MOST_ROW, ROW, most=_MOST_ROWS)
    if channel is not None:
        rows.append(cut(f"channel {channel}", MOST_ROW, ROW))
    return Flag(label, cut(figure, MOST_FIGURE, FIGURE, bold=True), tuple(rows))
