"""`draw` and `labels` at the command line."""

from __future__ import annotations

import os
import subprocess
import sys
import time
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main

RIGS = Path(__file__).parents[2] / "examples" / "rigs"
SALTMARSH = str(RIGS / "saltmarsh-two-up.rig.yaml")
RUN = "import sys; from rigmint.commands import main; main()"


def run(*words: str) -> tuple[int, str]:
    result = CliRunner().invoke(main, list(words))
    return result.exit_code, result.stdout


@pytest.mark.parametrize("layer", ["power", "control", "picture", "all"])
def test_draw_prints_one_svg(layer: str) -> None:
    status, text = run("draw", SALTMARSH, "--layer", layer)

    assert status == 0
    assert ET.fromstring(text).get("data-layer") == layer


def test_all_is_the_layer_where_none_is_named() -> None:
    assert ET.fromstring(run("draw", SALTMARSH)[1]).get("data-layer") == "all"


def test_draw_writes_a_file(tmp_path: Path) -> None:
    file = tmp_path / "power.svg"
    status, text = run("draw", SALTMARSH, "--layer", "power", "--setup", "solo", "--out", str(file))

    assert (status, text) == (0, "")
    assert ET.parse(file).getroot().get("data-setups") == "solo"


@pytest.mark.parametrize("command", ["draw", "labels"])
def test_a_setup_that_is_not_there(command: str) -> None:
    result = CliRunner().invoke(main, [command, SALTMARSH, "--setup", "two_upp"])

    assert result.exit_code == 2
    assert "did you mean `two_up`?" in result.stderr


@pytest.mark.parametrize("command", ["draw", "labels"])
def test_a_rig_that_cannot_be_read(command: str, tmp_path: Path) -> None:
    file = tmp_path / "bad.rig.yaml"
    file.write_text("rigmint: 1\nrig: Bad\nkit: {a: generic/no-such-part}\n", encoding="utf-8")
    status, text = run(command, str(file))

    assert status == 2
    assert "no-such-part" in text
    assert "<svg" not in text


def test_labels_print_a_row_an_end() -> None:
    status, text = run("labels", SALTMARSH, "--setup", "solo")

    assert status == 0
    assert text.splitlines()[:2] == [
        "lead,end,line_1,line_2,tape,class",
        "P1,a,P1  14 V,plate.tap_1 > breakout.in,green sleeve,twelve",
    ]


def test_the_library_names_the_tape(tmp_path: Path) -> None:
    library = tmp_path / "rigmint.yaml"
    library.write_text("rigmint_library: 1\nlabels: {tape: {signal: violet}}\n", encoding="utf-8")
    rig = tmp_path / "small.rig.yaml"
    rig.write_text(
        "rigmint: 1\nrig: Small\nkit: {clock: generic/timecode-box, camera: generic/camera-compact}\n"
        "leads: {T1: {part: generic/lead-timecode, from: clock.tc, to: camera.tc_in}}\n",
        encoding="utf-8",
    )

    assert ",violet,signal" in run("labels", str(rig))[1]


@pytest.mark.parametrize("words", [("draw", "--layer", "all"), ("labels",)], ids=["draw", "labels"])
def test_the_same_bytes_whatever_the_hash_seed(words: tuple[str, ...]) -> None:
    rig = str(RIGS / "oat-field-two-cameras.rig.yaml")
    outputs = {
        subprocess.run(
            [sys.executable, "-c", RUN, words[0], rig, *words[1:]],
            capture_output=True,
            check=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
        ).stdout
        for seed in ("0", "1", "2", "77")
    }

    assert len(outputs) == 1
    assert len(outputs.pop()) > 1000


def test_drawing_a_large_rig_takes_little_more_than_checking_it() -> None:
    from rigmint.report.draw.drawing import draw_layer
    from rigmint.study.layers import Layer
    from tests.report.draw.drawn import find_all_uses, read_example

    rig = read_example(RIGS / "oat-field-two-cameras.rig.yaml")
    uses = find_all_uses(rig)
    took = []
    for layer in (*Layer, None):
        start = time.process_time()
        draw_layer(rig, uses, (), layer)
        took.append(time.process_time() - start)

    assert len(rig.items) >= 30
    assert max(took) < 0.15
