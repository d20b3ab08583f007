"""A stand-in for the engine, so that commands are tested for what they do themselves."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from rigmint.lint.check_files import OnDone
from rigmint.lint.results import Report
from rigmint.lint.run_memory import RunMemory


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
        memory: RunMemory | None = None,
        on_done: OnDone | None = None,
    ) -> Report:
        """As `rigmint.lint.run.check_paths`."""
        asked = {"library": library, "today": today, "setup": setup, "prove": prove, "house_checks": house_checks}
        self.asked.append({"paths": tuple(paths), **asked, "plan": plan})
        del memory, on_done  # what is remembered and what is shown on the way is tested with the real engine
        return self.report
