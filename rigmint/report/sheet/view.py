"""What the page shows, section by section, gathered from the studies."""

from __future__ import annotations

from dataclasses import dataclass

from rigmint.report.labels import LeadLabel
from rigmint.report.sheet.answers import Answers
from rigmint.report.sheet.card import Card
from rigmint.report.sheet.devices import DeviceCard
from rigmint.report.sheet.drawings import Drawing
from rigmint.report.sheet.failures import Failures
from rigmint.report.sheet.live_changes import ChangeBox
from rigmint.report.sheet.plugging import Plugging
from rigmint.report.sheet.power_section import PowerView
from rigmint.report.sheet.pull_list import PullList
from rigmint.report.sheet.settings_boxes import SettingsView
from rigmint.report.sheet.switching import Switching


@dataclass(frozen=True, slots=True)
class Sheet:
    """The page. `setups`: those shown. `content`: a hash of what the rig file and its parts say."""

    file: str
    content: str
    revision: str
    version: str
    today: str
    setups: tuple[str, ...]
    contents: tuple[tuple[str, str], ...]
    card: Card
    plugging: tuple[Plugging, ...]
    switching: tuple[Switching, ...]
    settings: SettingsView
    changes: tuple[ChangeBox, ...]
    fails: tuple[Failures, ...]
    drawings: tuple[Drawing, ...]
    pull: PullList
    power: tuple[PowerView, ...]
    answers: Answers
    labels: tuple[LeadLabel, ...]
    devices: tuple[DeviceCard, ...]
    day: tuple[str, ...]
    mass: tuple[str, ...]
