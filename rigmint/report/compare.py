"""What a change does, for a person: findings first, then kit, settings, volts, hands, picture, reach, runtime."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from rigmint.lint.compare import Comparison, FindingChange, Turn
from rigmint.lint.wording import say_minutes, say_volts
from rigmint.report.layout import INDENT, count, lay_head, wrap
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.study.compared.arrivals import Arrival
from rigmint.study.compared.hands import Hold
from rigmint.study.compared.kit import KitChange
from rigmint.study.compared.moved import Moved
from rigmint.study.compared.reach import Span
from rigmint.study.compared.rigs import RigDifference
from rigmint.study.compared.volts import PortMove
from rigmint.words import CAUTIONS

_HEADS = {
    Turn.GAINED: "Findings gained",
    Turn.WORSE: "Findings that became worse",
    Turn.MILDER: "Findings that became milder",
    Turn.LOST: "Findings lost",
}
_INDENT = 2
_HANGING = 6
_MOST_PORTS = 10


def render_comparison(comparison: Comparison, style: Style) -> str:
    """The whole text, ending in a newline."""
    lines = [f"{clean(comparison.old)} > {clean(comparison.new)}"]
    if comparison.is_empty:
        lines += ["", *wrap("The change does nothing that is computed here: same findings, volts, hands.", style.width)]
    for turn, head in _HEADS.items():
        lines += _lay_findings(head, [one for one in comparison.findings if one.turn is turn], style)
    lines += list_differences(comparison.rigs, style.width)
    lines += [line for crash in comparison.crashes for line in ("", *wrap(f"unread  {crash.says}", style.width))]
    lines += ["", *wrap(CAUTIONS[0], style.width)]
    return "\n".join(lines) + "\n"


def list_differences(rigs: RigDifference, width: int, *, with_kit: bool = True) -> list[str]:
    """The lines of what the studies see differently, a block each."""
    blocks: list[tuple[str, Iterable[str]]] = [
        ("Setups", _list_setups(rigs)),
        ("Kit and leads", map(_say_kit, rigs.kit if with_kit else ())),
        ("Settings", (_say_words(move, "not stated") for move in rigs.settings)),
        ("Who is meant to have what", (_say_words(move, "not said") for move in rigs.intentions)),
        ("Volts, at typical load and at the change of the battery", _list_volts(rigs.volts)),
        ("Hands", map(_say_hand, rigs.hands)),
        ("Picture and other flows", map(_say_arrival, rigs.arrivals)),
        ("Radio", map(_say_reach, rigs.reaches)),
        ("Mass", map(_say_mass, rigs.masses)),
        ("Batteries", [*map(_say_runtime, rigs.runtimes), *map(_say_change_volts, rigs.change_volts)]),
    ]
    lines = []
    for head, sentences in blocks:
        told = [line for sentence in sentences for line in wrap(sentence, width, _INDENT, _HANGING)]
        lines += ["", head, *told] if told else []
    return lines


def _lay_findings(head: str, changes: Sequence[FindingChange], style: Style) -> list[str]:
    if not changes:
        return []
    lines = ["", f"{head}: {len(changes)}"]
    for change in changes:
        finding = change.finding
        was = f" (was {change.before.value})" if change.before is not None else ""
        left = f"{finding.grade.value:<{INDENT - 1}} {clean(finding.code)}{was}"
        place = f"line {change.position.line}, {', '.join(change.setups)}"
        first, *rest = lay_head(left, place, style.width, INDENT)
        lines += [style.paint(finding.grade.value, finding.grade) + first[len(finding.grade.value) :], *rest]
        lines += wrap(finding.says, style.width, INDENT)
    return lines


def _list_setups(rigs: RigDifference) -> Iterator[str]:
    yield from (f"{name} is new" for name in rigs.setups_gained)
    yield from (f"{name} is gone" for name in rigs.setups_lost)


def _say_kit(change: KitChange) -> str:
    if change.before is None:
        return f"in: {change.kind} {change.name}: {change.after}"
    if change.after is None:
        return f"out: {change.kind} {change.name}: {change.before}"
    return f"{change.kind} {change.name}: {change.before} > {change.after}"


def _say_words(move: Moved[str, str], nothing: str) -> str:
    return f"{move.key}: {move.before or nothing} > {move.after or nothing}{_name_setups(move.setups)}"


def _list_volts(moves: Sequence[PortMove]) -> Iterator[str]:
    """What takes power, those that move most first, with all setups in which it moves alike as far as the printed
    digits go; the sockets on the way only counted."""
    setups: dict[str, list[str]] = {}
    for move in moves:
        if move.after.spare is not None or move.before.spare is not None:
            setups.setdefault(_say_volts(move), []).append(move.setup)
    told = [f"{said}{_name_setups(names)}" for said, names in setups.items()]
    yield from told[:_MOST_PORTS]
    others = len({move.place for move in moves}) - len(told[:_MOST_PORTS])
    if others > 0:
        yield f"{count(others, 'other port')} on the way {'moves' if others == 1 else 'move'} by no more"


def _say_volts(move: PortMove) -> str:
    before, after = move.before, move.after
    parts = [f"{say_volts(before.typical)} > {say_volts(after.typical)}"]
    if before.change is not None and after.change is not None:
        parts.append(f"at change {say_volts(before.change)} > {say_volts(after.change)}")
    elif before.change != after.change:
        parts.append("at change it now collapses" if after.change is None else "at change it no longer collapses")
    if after.spare is not None:
        parts.append(f"{say_volts(abs(after.spare))} {'over' if after.spare >= 0 else 'under'} what it needs")
    return f"{move.place}: {', '.join(parts)}"


def _say_hand(move: Moved[tuple[str, str], Hold]) -> str:
    axis, control = move.key
    held = move.after or move.before
    who = held.person or "by hand" if held is not None else ""
    if move.before is None:
        said = f"gained: {axis} by {control}, {who}{_say_hold(move.after)}"
    elif move.after is None:
        said = f"lost: {axis} by {control}, {who}"
    else:
        was = f"{move.before.person or 'by hand'}{_say_hold(move.before)}"
        said = f"{axis} by {control}: {was} > {who}{_say_hold(move.after)}"
    return said + _name_setups(move.setups)


def _say_hold(hold: Hold | None) -> str:
    if hold is None:
        return ""
    return f", {hold.arrives.value}" + (f", reaches {hold.reach:.3g} m" if hold.reach is not None else "")


def _say_arrival(move: Moved[tuple[str, str], Arrival]) -> str:
    flow, place = move.key
    if move.before is None or move.after is None:
        held = move.after or move.before
        source = f" from {held.maker}" if held is not None else ""
        return f"{'gained' if move.before is None else 'lost'}: {flow} at {place}{source}{_name_setups(move.setups)}"
    was, now = (_say_way(one) for one in (move.before, move.after))
    return f"{flow} at {place}: {was} > {now}{_name_setups(move.setups)}"


def _say_way(arrival: Arrival) -> str:
    parts = [f"from {arrival.maker}", *([arrival.format] if arrival.format is not None else [])]
    return ", ".join([*parts, f"{1000 * arrival.latency:.0f} ms late"])


def _say_reach(move: Moved[tuple[str, str, str], Span]) -> str:
    link, hub, other = move.key
    was, now = (_say_span(span) for span in (move.before, move.after))
    return f"{link}, {hub} to {other}: {was} > {now}{_name_setups(move.setups)}"


def _say_span(span: Span | None) -> str:
    if span is None:
        return "not there"
    reach = f"reaches {span.reach:.3g} m" if span.reach is not None else "reach not known"
    return reach + (f" of {span.distance:.3g} m wanted" if span.distance is not None else "")


def _say_runtime(move: Moved[str, float]) -> str:
    was, now = (
        say_minutes(seconds) if seconds is not None else "gives nothing" for seconds in (move.before, move.after)
    )
    return f"{move.key}: {was} > {now}{_name_setups(move.setups)}"


def _say_change_volts(move: Moved[str, float]) -> str:
    was, now = (say_volts(volts) if volts is not None else "not shown" for volts in (move.before, move.after))
    return f"change over at {move.key}: {was} > {now}{_name_setups(move.setups)}"


def _say_mass(move: Moved[tuple[str, str], float]) -> str:
    carrier, stage = move.key
    name = carrier if stage == "all" else f"{carrier}, {stage}"
    was, now = move.before or 0.0, move.after or 0.0
    more = "more" if now > was else "less"
    change = f"{1000 * abs(now - was):.0f} g {more}, {was:.2f} kg > {now:.2f} kg"
    return f"{name} carries {change}: rebalance{_name_setups(move.setups)}"


def _name_setups(setups: Sequence[str]) -> str:
    return f"   ({', '.join(setups)})"
