"""`like:` of parts and rigs: what is inherited, what is not, circles, and references that lead out."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.library.build_rig import ReadRig, read_rig
from rigmint.library.document import Document, Marks, Value
from rigmint.library.library_file import load_library
from rigmint.library.like import merge_documents
from rigmint.rig.part import Part
from rigmint.rig.rig import PortRef
from tests.builders import list_parts, make_library

PARTS = """
house/box: {kind: camera, ports: {dc_in: {connector: 0b-2, sex: socket}, run: {connector: 0b-2}}}
"""


@pytest.mark.parametrize(
    ("base", "own", "merged"),
    [
        ({"a": 1}, {"b": 2}, {"a": 1, "b": 2}),
        ({"a": 1}, {"a": 2}, {"a": 2}),
        ({"a": {"b": {"c": 1, "d": 2}}}, {"a": {"b": {"d": 3, "e": 4}}}, {"a": {"b": {"c": 1, "d": 3, "e": 4}}}),
        ({"a": {"b": 1, "c": 2}}, {"a": {"b": None}}, {"a": {"c": 2}}),
        ({"a": 1, "b": 2}, {"a": None, "z": None}, {"b": 2}),
        ({"a": [1, 2]}, {"a": [3]}, {"a": [3]}),
        ({"a": {"b": 1}}, {"a": "text"}, {"a": "text"}),
        ({"a": "text"}, {"a": {"b": 1}}, {"a": {"b": 1}}),
        (
            {"id": "x", "name": "y", "figures": "z", "like": "w", "mass": 1},
            {"id": "q", "like": "x"},
            {"id": "q", "mass": 1},
        ),
        ({"ports": {"id": 1, "name": 2}}, {"ports": {"a": 3}}, {"ports": {"id": 1, "name": 2, "a": 3}}),
    ],
)
def test_merge(base: dict[str, Value], own: dict[str, Value], merged: dict[str, Value]) -> None:
    found = merge_documents(Document("own", own, Marks()), Document("base", base, Marks()))

    assert found.tree == merged


def build(parts: str, part_id: str) -> Part:
    """A part without faults."""
    catalogue = make_library(parts).catalogue
    part = catalogue.part(part_id)
    assert part is not None, catalogue.faults_of(part_id)
    return part


CHAIN = """
house/one: {kind: battery, name: The first, figures: a sheet, mass: 700 g, cells: {pack: {volts: 12 to 16.8 V, max: 10 A}}}
house/two: {like: house/one, mass: 800 g, cells: {pack: {max: 8 A}}}
house/three: {like: house/two, cells: {pack: {max: null, energy: 98 Wh}, spare: {volts: 5 V}}}
"""


def test_a_part_inherits_over_a_chain() -> None:
    part = build(CHAIN, "house/three")

    assert (part.id, part.name, part.figures, part.kind) == ("house/three", "house/three", None, "battery")
    assert part.mass == pytest.approx(0.8)
    assert (part.cells["pack"].max_amps, part.cells["pack"].volts.high) == (None, 16.8)
    assert set(part.cells) == {"pack", "spare"}


@pytest.mark.parametrize(
    ("parts", "part_id", "code", "says"),
    [
        (
            "house/a: {like: house/a}",
            "house/a",
            "file:circle",
            "`like:` runs in a circle: house/a > house/a",
        ),
        (
            "house/a: {like: house/b}\nhouse/b: {like: house/c}\nhouse/c: {like: house/a}",
            "house/a",
            "file:circle",
            "`like:` runs in a circle: house/a > house/b > house/c > house/a",
        ),
        (
            "house/a: {like: house/lens-moter}\nhouse/lens-motor: {kind: lens_motor}",
            "house/a",
            "file:unknown-name",
            "there is no part `house/lens-moter`: did you mean `house/lens-motor`?",
        ),
        (
            "house/a: {like: null}",
            "house/a",
            "file:wrong-kind",
            "like: a part id is a folder and a name in small letters, such as `generic/lens-motor`",
        ),
        (
            "house/a: {like: house/b}\nhouse/b: {kind: camra}",
            "house/a",
            "file:bad-value",
            "kind: `camra` is not one of `camera`",
        ),
    ],
)
def test_a_part_whose_base_cannot_be_had(parts: str, part_id: str, code: str, says: str) -> None:
    catalogue = make_library(parts).catalogue

    assert catalogue.part(part_id) is None
    assert [(fault.code, fault.says[: len(says)]) for fault in catalogue.faults_of(part_id)] == [(code, says)]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The folder of a library with parts and a rig to start from."""
    write(tmp_path / "rigmint.yaml", "{rigmint_library: 1, title: Kestrel Hire, parts: [parts]}")
    write(tmp_path / "parts" / "all.part.yaml", list_parts(PARTS))
    write(
        tmp_path / "known.rig.yaml",
        """rigmint: 1
rig: Known good
kit: {a: house/box, b: house/box}
leads: {P1: {from: a.dc_in, to: b.run, length: 40 cm}}
setups: {one: {off: [a], says: First}, two: {}}
""",
    )
    return tmp_path


def write(path: Path, text: str) -> None:
    """Write a file and its folder."""
    path.parent.mkdir(exist_ok=True)
    path.write_text(text, encoding="utf-8")


def read(folder: Path, text: str, *, alone: bool = False) -> ReadRig:
    """Read a rig in the folder; `alone`: without a library file."""
    path = folder / "jobs" / "own.rig.yaml"
    write(path, f"rigmint: 1\nrig: Own\n{text}")
    return read_rig(path, load_library(None if alone else folder / "rigmint.yaml"))


def test_a_rig_inherits_key_by_key(folder: Path) -> None:
    rig = read(
        folder,
        """like: ../known.rig.yaml
kit: {c: house/box, b: null}
leads: {P1: {to: c.run, asset: CAB-1}}
setups: {two: null, one: {off: [c]}}
""",
    ).rig

    assert rig is not None
    assert (rig.title, list(rig.items)) == ("Own", ["a", "c"])
    assert rig.leads["P1"].plugged == {"a": PortRef("a", "dc_in"), "b": PortRef("c", "run")}
    assert (rig.leads["P1"].length, rig.leads["P1"].asset) == (0.4, "CAB-1")
    assert {name: (setup.says, setup.off) for name, setup in rig.setups.items()} == {"one": ("First", frozenset({"c"}))}


def test_what_is_inherited_stands_at_like(folder: Path) -> None:
    rig = read(folder, "like: ../known.rig.yaml\nkit:\n  c: house/box\n").rig

    assert rig is not None
    assert [(rig.position(place).line) for place in ("a", "P1", "c")] == [3, 3, 5]


@pytest.mark.parametrize(
    ("text", "file", "faults"),
    [
        ("like: gone.rig.yaml", "own.rig.yaml", [("file:unreadable", 3, "no such file or directory")]),
        ("like: ../../x.rig.yaml", "own.rig.yaml", [("file:unreadable", 3, "leads out of the library's folder")]),
        ("like: /etc/passwd", "own.rig.yaml", [("file:unreadable", 3, "leads out of the library's folder")]),
        ("like: 5\nkit: {}", "own.rig.yaml", [("file:wrong-kind", 3, "like: a path is due here")]),
        ("like: own.rig.yaml", "own.rig.yaml", [("file:circle", 3, "own.rig.yaml > ")]),
        ("like: ../known.rig.yaml\nkit: {a: null}", "known.rig.yaml", [
            ("file:unknown-name", 4, "there is no item `a`"),
            ("file:unknown-name", 5, "there is no item `a`"),
        ]),
        ("like: ../known.rig.yaml\nleads: {P1: {to: b.rum}}", "own.rig.yaml", [
            ("file:unknown-name", 4, "`b.rum`: did you mean `b.run`?"),
        ]),
    ],
)  # fmt: skip
def test_faults_of_a_rig_with_like(folder: Path, text: str, file: str, faults: list[tuple[str, int, str]]) -> None:
    found = read(folder, text)

    assert found.rig is None
    assert [(Path(fault.file).name, fault.code, fault.line) for fault in found.faults] == [
        (file, code, line) for code, line, _ in faults
    ]
    assert all(part in fault.says for fault, (_, _, part) in zip(found.faults, faults, strict=True))


def test_a_fault_of_a_lead_in_one_line_stands_in_the_file_that_wrote_it(folder: Path) -> None:
    write(folder / "bad.rig.yaml", "rigmint: 1\nrig: Bad\nkit: {a: house/box}\nleads:\n  P1: a.dcin > a.run\n")
    found = read(folder, "like: ../bad.rig.yaml\nkit: {q: house/bix}")

    assert [(Path(fault.file).name, fault.line, fault.column, fault.says) for fault in found.faults] == [
        ("bad.rig.yaml", 5, 3, "`a.dcin`: did you mean `a.dc_in`?"),
        ("own.rig.yaml", 4, 7, "there is no part `house/bix`: did you mean `house/box`?"),
    ]


def test_two_rigs_that_start_from_each_other(folder: Path) -> None:
    write(folder / "jobs" / "other.rig.yaml", "rigmint: 1\nrig: Other\nlike: own.rig.yaml\n")
    found = read(folder, "like: other.rig.yaml")

    assert [(fault.code, Path(fault.file).name) for fault in found.faults] == [("file:circle", "other.rig.yaml")]


def test_without_a_library_a_rig_starts_only_from_its_own_folder(folder: Path) -> None:
    found = read(folder, "like: ../known.rig.yaml", alone=True)

    assert [(fault.code, fault.line) for fault in found.faults] == [("file:no-library", 3)]
    assert "put a `rigmint.yaml` above both" in found.faults[0].says


def test_a_link_in_the_folder_that_leads_out_is_not_followed(
    folder: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    outside = tmp_path_factory.mktemp("elsewhere") / "secret.rig.yaml"
    write(outside, "rigmint: 1\nrig: Secret\nkit: {}\n")
    (folder / "inside.rig.yaml").symlink_to(outside)
    found = read(folder, "like: ../inside.rig.yaml")

    assert [(fault.code, fault.line) for fault in found.faults] == [("file:unreadable", 3)]
