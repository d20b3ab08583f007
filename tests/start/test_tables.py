"""A rig from the two tables that a prep room has: 22 items, 28 rows of leads, mates and radio links. Nothing of them is
lost, whatever program wrote them."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands.group import main

ITEMS = """\
Item;Part;Asset;Settings
car;generic/vehicle-12v;;
reg 24;generic/regulator-vehicle-24v;REG-03;
reg top;generic/regulator-24-to-12;;
breakout;generic/breakout-four-2pin;;
camera;generic/camera-compact;CAM-07;format=1080p25
lens;generic/lens-zoom-compact;LENS-12;
cage;generic/cage-compact;;
rods;generic/rods-15-light-pair;;
head;generic/head-vehicle-24v;HEAD-02;mode=locked
mount;generic/vehicle-mount;;
arm;generic/isolating-arm;;
driver;generic/motor-driver-three;;
motor f;generic/lens-motor;;axis=focus
motor i;generic/lens-motor;;axis=iris
motor z;generic/lens-motor;;axis=zoom
finder;generic/range-finder;;
hand;generic/hand-unit-three-axis;;
desk;generic/desk-wheels;;lens_control=off, mode_button=off
sender;generic/sender-5ghz-long;;
mon op;generic/monitor-receiver;;slot=a
mon ac;generic/monitor-receiver;;slot=b
mon dir;generic/monitor-receiver;;slot=watch
"""
LEADS = """\
Length (cm);To;From;Cable
120;reg 24 in;car studs;P1
80;head.dc_in;reg_24.out_1;P2
60;reg_top.in;head.dc_top;P3
30;camera DC IN;reg top out 1;P4
30;breakout.in;head.aux_top;P5
30;driver.dc_in;breakout.out_1;P6
30;sender.dc_in;breakout.out_2;P7
25;motor_f.bus_1;driver.motor_1;M1
25;motor_i.bus_1;driver.motor_2;M2
25;motor_z.bus_1;driver.motor_3;M3
;finder.data;driver.finder;D1
60;sender.sdi_in;camera.sdi_1;S1
1200;head.line;desk.line;L1
;camera.remote;driver.run;R1
;camera.mount;lens.mount;
;cage.camera;camera.base;
;cage.rods;rods.block;
;head.plate;cage.base;
;mount.head;arm.base;
;arm.head;head.base;
;rods.motor_1;motor_f.rod;
;rods.motor_2;motor_i.rod;
;rods.motor_3;motor_z.rod;
;mon_op.bracket;desk.monitor_bracket;
;hand.radio;driver.radio;lens_control
;mon_op.radio;sender.radio;picture
;mon_ac.radio;sender.radio;picture
;mon_dir.radio;sender.radio;picture
"""
MOST_KEYS = 120


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, list(arguments), prog_name="rigmint", catch_exceptions=False)


@pytest.fixture
def tables(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with both tables, which is the working folder."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "items.csv").write_text(ITEMS, encoding="utf-8")
    (tmp_path / "leads.csv").write_text(LEADS, encoding="utf-8")
    return tmp_path


@pytest.mark.usefixtures("tables")
def test_a_rig_of_two_tables_checks_and_has_a_sheet() -> None:
    typed = ("start", "rig", "boat", "--from", "leads.csv", "--items", "items.csv")
    done = run(*typed)

    assert done.exit_code == 0, done.output
    assert "22 items, 14 leads" in done.output
    for grade in ("hurt", "burn", "dead", "fight"):
        assert f"\n{grade} " not in done.output
    text = Path("boat.rig.yaml").read_text(encoding="utf-8")
    assert "# Not placed" not in text
    assert "picture: {between: [sender.radio, mon_op.radio, mon_ac.radio, mon_dir.radio]" in text
    assert run("check", "boat.rig.yaml").exit_code == 0
    assert run("sheet", "boat.rig.yaml", "--out", "boat.html").exit_code == 0
    assert Path("boat.html").stat().st_size > 50_000
    assert len("rigmint " + " ".join(typed)) <= MOST_KEYS


@pytest.mark.usefixtures("tables")
def test_a_rig_of_the_questions_checks_and_has_a_sheet() -> None:
    """Twenty items with five answers; the other three are their defaults."""
    typed = ("--on", "vehicle", "--people", "3", "--lens", "focus,iris,zoom", "--head", "wheels", "--picture", "o,f,d")
    done = run("start", "rig", "car", "--yes", *typed)

    assert done.exit_code == 0, done.output
    assert "22 items, 14 leads, 1 setup   nothing found" in done.output
    assert run("sheet", "car.rig.yaml", "--out", "car.html").exit_code == 0
    assert len("rigmint start rig car --yes " + " ".join(typed)) <= MOST_KEYS


@pytest.mark.parametrize(
    ("encoding", "delimiter", "break_"),
    [("utf-8-sig", ";", "\r\n"), ("utf-16", "\t", "\r\n"), ("cp1252", ",", "\r\n"), ("utf-8", ",", "\n")],
)
def test_whatever_wrote_the_tables(tables: Path, encoding: str, delimiter: str, break_: str) -> None:
    for name in ("items", "leads"):
        text = (ITEMS if name == "items" else LEADS).replace("lens_control=off, mode_button=off", "lens_control=off")
        (tables / f"{name}.csv").write_bytes(text.replace(";", delimiter).replace("\n", break_).encode(encoding))
    done = run("start", "rig", "boat", "--from", "leads.csv", "--items", "items.csv")

    assert "22 items, 14 leads" in done.output
    assert "not placed" not in done.output


def test_what_cannot_be_placed_is_named_row_by_row_and_kept(tables: Path) -> None:
    (tables / "items.csv").write_text(ITEMS + "gizmo;kestrel/nowhere;A-1;\n", encoding="utf-8")
    (tables / "leads.csv").write_text(LEADS + "10;gizmo.in;reg_24.out_2;X9\n;lens;camera;X8\n", encoding="utf-8")
    done = run("start", "rig", "boat", "--from", "leads.csv", "--items", "items.csv")
    text = (tables / "boat.rig.yaml").read_text(encoding="utf-8")

    assert done.exit_code == 1
    assert "3 rows were not placed" in done.output
    for row in ("gizmo | kestrel/nowhere | A-1", "10 | gizmo.in | reg_24.out_2 | X9", "lens | camera | X8"):
        assert row in done.output
        assert row in text
    assert done.output.count("line 24") == 1


@pytest.mark.usefixtures("tables")
def test_nothing_is_written_over() -> None:
    Path("boat.rig.yaml").write_text("mine", encoding="utf-8")
    done = run("start", "rig", "boat", "--from", "leads.csv", "--items", "items.csv")

    assert done.exit_code != 0
    assert Path("boat.rig.yaml").read_text(encoding="utf-8") == "mine"
