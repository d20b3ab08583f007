"""The catalogue and the library file: what is read, two parts of one id, where the search for a library ends."""

from __future__ import annotations

from pathlib import Path

import pytest

from rigmint.library import library_file
from rigmint.library.catalogue import Catalogue
from rigmint.library.find_files import find_rig_files
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.rig.house import RuleOverride
from rigmint.words import Grade
from tests.builders import list_parts

LAMP = "house/lamp: {kind: light}"


def write(path: Path, text: str) -> Path:
    """Write a file and its folders."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def list_found(library: Library) -> list[tuple[str, str, int, str]]:
    """File name, code, line and sentence of each fault of a library."""
    return [(Path(fault.file).name, fault.code, fault.line, fault.says) for fault in library.faults]


def make_catalogue(folder: Path) -> Catalogue:
    """The catalogue of a folder shown as `parts`."""
    return Catalogue([(folder, "parts")])


def test_parts_are_read_from_folders_at_any_depth(tmp_path: Path) -> None:
    write(tmp_path / "a.part.yaml", "{rigmint_part: 1, id: house/one, kind: light}")
    write(tmp_path / "deep" / "er" / "b.part.yaml", list_parts("house/two: {kind: light}\nhouse/three: {kind: light}"))
    write(tmp_path / ".hidden" / "c.part.yaml", list_parts("house/four: {kind: light}"))
    write(tmp_path / "d.yaml", list_parts("house/five: {kind: light}"))
    catalogue = make_catalogue(tmp_path)

    assert [part_id for part_id in catalogue.part_ids if part_id.startswith("house/")] == [
        "house/one",
        "house/three",
        "house/two",
    ]
    assert catalogue.file_of("house/two") == "parts/deep/er/b.part.yaml"
    assert catalogue.faults.found == []


def test_two_parts_with_one_id(tmp_path: Path) -> None:
    write(tmp_path / "a.part.yaml", list_parts(LAMP))
    write(tmp_path / "b.part.yaml", list_parts(LAMP))
    found = make_catalogue(tmp_path).faults.found

    assert [(fault.file, fault.code, fault.says) for fault in found] == [
        (
            "parts/b.part.yaml",
            "file:two-parts",
            "`house/lamp` is the id of two parts; the other one is in parts/a.part.yaml",
        )
    ]


def test_two_parts_with_one_id_in_one_file(tmp_path: Path) -> None:
    write(tmp_path / "a.part.yaml", list_parts(f"{LAMP}\n{LAMP}"))
    found = make_catalogue(tmp_path).faults.found

    assert [(fault.code, fault.line) for fault in found] == [("file:two-parts", 3)]


def test_a_library_cannot_redefine_a_generic_part(tmp_path: Path) -> None:
    write(tmp_path / "a.part.yaml", "{rigmint_part: 1, id: generic/of-the-house, kind: light}")
    catalogue = make_catalogue(tmp_path)

    assert [fault.code for fault in catalogue.faults.found] == ["file:two-parts"]
    assert "generic/of-the-house" not in catalogue.part_ids


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        (
            "parts: []\nmass: 5 g",
            "file:unknown-key",
            "`mass` stands beside `parts`: nothing else stands at the top of a list",
        ),
        ("kind: light\nrigmint_part: 1", "file:missing-key", "a part needs `rigmint_part: 1`, `id`, and `kind`"),
        ("[", "file:not-yaml", "this is not YAML"),
        ("# nothing", "file:wrong-kind", "the file is empty"),
        ("parts: [{kind: light}]", "file:missing-key", "a part needs `rigmint_part: 1`, `id`, and `kind`"),
    ],
)
def test_faults_of_a_part_file(tmp_path: Path, text: str, code: str, says: str) -> None:
    write(tmp_path / "a.part.yaml", text)
    found = make_catalogue(tmp_path).faults.found

    assert [(fault.code, fault.says[: len(says)]) for fault in found] == [(code, says)]


def test_a_key_twice_in_one_part_leaves_the_others_usable(tmp_path: Path) -> None:
    write(
        tmp_path / "a.part.yaml",
        "parts:\n- {rigmint_part: 1, id: house/a, kind: light}\n"
        "- {rigmint_part: 1, id: house/b, kind: light, mass: 1 g, mass: 2 g}\n"
        "- {rigmint_part: 1, id: house/c, kind: light}\n",
    )
    catalogue = make_catalogue(tmp_path)

    assert [catalogue.part(f"house/{name}") is not None for name in "abc"] == [True, False, True]
    assert [fault.code for fault in catalogue.faults_of("house/b")] == ["file:duplicate-key"]


def test_a_library_declares_connectors_and_protocols_of_its_own(tmp_path: Path) -> None:
    write(
        tmp_path / "a.connectors.yaml",
        "{rigmint_connectors: 1, connectors: {house-2: {name: Own, contacts: [p, n], usual: {u: {p: plus, n: minus}}}}}",
    )
    write(
        tmp_path / "a.protocols.yaml", "{rigmint_protocols: 1, protocols: {house-bus: {name: Own, carries: [warmth]}}}"
    )
    write(
        tmp_path / "a.part.yaml",
        list_parts(
            "house/x: {kind: light, ports: {p: {connector: house-2, speaks: [house-bus]}}, makes: {s: {warmth: true}}}"
        ),
    )
    catalogue = make_catalogue(tmp_path)
    part = catalogue.part("house/x")

    assert part is not None
    assert part.ports["p"].pins == {"p": "plus", "n": "minus"}
    assert set(part.makes["s"].flows) == {"warmth"}


def test_a_pin_out_names_contacts_that_exist(tmp_path: Path) -> None:
    write(
        tmp_path / "a.connectors.yaml",
        "{rigmint_connectors: 1, connectors: {house-2: {name: Own, contacts: [pos, n], usual: {u: {poss: plus}}}}}",
    )
    found = make_catalogue(tmp_path).faults.found

    assert [(fault.code, fault.says) for fault in found] == [
        ("file:unknown-name", "`house-2` has no contact `poss`: did you mean `pos`?")
    ]


@pytest.mark.parametrize("kind", ["connectors", "protocols"])
def test_a_token_declared_twice(tmp_path: Path, kind: str) -> None:
    body = "{name: Own, contacts: [p]}" if kind == "connectors" else "{name: Own, carries: [focus]}"
    for name in "ab":
        write(tmp_path / f"{name}.{kind}.yaml", f"{{rigmint_{kind}: 1, {kind}: {{house-x: {body}}}}}")
    found = make_catalogue(tmp_path).faults.found

    assert [(fault.file, fault.code) for fault in found] == [(f"parts/b.{kind}.yaml", "file:two-parts")]


LIBRARY = "rigmint_library: 1\ntitle: Kestrel Hire\n"


def test_the_nearest_library_file_above_is_found(tmp_path: Path) -> None:
    outer = write(tmp_path / "rigmint.yaml", LIBRARY)
    rig = write(tmp_path / "jobs" / "salt" / "a.rig.yaml", "")

    assert find_library_file(rig) == outer.resolve()

    inner = write(tmp_path / "jobs" / "rigmint.yaml", LIBRARY)

    assert find_library_file(rig) == inner.resolve()


@pytest.mark.parametrize("is_file", [True, False])
def test_the_search_stops_at_a_checkout(tmp_path: Path, is_file: bool) -> None:
    # `.git` is a folder in a checkout and a file in a worktree.
    write(tmp_path / "rigmint.yaml", LIBRARY)
    checkout = tmp_path / "checkout"
    rig = write(checkout / "jobs" / "a.rig.yaml", "")
    if is_file:
        write(checkout / ".git", "gitdir: elsewhere")
    else:
        (checkout / ".git").mkdir()

    assert find_library_file(rig) is None

    own = write(checkout / "rigmint.yaml", LIBRARY)

    assert find_library_file(rig) == own.resolve()


def test_a_folder_called_like_a_library_is_none(tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    (tmp_path / "rigmint.yaml").mkdir()

    assert find_library_file(tmp_path / "a.rig.yaml") is None


def test_what_a_library_says(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    path = write(
        tmp_path / "rigmint.yaml",
        LIBRARY
        + """parts: [parts]
packs: {need: [kestrel-house], without: [prep]}
rules:
  runtime:short: {at_least: 45 min}
  tidy:unused-item: {grade: thin}
  windup:lead: off
accepted: [{code: misplug:burns, at: "generic/lens-motor.bus_*", why: sleeves, by: prep lead, until: 2027-06-30}]
power: {change_at: 20 %, peaks: 3, wire_temperature: 40 degC}
fail_on: thin
""",
    )
    house = load_library(path).house

    assert (house.title, house.packs_needed, house.packs_left_out) == ("Kestrel Hire", ("kestrel-house",), ("prep",))
    assert house.rules == {
        "runtime:short": RuleOverride(False, None, {"at_least": "45 min"}),
        "tidy:unused-item": RuleOverride(False, Grade.THIN, {}),
        "windup:lead": RuleOverride(is_off=True),
    }
    assert (house.accepted[0].place, house.accepted[0].until, house.fail_on) == ("library.0", "2027-06-30", Grade.THIN)
    assert (house.power.change_at, house.power.wire_temperature) == pytest.approx((0.2, 313.15))
    assert (house.power.age, house.power.peaks) == (0.85, 3)


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("title: x", [("file:missing-key", 1)]),
        (f"{LIBRARY}parts: [gone]", [("file:unreadable", 3)]),
        (f"{LIBRARY}fail_on: worse", [("file:bad-value", 3)]),
        (f"{LIBRARY}powr: {{}}", [("file:unknown-key", 3)]),
        (f"{LIBRARY}power: {{change_at: 15}}\nparts: [gone]", [("file:unreadable", 4), ("file:wrong-unit", 3)]),
        (
            f"{LIBRARY}accepted: [{{code: a:b, at: x, why: y, by: z, until: 2027-02-30}}]",
            [("file:bad-value", 3)],
        ),
        ("- a", [("file:wrong-kind", 1)]),
        ("", [("file:wrong-kind", 1)]),
    ],
)
def test_faults_of_a_library_file(tmp_path: Path, text: str, faults: list[tuple[str, int]]) -> None:
    library = load_library(write(tmp_path / "rigmint.yaml", text))

    assert sorted((code, line) for _, code, line, _ in list_found(library)) == sorted(faults)


def test_a_library_file_that_is_not_there(tmp_path: Path) -> None:
    found = list_found(load_library(tmp_path / "rigmint.yaml"))

    assert [(name, code) for name, code, _, _ in found] == [("rigmint.yaml", "file:no-library")]


def test_without_a_library_the_defaults_of_the_house_hold() -> None:
    library = load_library(None)

    assert (library.house.fail_on, library.house.file, library.roots) == (Grade.FIGHT, None, ())


def test_paths_are_shown_from_the_working_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "jobs").mkdir()
    monkeypatch.chdir(tmp_path / "jobs")

    assert library_file.show_path(tmp_path / "jobs" / "a" / "x.rig.yaml") == "a/x.rig.yaml"
    assert library_file.show_path(tmp_path / "x.rig.yaml") == "../x.rig.yaml"


def test_rig_files_are_found_once_each_and_hidden_folders_left_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in (
        "b.rig.yaml",
        "a/c.rig.yaml",
        ".git/d.rig.yaml",
        "a/.e.rig.yaml",
        "a/f.yaml",
        "node_modules/g.rig.yaml",
    ):
        write(tmp_path / name, "")
    files, faults = find_rig_files([Path("."), Path("b.rig.yaml"), Path("a/f.yaml")])

    assert ([file.as_posix() for file in files], faults) == (["a/c.rig.yaml", "a/f.yaml", "b.rig.yaml"], ())


def test_a_folder_without_rig_files_and_a_path_that_is_not_there(tmp_path: Path) -> None:
    _, empty = find_rig_files([tmp_path])
    _, gone = find_rig_files([tmp_path / "gone"])

    assert [(fault.code, "no rig file" in fault.says) for fault in empty] == [("file:unreadable", True)]
    assert [(fault.code, "no such file" in fault.says) for fault in gone] == [("file:unreadable", True)]
