"""The machine-readable output of `misplug`, by its contract."""

from __future__ import annotations

from rigmint.report.json import to_json
from rigmint.report.misplug_groups import sort_misplugs
from rigmint.rig.rig import Rig
from rigmint.study.misplug.outcome import Misplug
from rigmint.study.misplug.study import MisplugStudy


def render_misplug_json(version: str, rig: Rig, study: MisplugStudy) -> str:
    """The object of `misplug`. V."""
    misplugs = [_show(one) for one in sort_misplugs(rig, study.misplugs)]
    return to_json({"rigmint": version, "file": rig.file, "tried": study.tried, "misplugs": misplugs})


def _show(misplug: Misplug) -> dict[str, object]:
    mistake = misplug.mistake
    return {
        "how": mistake.how,
        "lead": mistake.lead,
        "end": mistake.end,
        "meant": mistake.meant,
        "into": mistake.into.place,
        "same_place": mistake.same_place,
        "setups": misplug.setups,
        "outcome": misplug.outcome,
        "port": misplug.port.place,
        "volts": misplug.volts,
    }
