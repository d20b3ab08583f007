"""Puts the page together from the studies of a rig and the findings of its check."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigmint.lint.results import FileReport
from rigmint.report.labels import list_labels
from rigmint.report.sheet.answers import gather_answers
from rigmint.report.sheet.card import gather_card
from rigmint.report.sheet.carried import list_carried, list_day
from rigmint.report.sheet.devices import gather_devices
from rigmint.report.sheet.drawings import gather_drawings
from rigmint.report.sheet.failures import gather_failures
from rigmint.report.sheet.live_changes import gather_changes
from rigmint.report.sheet.plugging import gather_plugging
from rigmint.report.sheet.power_section import gather_power
from rigmint.report.sheet.pull_list import gather_pull_list
from rigmint.report.sheet.settings_boxes import gather_settings
from rigmint.report.sheet.switching import gather_switching
from rigmint.report.sheet.view import Sheet
from rigmint.study.studies import Studies
from rigmint.study.uses import Uses

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


def gather_sheet(studies: Studies, report: FileReport, uses: Mapping[str, Uses], imprint: Imprint) -> Sheet:
    """The page of the setups that `uses` names."""
    rig = studies.rig
    setups = [rig.setups[name] for name in uses]
    settings = gather_settings(rig, setups)
    changes = gather_changes(studies, setups)
    return Sheet(
        file=rig.file,
        content=imprint.content,
        revision=imprint.revision,
        version=imprint.version,
        today=imprint.today,
        setups=tuple(uses),
        contents=CONTENTS,
        card=gather_card(studies, report, setups),
        plugging=gather_plugging(studies, uses),
        switching=gather_switching(studies, setups),
        settings=settings,
        changes=changes,
        fails=gather_failures(studies, setups),
        drawings=gather_drawings(rig, uses, report.findings),
        pull=gather_pull_list(rig, setups, tuple(uses.values())),
        power=tuple(gather_power(studies, setup) for setup in setups),
        answers=gather_answers(rig, report, setups),
        labels=list_labels(rig, uses, studies.house),
        devices=gather_devices(rig, setups, tuple(uses.values()), settings.boxes, changes),
        day=list_day(studies, setups),
        mass=list_carried(studies, setups),
    )
