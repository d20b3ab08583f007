"""`start rig --from`: the tables of a prep room, as spreadsheets save them."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main
from rigmint.library.catalogue import Catalogue
from rigmint.library.library_file import load_library
from rigmint.lint.run import check_paths
from rigmint.rig.rig import Rig
from rigmint.start.answers import Refusal
from rigmint.start.spares import read_text_as_rig
from rigmint.start.table import read_table
from rigmint.start.table_rig import TableRig, write_table_rig
from rigmint.words import Grade

TABLES = Path(__file__).parent / "tables"
ITEMS = """\
item,part
battery,battery-98wh-wedge
plate,plate-wedge-two-tap
camera,camera-compact
monitor,monitor-5in-loop
"""
LEADS = """\
label,from,to,length
P1,plate.tap_1,camera.dc_in,40 cm
P2,plate.tap_2,monitor.dc_in,
S1,camera.sdi_1,monitor.sdi_in,1 m
"""


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    """The installed one."""
    return load_library(None).catalogue


def lay(folder: Path, catalogue: Catalogue, leads: str | bytes = LEADS, items: str | bytes | None = ITEMS) -> TableRig:
    """The rig of two tables."""
    paths = {"leads.csv": leads, "items.csv": items}
    for name, text in paths.items():
        if text is not None:
            (folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())
    return write_table_rig(
        folder / "leads.csv", folder / "items.csv" if items is not None else None, "Table", catalogue
    )


def read(made: TableRig) -> Rig:
    """The rig that the file's text is."""
    rig = read_text_as_rig(made.text, load_library(None))
    assert rig is not None
    return rig


def check_errors(path: Path) -> list[str]:
    """The codes of all that is worse than thin."""
    report = check_paths([path], library=None, today=datetime.date(2026, 5, 2), setup=None, prove=False)
    assert report.unread == ()
    return [one.code for file in report.files for one in file.findings if one.grade.is_at_least(Grade.FIGHT)]


def run(*words: str) -> Result:
    """A command, with `--plain`."""
    return CliRunner().invoke(main, [*words, "--plain"])


def test_the_tables_of_a_stage_check_clean_and_draw_a_sheet(tmp_path: Path) -> None:
    path = tmp_path / "stage.rig.yaml"
    words = ["start", "rig", str(path), "--from", str(TABLES / "stage-leads.csv")]
    laid = run(*words, "--items", str(TABLES / "stage-items.csv"))
    sheet = run("sheet", str(path), "--out", str(tmp_path / "sheet.html"))

    assert laid.exit_code == 0
    assert "20 items, 25 leads, 1 setup" in laid.stdout
    # Two supplies side by side with the same sockets: one slip away, and nothing worse.
    assert check_errors(path) == []
    assert "not placed" not in laid.stdout
    assert sheet.exit_code == 0
    assert "Stage" in (tmp_path / "sheet.html").read_text(encoding="utf-8")
    # Two tables that are there already, and one line to type.
    assert len(" ".join(["rigmint", "start", "rig", "stage", "--from", "leads.csv", "--items", "items.csv"])) <= 60


def test_lengths_links_and_mates_of_the_stage(catalogue: Catalogue) -> None:
    made = write_table_rig(TABLES / "stage-leads.csv", TABLES / "stage-items.csv", "Stage", catalogue)
    rig = read(made)

    assert made.unplaced == ()
    assert rig.leads["P10"].length == pytest.approx(1.5)
    assert rig.leads["P11"].length == pytest.approx(1.8288)
    assert rig.leads["P9"].length == pytest.approx(0.4572)
    assert set(rig.links) == {"picture", "lens_control"}
    assert "lens.mount > camera.mount" in made.text
    assert "M1: {part: generic/lead-bus-short" in made.text  # with power: the motor has no other
    assert "# Note: heaviest load on its own" in made.text
    assert "# Shelf: A1" in made.text


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_as_spreadsheets_save_it(
    tmp_path: Path, catalogue: Catalogue, delimiter: str, encoding: str, ending: str
) -> None:
    leads = "Length,To,From,Cable No,Rôle\n40 cm,Camera DC IN,Plate TAP 1,P1,übrig\n,monitor dc-in,plate tap 2,P2,\n"
    text = leads.replace(",", delimiter).replace("\n", ending)
    made = lay(tmp_path, catalogue, text.encode(encoding))

    assert set(read(made).leads) == {"P1", "P2"}
    assert "Rôle: übrig" in made.text
    assert made.unplaced == ()
    assert [("Windows-1252" in one) for one in made.says] == ([True] if encoding == "cp1252" else [])


@pytest.mark.parametrize(
    ("heads", "purpose"),
    [
        ("tag,source,destination,len", "label"),
        ("Cable #,Side A,Side B,Length (m)", "label"),
        ("id,start,end,cable length", "label"),
    ],
)
def test_headings_have_other_names(tmp_path: Path, catalogue: Catalogue, heads: str, purpose: str) -> None:
    made = lay(tmp_path, catalogue, LEADS.replace("label,from,to,length", heads))

    assert list(read(made).leads) == ["P1", "P2", "S1"], purpose


@pytest.mark.parametrize(
    ("heading", "cell", "metres"),
    [
        ("length (ft)", "3", 0.9144),
        ("length in cm", "40", 0.4),
        ("length [in]", "18", 0.4572),
        ("length", "6'", 1.8288),
    ],
)
def test_a_heading_names_the_unit(tmp_path: Path, catalogue: Catalogue, heading: str, cell: str, metres: float) -> None:
    made = lay(tmp_path, catalogue, f"label,from,to,{heading}\nP1,plate.tap_1,camera.dc_in,{cell}\n")

    assert read(made).leads["P1"].length == pytest.approx(metres)


ODD_ROWS = [
    ("P9,plate.tap_9,camera.dc_in,", "plate (generic/plate-wedge-two-tap) has no port `tap 9`"),
    ("P9,widget.out,camera.dc_in,", "`widget.out` begins with no item of the kit"),
    ("P9,plate.tap_1,,", "it has nothing under `to`"),
    ("P9,camera,monitor.sdi_in,", "`camera` names no port of camera"),
    ("P1,camera.sdi_2,monitor.sdi_in,", "the label `P1` is that of an item or of another lead"),
    ("P9,camera.sdi_2,camera.sdi_2,", "both its ends are in camera.sdi_2"),
]


@pytest.mark.parametrize(("row", "why"), ODD_ROWS)
def test_what_cannot_be_placed_is_named_and_kept(tmp_path: Path, catalogue: Catalogue, row: str, why: str) -> None:
    made = lay(tmp_path, catalogue, f"{LEADS}{row}\n")

    assert [(one.line, one.why[: len(why)]) for one in made.unplaced] == [(5, why)]
    assert set(read(made).leads) == {"P1", "P2", "S1"}
    comment = next(line for line in made.text.splitlines() if line.startswith("#") and why in line)
    assert all(cell in comment for cell in row.split(",") if cell)


def test_a_length_without_its_unit_stays_as_a_comment(tmp_path: Path, catalogue: Catalogue) -> None:
    made = lay(tmp_path, catalogue, LEADS.replace("40 cm", "40"))

    assert "# length 40: no length with its unit" in made.text


def test_an_item_without_its_part_is_named_with_the_leads_that_hang_on_it(tmp_path: Path, catalogue: Catalogue) -> None:
    made = lay(tmp_path, catalogue, items=ITEMS.replace("monitor-5in-loop", "monitor of the house"))

    assert [(Path(one.table).name, one.line) for one in made.unplaced] == [
        ("items.csv", 5), ("leads.csv", 3), ("leads.csv", 4),
    ]  # fmt: skip
    assert "the item `monitor` is not placed" in made.unplaced[1].why
    assert made.text.count("monitor of the house") == 2  # the row, and why


def test_a_row_never_ends_a_comment(tmp_path: Path, catalogue: Catalogue) -> None:
    row = '"P9\nkit: {}","plate.tap_1\u2028x: 1",camera.dc_in,"\x1b[31m3"'
    made = lay(tmp_path, catalogue, f"{LEADS}{row}\n")

    assert set(read(made).items) == {"battery", "plate", "camera", "monitor"}
    assert "\x1b" not in made.text


def test_rows_that_are_not_placed_are_said_and_the_rest_is_checked(tmp_path: Path) -> None:
    (tmp_path / "items.csv").write_text(ITEMS, encoding="utf-8")
    (tmp_path / "leads.csv").write_text(f"{LEADS}P9,plate.tap_9,camera.dc_in,\n", encoding="utf-8")
    words = ["start", "rig", str(tmp_path / "a"), "--from", str(tmp_path / "leads.csv")]
    result = run(*words, "--items", str(tmp_path / "items.csv"))

    assert result.exit_code == 1
    assert "1 row was not placed; each stands in the file as a comment:" in result.stdout
    assert "line 5: P9 | plate.tap_9 | camera.dc_in" in result.stdout


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "holds no table"),
        (b"\n,,\n", "holds no table"),
        (b"label,from,to\n", "holds headings and no row below them"),
        (b"label,from\nP1,a.b\n", "has no column headed `to`"),
        (b"from,from,to\na,b,c\n", "has two columns for `from`"),
        (b'label,from,to\nP1,"plate.tap_1,camera.dc_in\n', "a quotation mark that is opened there has to be closed"),
        (b"PK\x03\x04\x00\x00\x00", "save the table as CSV"),
        (b"label,from,to\nP1,\x81\x8d\x8f,x\n", "is not UTF-8 text at line 2"),
    ],
)
def test_what_is_no_table_is_refused(tmp_path: Path, catalogue: Catalogue, data: bytes, says: str) -> None:
    with pytest.raises(Refusal) as caught:
        lay(tmp_path, catalogue, data)

    assert says in str(caught.value)


def test_a_table_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="cannot be read"):
        read_table(tmp_path / "none.csv")


def test_without_a_table_of_items_they_are_found_by_name(tmp_path: Path, catalogue: Catalogue) -> None:
    leads = "label,from,to\nP1,plate-wedge-two-tap.tap_1,camera compact.dc_in\n"
    made = lay(tmp_path, catalogue, leads, None)

    assert {item.part.id for item in read(made).items.values()} == {
        "generic/plate-wedge-two-tap", "generic/camera-compact",
    }  # fmt: skip
