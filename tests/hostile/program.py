"""The program as a person starts it, on a rig of three items."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

from tests.counts import TRIED

ROOT = Path(__file__).parents[2]
RIG = """\
rigmint: 1
rig: Saltmarsh
kit: {battery: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, camera: generic/camera-compact}
docks: [battery.mount > plate.battery]
leads: {P1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: camera.dc_in}}
"""
SCRIPT = "from rigmint.commands.entry import main; main()"
COMMAND = [sys.executable, "-c", SCRIPT]
SECONDS = 60


def make_environment(**more: str) -> dict[str, str]:
    """Without a cache, with rigmint from the checkout."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "RIGMINT_CACHE": "", **more}


def let_interrupts_come() -> None:
    """In the new process: an interrupt works, also where the tests themselves run in the background."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def run(
    folder: Path, *arguments: str | bytes, stdout: int = subprocess.PIPE, **more: str
) -> subprocess.CompletedProcess[bytes]:
    """The program's end. It never hangs, and shows no traceback."""
    TRIED["hostile runs of the program"] += 1
    ran = subprocess.run(
        [*COMMAND, *arguments],
        cwd=folder,
        env=make_environment(**more),
        stdout=stdout,
        stderr=subprocess.PIPE,
        timeout=SECONDS,
    )
    assert b"Traceback" not in ran.stderr
    assert b"broke off" not in ran.stderr
    assert ran.returncode in (0, 1, 2)
    return ran
