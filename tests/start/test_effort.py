"""What it takes to get a rig of twenty items from the questions alone: keys and answers, typed at a terminal."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.start.questions import QUESTIONS

RUN = "import sys; from rigmint.commands import main; main()"
COMMAND = "rigmint start rig car\n"
TYPED = "ve\n3\n" + "\n" * (len(QUESTIONS) - 2)
MOST_KEYS = 40
MOST_ANSWERS = 12


def start_at_a_terminal(folder: Path, typed: str) -> subprocess.CompletedProcess[str]:
    """`start rig car`, typed at a terminal."""
    ours, theirs = pty.openpty()
    try:
        os.write(ours, typed.encode())
        words = [sys.executable, "-c", RUN, "start", "rig", "car", "--plain"]
        return subprocess.run(words, stdin=theirs, cwd=folder, capture_output=True, text=True, check=False, timeout=60)
    finally:
        os.close(ours)
        os.close(theirs)


def test_a_rig_of_twenty_items_from_the_questions_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    done = start_at_a_terminal(tmp_path, TYPED)
    monkeypatch.chdir(tmp_path)
    sheet = CliRunner().invoke(main, ["sheet", "car.rig.yaml", "--out", "sheet.html"])

    assert done.returncode == 0, done.stderr
    assert "car.rig.yaml   21 items, 13 leads, 1 setup   nothing found" in done.stdout
    assert sheet.exit_code == 0
    assert len(COMMAND + TYPED) <= MOST_KEYS
    assert TYPED.count("\n") <= MOST_ANSWERS
    assert "8 of 8." in done.stdout
    assert "9 of" not in done.stdout


def test_answers_that_make_no_sense_are_asked_again(tmp_path: Path) -> None:
    done = start_at_a_terminal(tmp_path, "boat\nve\n1\n\n\nmains\n" + "\n" * 7 + "\n\n\n\nvehicle\n" + "\n" * 20)

    assert "`boat` is none of the answers" in done.stdout
    assert "No mains reaches a rig on a vehicle" in done.stdout
    assert done.returncode == 0, done.stdout + done.stderr
    assert (tmp_path / "car.rig.yaml").is_file()


def test_a_question_that_nobody_answers_lays_nothing_down(tmp_path: Path) -> None:
    done = start_at_a_terminal(tmp_path, "ve\n\x04")

    assert done.returncode != 0
    assert list(tmp_path.iterdir()) == []


def test_nothing_is_asked_where_nobody_can_answer(tmp_path: Path) -> None:
    words = [sys.executable, "-c", RUN, "start", "rig", "car", "--on", "vehicle", "--people", "3", "--plain"]
    done = subprocess.run(words, stdin=subprocess.DEVNULL, cwd=tmp_path, capture_output=True, text=True, check=False)

    assert done.returncode == 0
    assert done.stdout.startswith("Laid down car.rig.yaml.")
