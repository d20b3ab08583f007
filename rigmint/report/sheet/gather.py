"""Puts the page together from the studies of a rig and the findings of its check."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from rigmint.lint.results import FileReport
from rigmint.report.sheet.answers import gather_answers
from rigmint.report.sheet.card import gather_card
from rigmint.report.sheet.devices import gather_devices
from rigmint.report.sheet.power_section import gather_power
from rigmint.report.sheet.pull_list import gather_pull_list
from rigmint.report.sheet.settings_boxes import gather_settings
from rigmint.report.sheet.view import Sheet
from rigmint.rig.rig import Setup
from rigmint.study.studies import Studies
from rigmint.study.uses import find_uses

CONTENTS = (
    ("card", "Card"),
    ("plugging", "Meter and plug"),
    ("switching", "Switch on"),
    ("settings", "Settings"),
    ("change", "Live change"),
    ("fails", "If this fails"),
    ("drawings", "Drawings"),
    ("pull", "Pull list"),
    ("power", "Power"),
    ("answers", "Signed for, to check"),
    ("labels", "Labels"),
    ("devices", "Device by device"),
)
"""Section to its name in the list at the top, in the order of the page."""


@dataclass(frozen=True, slots=True)
class Imprint:
    """What stands at the foot: by whom, of what, when."""

    version: str
    today: str
    content: str
    revision: str


def gather_sheet(studies: Studies, report: FileReport, setups: Sequence[Setup], imprint: Imprint) -> Sheet:
    """The page of the setups named. Raises SolveFailed or BadCircuit where the circuit cannot be solved."""
    rig = studies.rig
    uses = [find_uses(studies, setup) for setup in setups]
    settings = gather_settings(rig, setups)
    return Sheet(
        file=rig.file,
        content=imprint.content,
        revision=imprint.revision,
        version=imprint.version,
        today=imprint.today,
        setups=tuple(setup.name for setup in setups),
        contents=CONTENTS,
        card=gather_card(studies, report, setups),
        plugging=(),
        switching=(),
        settings=settings,
        changes=(),
        fails=(),
        drawings=(),
        pull=gather_pull_list(rig, setups, uses),
        power=tuple(gather_power(studies, setup) for setup in setups),
        answers=gather_answers(rig, report, setups),
        labels=(),
        devices=gather_devices(rig, setups, uses, settings.boxes, ()),
        day=(),
        mass=(),
    )
