"""A stand-in for the engine, so that commands are tested for what they do themselves."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from rigmint.lint.results import Report


@dataclass(slots=True)
class Engine:
    """Gives back one report, and keeps what it was asked."""

    report: Report
    asked: list[dict[str, object]] = field(default_factory=list)

    def check_paths(
        self,
        paths: Sequence[Path],
        *,
        library: Path | None,
        today: datetime.date,
        setup: str | None,
        prove: bool,
        house_checks: bool | None = None,
        plan: bool = False,
    ) -> Report:
        """As `rigmint.lint.run.check_paths`."""
        asked = {"library": library, "today": today, "setup": setup, "prove": prove, "house_checks": house_checks}
        self.asked.append({"paths": tuple(paths), **asked, "plan": plan})
        return self.report
