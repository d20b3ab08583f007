"""A small library whose rigs a run may find unchanged, and runs of it that say how much was checked anew."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path

from rigmint.lint.cache_store import CacheStore
from rigmint.lint.results import Report
from rigmint.lint.run import check_paths
from rigmint.lint.run_memory import RunMemory

DAY = datetime.date(2026, 5, 2)
LIBRARY = "rigmint_library: 1\nparts: [parts]\n"
PART = "rigmint_part: 1\nid: house/plate\nkind: plate\nlike: generic/plate-wedge-two-tap\n"
BASE = """\
rigmint: 1
rig: Saltmarsh
kit: {battery: generic/battery-98wh-wedge, plate: house/plate, camera: generic/camera-compact}
docks: [battery.mount > plate.battery]
leads: {P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: camera.dc_in}}
"""
RIGS = {
    "a": BASE,
    "b": "rigmint: 1\nrig: B\nlike: a.rig.yaml\nkit: {lens: generic/lens-zoom}\n",
    "c": BASE.replace("rig: Saltmarsh", "rig: C\njob: Oat Field"),
    "d": BASE.replace("rig: Saltmarsh", "rig: D\njob: oat  field"),
    "e": BASE.replace("rig: Saltmarsh", "rig: E\njob: Tin Kite"),
    "broken": "rigmint: 1\nrig: [\n",
    "wrong": "rigmint: 1\nrig: W\nkit: {camera: generic/camera-kompact}\n",
}


def lay_down(folder: Path) -> Path:
    """The library, in a folder of its own."""
    (folder / "parts").mkdir(parents=True)
    (folder / "rigmint.yaml").write_text(LIBRARY, encoding="utf-8")
    (folder / "parts" / "plate.part.yaml").write_text(PART, encoding="utf-8")
    for name, text in RIGS.items():
        (folder / f"{name}.rig.yaml").write_text(text, encoding="utf-8")
    return folder


@dataclass(slots=True)
class Runs:
    """Runs that share a cache."""

    folder: Path
    cache: Path
    paths: tuple[str, ...] = (".",)

    def run(
        self,
        *,
        today: datetime.date = DAY,
        setup: str | None = None,
        prove: bool = False,
        house_checks: bool | None = None,
        fresh: bool = False,
    ) -> tuple[Report, int]:
        """The report, and how many files were checked for it."""
        checked = [0]

        def count(done: int, total: int) -> None:
            assert done <= total
            checked[0] = done

        report = check_paths(
            [self.folder / path for path in self.paths],
            library=None,
            today=today,
            setup=setup,
            prove=prove,
            house_checks=house_checks,
            memory=RunMemory(CacheStore(str(self.cache)), fresh=fresh),
            on_done=count,
        )
        return report, checked[0]
