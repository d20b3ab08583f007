"""How long each battery lasts by itself: the study of the whole rig ends at the first change of all."""

from __future__ import annotations

from collections.abc import Mapping

from rigmint.study.runtime import Runtime
from rigmint.study.worst_volts import WorstVolts


def list_own_runtimes(runtime: Runtime, volts: WorstVolts, change_at: float) -> Mapping[str, float | None]:
    """Item to s until its own change, None where it gives no current. A battery that is not there yet when the study
    ends is taken to go on as it did; one that feeds a port that has left its window ends with it."""
    return {item: _find_own(item, seconds, runtime, volts, change_at) for item, seconds in runtime.seconds.items()}


def find_failing_battery(runtime: Runtime, volts: WorstVolts) -> str | None:
    """The battery that feeds the port that left its window, where that ended the study."""
    reach = volts.ports[runtime.failed].high if runtime.failed is not None else None
    return reach.source.item if reach is not None else None


def _find_own(item: str, seconds: float | None, runtime: Runtime, volts: WorstVolts, change_at: float) -> float | None:
    used = 1.0 - runtime.left[item]
    if seconds is None or used <= 0.0 or find_failing_battery(runtime, volts) == item:
        return seconds
    return seconds * max(1.0, (1.0 - change_at) / used)
