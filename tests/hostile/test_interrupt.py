"""Stopped at any moment, the program says so and leaves nothing behind. `RIGMINT_INTERRUPTS` sets how many moments."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import time
from pathlib import Path

from tests.counts import TRIED
from tests.hostile.program import COMMAND, RIG, let_interrupts_come, make_environment

MOMENTS = int(os.environ.get("RIGMINT_INTERRUPTS", "12"))
FAULTY = RIG.replace("from: plate.tap_1", "from: plate.tap_1, length: 90 m")
RUNS = {
    "check": ("check", ".", "--out", "made.txt"),
    "mend": ("mend", "a.rig.yaml"),
    "sheet": ("sheet", "a.rig.yaml", "--out", "made.txt"),
}
_START = 0.15
"""s in which Python itself starts, where an interrupt is answered by Python."""


def test_stopped_at_any_moment(tmp_path: Path) -> None:
    seed = random.randrange(2**32)
    chance = random.Random(seed)
    rig = tmp_path / "a.rig.yaml"
    for number in range(4):
        (tmp_path / f"b{number}.rig.yaml").write_text(FAULTY, encoding="utf-8")
    stopped = 0
    for moment in range(MOMENTS):
        name = list(RUNS)[moment % len(RUNS)]
        rig.write_text(FAULTY, encoding="utf-8")
        (tmp_path / "made.txt").unlink(missing_ok=True)
        before = set(os.listdir(tmp_path))
        running = subprocess.Popen(
            [*COMMAND, *RUNS[name]],
            cwd=tmp_path,
            env=make_environment(RIGMINT_PROCESSES="2"),
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            preexec_fn=let_interrupts_come,
            start_new_session=True,
        )
        time.sleep(_START + chance.random() * 1.6)
        running.send_signal(signal.SIGINT)
        _, said = running.communicate(timeout=60)
        where = f"{name} with seed {seed}, moment {moment}: {said.decode()}"
        TRIED["moments of an interrupt"] += 1

        assert b"Traceback" not in said, where
        assert running.returncode in (0, 1, 2), where
        left = set(os.listdir(tmp_path)) - before
        if running.returncode == 2 and b"Stopped" in said:
            stopped += 1
            assert left in (set(), {"made.txt"}), where
        assert not [one for one in left if one != "made.txt"], where
        assert rig.read_text().startswith("rigmint: 1\n"), where
        assert rig.read_text().rstrip().endswith("}"), where
        _expect_no_process(running.pid, where)
    assert stopped > 0


def _expect_no_process(group: int, where: str) -> None:
    deadline = time.monotonic() + 10
    while time.monotonic() < deadline:
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return
        time.sleep(0.05)
    raise AssertionError(f"a process is left: {where}")
