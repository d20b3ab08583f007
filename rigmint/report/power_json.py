"""The machine-readable output of `power`, by its contract."""

from __future__ import annotations

from rigmint.report.json import to_json
from rigmint.report.power_faults import show_faults
from rigmint.report.power_setup import PowerReport, SetupPower
from rigmint.study.power import PointPower


def render_power_json(version: str, report: PowerReport) -> str:
    """The object of `power`. V, A, W, s."""
    setups = {name: _show_setup(setup) for name, setup in report.setups.items()}
    return to_json({"rigmint": version, "file": report.rig.file, "setups": setups, "assumed": report.assumed})


def _show_setup(shown: SetupPower) -> dict[str, object]:
    return {
        **{point.value: _show_point(power) for point, power in shown.power.points.items()},
        "runtime": shown.runtime.seconds,
        "change_volts": {ref.place: volts for ref, volts in shown.runtime.change_volts.items()},
        **({"faults": show_faults(shown.faults)} if shown.faults is not None else {}),
    }


def _show_point(power: PointPower) -> dict[str, object]:
    return {
        "solved": power.solved,
        "collapsed": power.collapsed,
        "margin": power.margin,
        "ports": {
            ref.place: {"volts": port.volts, "amps": port.amps, "watts": port.watts}
            for ref, port in power.ports.items()
        },
        "leads": {label: {"amps": lead.amps, "drop": lead.drop} for label, lead in power.leads.items()},
        "sources": {
            place: {"volts": source.volts, "amps": source.amps, "watts": source.watts}
            for place, source in power.sources.items()
        },
    }
