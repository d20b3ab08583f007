"""`rigmint misplug`: output, exit statuses, what stands in the text and in which order."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main
from tests.builders import list_parts
from tests.misplug.rigs import PARTS, RAW_LEAD

LIBRARY = "rigmint_library: 1\ntitle: Kestrel Hire\nparts: [parts]\n"
SPARE = """\
also: [{part: house/lead-2pin-crossed, count: 1}]
setups: {day: {}, night: {unplugged: [P1]}}
"""
RIG = f"rigmint: 1\nrig: Saltmarsh{RAW_LEAD}{SPARE}"
KEYS = ["end", "how", "into", "lead", "meant", "outcome", "port", "same_place", "setups", "volts"]


@pytest.fixture(autouse=True)
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A library and a rig, as the working folder."""
    (tmp_path / "parts").mkdir()
    (tmp_path / "rigmint.yaml").write_text(LIBRARY, encoding="utf-8")
    (tmp_path / "parts" / "all.part.yaml").write_text(list_parts(PARTS), encoding="utf-8")
    (tmp_path / "saltmarsh.rig.yaml").write_text(RIG, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["misplug", "saltmarsh.rig.yaml", *arguments])


def find_line(lines: list[str], start: str) -> int:
    """The number of the first line that starts so: what is within reach comes before what is on a bench."""
    numbers = [number for number, line in enumerate(lines) if line.startswith(start)]
    assert numbers, (start, lines)

    return numbers[0]


def test_text_says_what_burns_first_and_how_many_were_tried() -> None:
    result = run("--setup", "day")
    lines = result.stdout.splitlines()
    tried = json.loads(run("--setup", "day", "--as", "json").stdout)["tried"]

    assert result.exit_code == 0
    assert lines[0] == "saltmarsh.rig.yaml   misplugs, 1 setup"
    assert lines[2].startswith(f"{tried} misplugs tried: ")
    order = [
        find_line(lines, "What burns, within reach"),
        find_line(lines, "finder.usb: destroyed above"),
        find_line(lines, "What only fails to work, within reach"),
        find_line(lines, "On a bench only: what fails to work"),
    ]
    assert order == sorted(order)
    assert lines[-1].endswith("qualified people.")


def test_text_names_volts_lead_and_remedy() -> None:
    lines = run("--setup", "day").stdout.splitlines()
    start = find_line(lines, "finder.usb: destroyed above")

    assert lines[start] == "finder.usb: destroyed above ~6.1 V"
    assert lines[start + 1] == "       16.8 V  end b of P2"
    remedy = " ".join(" ".join(lines[start + 2 : start + 5]).split())
    assert remedy.startswith(
        "16.8 V P2 in the place of P3 Remedy: cap or tape finder.usb, or mark P2; better another connector or a key on"
    )


def test_a_lead_of_the_case_is_within_reach() -> None:
    shown = json.loads(run("--setup", "day", "--as", "json").stdout)
    swapped = [one for one in shown["misplugs"] if one["lead"] == "house/lead-2pin-crossed"]

    assert {(one["meant"], one["outcome"], one["port"], one["same_place"]) for one in swapped} == {
        ("P1", "burn", "camera.dc_in", True)
    }


def test_marks_are_said_and_go_last(house: Path) -> None:
    (house / "saltmarsh.rig.yaml").write_text(RIG + "marked: {P2: red}\n", encoding="utf-8")
    lines = run("--setup", "day").stdout.splitlines()

    marked = find_line(lines, "finder.usb: destroyed above")
    assert "Marked: P2 (red)." in [line.strip() for line in lines[marked : marked + 4]]
    assert all("Remedy" not in line for line in lines[marked : marked + 4])
    assert find_line(lines, "camera.dc_in: gets its feed") < marked


def test_json_by_the_contract() -> None:
    shown = json.loads(run("--as", "json").stdout)
    burning = [one for one in shown["misplugs"] if one["outcome"] == "burn"]

    assert sorted(shown) == ["file", "misplugs", "rigmint", "tried"]
    assert all(sorted(one) == KEYS for one in shown["misplugs"])
    assert shown["misplugs"][: len(burning)] == burning
    assert {
        "end": "b",
        "how": "moved",
        "into": "finder.usb",
        "lead": "P2",
        "meant": "motor.bus",
        "outcome": "burn",
        "port": "finder.usb",
        "same_place": True,
        "setups": ["day", "night"],
        "volts": 16.8,
    } in burning


def test_setups_are_told_apart() -> None:
    """At night P1 is out: what it could be moved into is of the day alone."""
    shown = json.loads(run("--as", "json").stdout)
    moved = {tuple(one["setups"]) for one in shown["misplugs"] if (one["how"], one["lead"]) == ("moved", "P1")}

    assert moved == {("day",)}
    assert json.loads(run("--setup", "night", "--as", "json").stdout)["tried"] < shown["tried"]


def test_the_same_bytes_twice() -> None:
    assert run("--as", "json").stdout == run("--as", "json").stdout
    assert run().stdout == run().stdout


def test_an_unknown_setup_is_wrong_usage() -> None:
    result = run("--setup", "dai")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "the rig has no setup `dai`: did you mean `day`?" in result.stderr


@pytest.mark.parametrize("form", ["text", "json"])
def test_a_rig_that_cannot_be_read(house: Path, form: str) -> None:
    (house / "saltmarsh.rig.yaml").write_text(RIG.replace("house/camera", "house/camra"), encoding="utf-8")
    result = run("--as", form)

    assert result.exit_code == 2
    if form == "json":
        shown = json.loads(result.stdout)
        assert list(shown) == ["unread"]
        assert shown["unread"][0]["code"] == "file:unknown-name"
    else:
        assert result.stdout.startswith("saltmarsh.rig.yaml\n\nunread file:unknown-name")


def test_a_rig_without_leads(house: Path) -> None:
    (house / "saltmarsh.rig.yaml").write_text("rigmint: 1\nrig: Bare\nkit: {camera: house/camera}\n", encoding="utf-8")
    result = run()

    assert result.exit_code == 0
    assert "0 misplugs tried." in result.stdout
    assert json.loads(run("--as", "json").stdout)["misplugs"] == []


def test_out_writes_the_file_and_plain_is_ascii(house: Path) -> None:
    result = run("--out", "misplugs.txt", "--plain")

    assert (result.exit_code, result.stdout) == (0, "")
    assert (house / "misplugs.txt").read_text(encoding="utf-8").isascii()


def test_docks_that_are_forced_have_no_lead(house: Path) -> None:
    """A battery on clamps: nothing but the eye keeps them the right way round."""
    parts = PARTS + (
        "house/car: {kind: supply, cells: {pack: {volts: 11 to 14.8 V}},"
        " ports: {posts: {connector: clamp, sex: same, pins: plus-first}}}\n"
        "house/winch: {kind: accessory, rails: {main: {load: 90 W}},"
        " ports: {dc_in: {connector: clamp, sex: same, pins: plus-first, rail: main, works: 10 to 15 V}}}\n"
    )
    (house / "parts" / "all.part.yaml").write_text(list_parts(parts), encoding="utf-8")
    rig = "rigmint: 1\nrig: Car\nkit: {car: house/car, winch: house/winch}\ndocks: [car.posts > winch.dc_in]\n"
    (house / "saltmarsh.rig.yaml").write_text(rig, encoding="utf-8")
    shown = json.loads(run("--as", "json").stdout)

    assert [(one["how"], one["lead"], one["end"], one["meant"], one["into"]) for one in shown["misplugs"]] == [
        ("forced", None, None, "car.posts", "winch.dc_in")
    ]
    assert (shown["misplugs"][0]["outcome"], shown["misplugs"][0]["port"]) == ("burn", "winch.dc_in")
    assert "pushed on turned round" in run().stdout
