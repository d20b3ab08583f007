"""`compare` for programs: SI units, places as in the rig file; null where something is not there."""

from __future__ import annotations

from collections.abc import Iterable

from rigmint.lint.compare import Comparison, FindingChange
from rigmint.lint.stand_ins import StandIn, StandIns
from rigmint.report.json import to_json
from rigmint.study.compared.arrivals import Arrival
from rigmint.study.compared.hands import Hold
from rigmint.study.compared.moved import Moved
from rigmint.study.compared.reach import Span
from rigmint.study.compared.rigs import RigDifference
from rigmint.study.compared.volts import PortMove, PortState


def render_comparison_json(version: str, comparison: Comparison) -> str:
    """The object of `compare`."""
    shown = _show_comparison(comparison)
    return to_json({"rigmint": version, "old": comparison.old, "new": comparison.new, **shown})


def render_stand_ins_json(version: str, file: str, found: StandIns) -> str:
    """The object of `compare --stand-in`."""
    return to_json(
        {
            "rigmint": version,
            "file": file,
            "item": found.item,
            "part": found.part.id,
            "stand_ins": [_show_stand_in(one) for one in (*found.whole, *found.lossy)],
            "unfit": [{"part": one.part.id, "lacking": one.lacking} for one in found.unfit],
        }
    )


def _show_stand_in(one: StandIn) -> dict[str, object]:
    return {
        "part": one.part.id,
        "lost": one.losses,
        "renamed": dict(one.renamed),
        "settings_dropped": one.dropped,
        **_show_comparison(one.comparison),
    }


def _show_comparison(comparison: Comparison) -> dict[str, object]:
    return {"findings": [_show_finding(one) for one in comparison.findings], **_show_rigs(comparison.rigs)}


def _show_finding(change: FindingChange) -> dict[str, object]:
    finding = change.finding
    return {
        "turn": change.turn.value,
        "code": finding.code,
        "grade": finding.grade.value,
        "was": change.before.value if change.before is not None else None,
        "says": finding.says,
        "at": finding.at,
        "cause": finding.cause,
        "line": change.position.line,
        "column": change.position.column,
        "setups": change.setups,
    }


def _show_rigs(rigs: RigDifference) -> dict[str, object]:
    return {
        "setups": {"gained": rigs.setups_gained, "lost": rigs.setups_lost},
        "kit": [{"kind": c.kind, "name": c.name, "before": c.before, "after": c.after} for c in rigs.kit],
        "settings": [_show_words("setting", move) for move in rigs.settings],
        "meant": [_show_words("axis", move) for move in rigs.intentions],
        "volts": [_show_port(move) for move in rigs.volts],
        "hands": [
            {
                "axis": move.key[0],
                "control": move.key[1],
                "before": _show_hold(move.before),
                "after": _show_hold(move.after),
                "setups": move.setups,
            }
            for move in rigs.hands
        ],
        "flows": [
            {
                "flow": move.key[0],
                "at": move.key[1],
                "before": _show_arrival(move.before),
                "after": _show_arrival(move.after),
                "setups": move.setups,
            }
            for move in rigs.arrivals
        ],
        "radio": [
            {
                "link": move.key[0],
                "between": move.key[1:],
                "before": _show_span(move.before),
                "after": _show_span(move.after),
                "setups": move.setups,
            }
            for move in rigs.reaches
        ],
        "runtime": _show_numbers("item", rigs.runtimes),
        "mass": [
            {"carrier": m.key[0], "stage": m.key[1], "before": m.before, "after": m.after, "setups": m.setups}
            for m in rigs.masses
        ],
        "change_volts": _show_numbers("port", rigs.change_volts),
    }


def _show_words(name: str, move: Moved[str, str]) -> dict[str, object]:
    return {name: move.key, "before": move.before, "after": move.after, "setups": move.setups}


def _show_numbers(name: str, moves: Iterable[Moved[str, float]]) -> list[dict[str, object]]:
    return [{name: m.key, "before": m.before, "after": m.after, "setups": m.setups} for m in moves]


def _show_port(move: PortMove) -> dict[str, object]:
    return {
        "port": move.place,
        "setup": move.setup,
        "before": _show_state(move.before),
        "after": _show_state(move.after),
    }


def _show_state(state: PortState) -> dict[str, object]:
    return {"typical": state.typical, "change": state.change, "spare": state.spare}


def _show_hold(hold: Hold | None) -> dict[str, object] | None:
    return {"person": hold.person, "arrives": hold.arrives.value, "reach": hold.reach} if hold is not None else None


def _show_arrival(arrival: Arrival | None) -> dict[str, object] | None:
    if arrival is None:
        return None
    return {"from": arrival.maker, "format": arrival.format, "latency": arrival.latency}


def _show_span(span: Span | None) -> dict[str, object] | None:
    return {"reach": span.reach, "distance": span.distance} if span is not None else None
