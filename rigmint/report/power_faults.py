"""`power --faults`: what each single fault takes down, as text and as JSON."""

from __future__ import annotations

from collections.abc import Mapping

from rigmint.report.faults_told import list_harmless, tell_faults
from rigmint.report.layout import count, list_some, wrap
from rigmint.report.safe import clean
from rigmint.rig.rig import Rig
from rigmint.study.fault_outcome import FaultOutcome
from rigmint.study.faults import Faults

_INDENT = 2
_HANGING = 6
_MOST = 12


def render_faults_text(rig: Rig, faults: Mapping[str, Faults], width: int) -> str:
    """The whole text, by setup, ending in a newline."""
    lines = []
    for name, found in faults.items():
        told = tell_faults(rig, found)
        tried = count(len(found.outcomes), "single fault")
        lines += ["", f"{clean(name)}   {tried} tried, one at a time"]
        for one in told:
            lines += ["", *wrap(one.what, width, 0, _INDENT)]
            for head, text in (("goes", one.goes), ("stays", one.stays), ("then", one.after)):
                lines += wrap(f"{head}: {text}", width, _INDENT, _HANGING) if text else []
        harmless = list_harmless(found)
        if harmless:
            lines += ["", *wrap(f"Nothing else goes with: {list_some(harmless, _MOST)}.", width)]
    return "\n".join(lines[1:]) + "\n"


def show_faults(faults: Faults) -> list[dict[str, object]]:
    """Every fault of a setup for programs, in the order of the study."""
    return [_show(outcome) for outcome in faults.outcomes]


def _show(outcome: FaultOutcome) -> dict[str, object]:
    fault = outcome.fault
    return {
        "kind": fault.kind.value,
        "at": fault.place,
        "conductor": fault.conductor,
        "down": outcome.down,
        "axes": [
            {"axis": axis.name, "lost": [h.control for h in axis.lost], "left": [h.control for h in axis.left]}
            for axis in outcome.axes
        ],
        "flows": [{"flow": loss.flow, "item": loss.item} for loss in outcome.flows],
        "forgets": [{"item": one.item, "setting": one.setting, "value": one.value} for one in outcome.forgets],
        "moves": outcome.moves,
        "recalibrates": outcome.recalibrates,
        "returns": [
            {"item": one.item, "lead": one.lead, "amps": one.amps, "share": one.share} for one in outcome.shields
        ],
        "low": [{"port": one.ref.place, "volts": one.volts, "least": one.least} for one in outcome.low],
        "collapsed": outcome.collapsed,
        "heads": [{"item": head.item, "does": head.does} for head in outcome.heads],
    }
