"""`compare`: two files, a revision, git's own call, stand-ins; what it shows and its exit statuses."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main
from rigmint.testing import edit_text

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
RIG = "rigs/saltmarsh-two-up.rig.yaml"
LONGER = ("P2: {part: generic/lead-2pin, from", "P2: {part: generic/lead-2pin-long, from")
SMALLER = ("battery:   generic/battery-150wh-wedge", "battery:   generic/battery-98wh-wedge")
LENS_ON = ("desk.lens_control: off", "desk.lens_control: on")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments))


def compare(*arguments: str) -> dict[str, Any]:
    result = run("compare", *arguments, "--as", "json")
    assert result.exit_code == 0, result.output
    shown: dict[str, Any] = json.loads(result.output)
    return shown


@pytest.fixture
def library(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the examples, as the working folder."""
    shutil.copytree(EXAMPLES, tmp_path / "library")
    monkeypatch.chdir(tmp_path / "library")
    return tmp_path / "library"


def write_changed(library: Path, *changes: tuple[str, str], name: str = "rigs/changed.rig.yaml") -> str:
    text = edit_text((library / RIG).read_text(encoding="utf-8"), *changes)
    (library / name).write_text(text, encoding="utf-8")
    return name


def git(*arguments: str) -> None:
    identity = {"GIT_AUTHOR_NAME": "prep", "GIT_AUTHOR_EMAIL": "prep@example.org"}
    identity |= {"GIT_COMMITTER_NAME": "prep", "GIT_COMMITTER_EMAIL": "prep@example.org"}
    subprocess.run(["git", *arguments], check=True, capture_output=True, env={**os.environ, **identity})


@pytest.fixture
def repository(library: Path) -> Path:
    """The library under version control, committed once."""
    git("init", "-q")
    git("add", "-A")
    git("commit", "-q", "-m", "Lay down the library")
    return library


@pytest.mark.usefixtures("library")
def test_a_rig_does_not_differ_from_itself() -> None:
    shown = compare(RIG, RIG)

    told = {key: value for key, value in shown.items() if key not in ("rigmint", "old", "new")}
    assert {key for key, value in told.items() if value and value != {"gained": [], "lost": []}} == set()
    assert "does nothing" in run("compare", RIG, RIG).output


def test_a_lens_control_left_on_is_a_finding_and_a_hand_gained(library: Path) -> None:
    shown = compare(RIG, write_changed(library, LENS_ON))

    assert [(one["turn"], one["code"], one["setups"]) for one in shown["findings"]] == [
        ("gained", "owner:mixed", ["two_up"])
    ]
    assert [(one["axis"], one["control"], one["before"]) for one in shown["hands"]] == [
        ("lens.focus", "desk.wheel", None)
    ]
    assert shown["settings"] == [
        {"setting": "desk.set.lens_control", "before": "off", "after": "on", "setups": ["two_up"]}
    ]


def test_the_other_way_round_it_is_lost(library: Path) -> None:
    shown = compare(write_changed(library, LENS_ON), RIG)

    assert [(one["turn"], one["code"]) for one in shown["findings"]] == [("lost", "owner:mixed")]
    assert [one["after"] for one in shown["hands"]] == [None]


def test_volts_are_those_that_power_prints(library: Path) -> None:
    changed = write_changed(library, LONGER)
    power = {name: json.loads(run("power", name, "--as", "json").output)["setups"] for name in (RIG, changed)}

    shown = compare(RIG, changed)

    ports = {(one["port"], one["setup"]): one for one in shown["volts"]}
    moved = ports["camera.dc_in", "solo"]
    for side, name in (("before", RIG), ("after", changed)):
        for point in ("typical", "change"):
            assert moved[side][point] == pytest.approx(power[name]["solo"][point]["ports"]["camera.dc_in"]["volts"])
    assert all(
        abs(
            power[RIG][setup]["typical"]["ports"][port]["volts"]
            - power[changed][setup]["typical"]["ports"][port]["volts"]
        )
        < 0.051
        for setup in power[RIG]
        for port in power[RIG][setup]["typical"]["ports"]
        if (port, setup) not in ports
    )


def test_kit_leads_spares_and_runtime(library: Path) -> None:
    shown = compare(RIG, write_changed(library, LONGER, SMALLER))

    kit = {(one["kind"], one["name"]): one["after"] for one in shown["kit"]}
    assert kit["item", "battery"] == "generic/battery-98wh-wedge"
    assert kit["lead", "P2"] == "breakout.out_1 > camera.dc_in, generic/lead-2pin-long, 150 cm"
    runtime = {one["item"]: one for one in shown["runtime"]}
    assert runtime["battery"]["after"] < runtime["battery"]["before"]


@pytest.mark.parametrize(("judge", "status"), [((), 0), (("--judge",), 1)])
def test_only_a_comparison_that_judges_fails(library: Path, judge: tuple[str, ...], status: int) -> None:
    assert run("compare", RIG, write_changed(library, LENS_ON), *judge).exit_code == status


def test_a_thin_finding_gained_does_not_fail(library: Path) -> None:
    result = run("compare", RIG, write_changed(library, SMALLER, LONGER), "--judge")

    assert "runtime:short" in result.output
    assert result.exit_code == 0


def test_a_revision_brings_its_own_parts(repository: Path) -> None:
    """A part file that changed since changes the rig, though no line of the rig moved."""
    parts = repository / "parts"
    part = next(path for path in parts.rglob("*.part.yaml") if "id: kestrel/lead-tap-to-2pin-fused" in path.read_text())
    text = part.read_text(encoding="utf-8")
    start = text.index("id: kestrel/lead-tap-to-2pin-fused")
    part.write_text(text[:start] + text[start:].replace("16 AWG", "24 AWG", 2), encoding="utf-8")

    shown = compare("--rev", "HEAD", RIG)

    assert shown["old"] == f"{RIG} at HEAD"
    assert "camera.dc_in" in {one["port"] for one in shown["volts"]}


@pytest.mark.usefixtures("repository")
@pytest.mark.parametrize("name", ["nowhere", "--output=stolen", "-x", "HEAD:"])
def test_a_revision_that_is_none_is_said(name: str) -> None:
    result = run("compare", "--rev", name, RIG)

    assert result.exit_code == 2
    assert "git knows no revision" in result.output
    assert not Path("stolen").exists()


def test_a_file_that_the_revision_did_not_hold(repository: Path) -> None:
    result = run("compare", "--rev", "HEAD", write_changed(repository))

    assert result.exit_code == 2
    assert "rigs/changed.rig.yaml is not in `HEAD`" in result.output


@pytest.mark.usefixtures("library")
def test_outside_a_repository_there_is_no_revision(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path))

    result = run("compare", "--rev", "HEAD", RIG)

    assert result.exit_code == 2
    assert "lies in no git repository" in result.output


def test_git_calls_it_as_a_diff_command(repository: Path) -> None:
    script = repository.parent / "rigmint"
    script.write_text(f"#!{sys.executable}\nfrom rigmint.commands import main\n\nmain()\n", encoding="utf-8")
    script.chmod(0o755)
    (repository / ".gitattributes").write_text("*.rig.yaml diff=rig\n", encoding="utf-8")
    git("config", "diff.rig.command", f"{script} compare --plain")
    changed = edit_text((repository / RIG).read_text(encoding="utf-8"), LENS_ON)
    (repository / RIG).write_text(changed, encoding="utf-8")

    shown = subprocess.run(["git", "diff"], check=True, capture_output=True, text=True).stdout

    assert "Findings gained: 1" in shown
    assert f"{RIG} before > {RIG} after" in shown


def test_a_rig_that_cannot_be_read_ends_in_status_2(library: Path) -> None:
    broken = write_changed(library, ("rigmint: 1", "rigmint: 1\nwheels: 4"))

    text, data = run("compare", RIG, broken), run("compare", RIG, broken, "--as", "json")

    assert (text.exit_code, data.exit_code) == (2, 2)
    assert [one["code"] for one in json.loads(data.output)["unread"]] == ["file:unknown-key"]


@pytest.mark.usefixtures("library")
@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((RIG,), "an old and a new rig file are due, and 1 came"),
        ((RIG, RIG, RIG), "an old and a new rig file are due, and 3 came"),
        ((RIG, RIG, "--rev", "HEAD"), "with --rev one rig file is due, and 2 came"),
        ((RIG, RIG, "--setup", "solos"), "neither rig has a setup `solos`"),
        ((RIG, "--stand-in", "batery"), "the rig has no item `batery`: did you mean `battery`?"),
    ],
)
def test_wrong_usage_is_said(arguments: tuple[str, ...], says: str) -> None:
    result = run("compare", *arguments)

    assert result.exit_code == 2
    assert says in " ".join(result.output.split())


@pytest.mark.usefixtures("library")
def test_stand_ins_take_every_plug_and_lose_nothing() -> None:
    shown = compare("--stand-in", "battery", RIG)

    whole = [one["part"] for one in shown["stand_ins"] if not one["lost"]]
    assert "generic/battery-98wh-wedge" in whole
    assert {"part": "generic/battery-26v-wedge", "lacking": []} not in shown["unfit"]
    assert all(one["lacking"] for one in shown["unfit"])


def test_a_stand_in_shows_what_the_same_rig_rewritten_shows(library: Path) -> None:
    changed = write_changed(library, SMALLER)

    by_exchange = next(
        one for one in compare("--stand-in", "battery", RIG)["stand_ins"] if one["part"] == "generic/battery-98wh-wedge"
    )
    by_hand = compare(RIG, changed)

    for key in ("findings", "volts", "hands", "flows", "radio", "runtime", "change_volts"):
        assert by_exchange[key] == by_hand[key]
