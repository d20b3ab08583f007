"""The house's own JSON Schemas: what they hold against files, what makes one useless, and what cannot be made to hang."""

from __future__ import annotations

import json
import threading
import time
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path
from typing import Any

import pytest

from rigmint.library.build_rig import read_rig
from rigmint.library.faults import Fault
from rigmint.library.house_schemas import HouseSchemas
from rigmint.library.library_file import Library, load_library

LIBRARY = "rigmint_library: 1\nparts: [parts]\nhouse: {rig: house/rig.schema.json, part: house/part.schema.json}\n"
RIG = """\
rigmint: 1
rig: Saltmarsh
kit:
  camera: {part: generic/camera-compact, asset: CAM-7}
house:
  shelf: C4
  level: 2
"""
ANYTHING: dict[str, Any] = {}


def make_house(folder: Path, rig: Any = ANYTHING, part: Any = ANYTHING, *, library: str = LIBRARY) -> Library:
    """A library whose schemas are given as values, or as text where they are no JSON."""
    (folder / "house").mkdir(exist_ok=True)
    (folder / "parts").mkdir(exist_ok=True)
    for name, schema in (("rig", rig), ("part", part)):
        text = schema if isinstance(schema, str) else json.dumps(schema, indent=2)
        (folder / "house" / f"{name}.schema.json").write_text(text, encoding="utf-8")
    (folder / "rigmint.yaml").write_text(library, encoding="utf-8")
    return load_library(folder / "rigmint.yaml")


def check_rig(folder: Path, library: Library, text: str = RIG, name: str = "a.rig.yaml") -> tuple[Fault, ...]:
    """What the house's schema holds against a rig."""
    (folder / name).write_text(text, encoding="utf-8")
    read = read_rig(folder / name, library)
    assert read.document is not None
    return HouseSchemas(library.house_paths).check_rig(read.document)


def show(faults: tuple[Fault, ...]) -> list[tuple[int, str, str]]:
    """Line, code and sentence, without the name of the schema that is the same in all."""
    return [(fault.line, fault.code, fault.says.partition("schema.json: ")[2]) for fault in faults]


@pytest.mark.parametrize(
    ("schema", "found"),
    [
        (ANYTHING, []),
        ({"properties": {"house": {"required": ["shelf"]}}}, []),
        ({"required": ["job"]}, [(1, "file:missing-key", "`job` must be stated")]),
        (
            {"required": ["job"], "properties": {"job": {"description": "By which it is booked in."}}},
            [(1, "file:missing-key", "`job` must be stated (By which it is booked in)")],
        ),
        ({"required": ["job"], "x-says": "a rig of ours has its `job`"}, [(1, "file:missing-key", "a rig of ours has its `job`")]),
        (
            {"properties": {"house": {"properties": {"shelf": {"pattern": "^[A-B]", "description": "Two shelves are ours."}}}}},
            [(6, "file:bad-value", "house.shelf: `C4` is not written as it should be here (Two shelves are ours)")],
        ),
        (
            {"properties": {"house": {"properties": {"level": {"maximum": 1}, "shelf": {"type": "integer"}}}}},
            [(6, "file:wrong-kind", "house.shelf: `C4` stands where a whole number is due"), (7, "file:bad-value", "house.level: `2` is out of bounds: it must be at most 1")],
        ),
        (
            {"properties": {"house": {"additionalProperties": False, "properties": {"shelf": True}}}},
            [(7, "file:unknown-key", "house: `level` is no key here; the keys are `shelf`")],
        ),
        ({"properties": {"kit": {"propertyNames": {"pattern": "^x"}}}}, [(4, "file:bad-value", "kit.camera: `camera` is not written as it should be here")]),
        ({"properties": {"house": {"not": {"required": ["level"]}}}}, [(5, "file:bad-value", "house: a mapping of keys is what must not stand here")]),
        ({"if": {"required": ["kit"]}, "then": {"required": ["crew"]}}, [(1, "file:missing-key", "`crew` must be stated")]),
        ({"properties": {"house": {"dependentRequired": {"level": ["row"]}}}}, [(5, "file:bad-value", "house: a key is missing that another one needs: `level` needs `row`")]),
        ({"properties": {"house": {"properties": {"shelf": {"minLength": 3}}}}}, [(6, "file:bad-value", "house.shelf: `C4` is too short: at least 3 characters are due")]),
        ({"properties": {"house": {"properties": {"shelf": False}}}}, [(5, "file:bad-value", "house: `C4` may not stand here")]),
        ({"$defs": {"two": {"const": 3}}, "properties": {"house": {"properties": {"level": {"$ref": "#/$defs/two"}}}}}, [(7, "file:bad-value", "house.level: `2` is not one of `3`")]),
    ],
)  # fmt: skip
def test_what_is_held_against_a_rig(tmp_path: Path, schema: Any, found: list[tuple[int, str, str]]) -> None:
    faults = check_rig(tmp_path, make_house(tmp_path, schema))

    assert show(faults) == found


def test_the_schema_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (fault,) = check_rig(Path(), make_house(Path(), {"required": ["job"]}))

    assert (fault.file, fault.says) == ("a.rig.yaml", "house schema house/rig.schema.json: `job` must be stated")


def test_the_rig_is_judged_as_it_stands_after_like(tmp_path: Path) -> None:
    library = make_house(
        tmp_path, {"properties": {"house": {"required": ["shelf"], "properties": {"level": {"const": 3}}}}}
    )
    check_rig(tmp_path, library)
    inherits = "rigmint: 1\nrig: Saltmarsh, again\nlike: a.rig.yaml\n"
    faults = check_rig(tmp_path, library, inherits, "b.rig.yaml")

    # The shelf is inherited, and so is the level, which stands in the other file.
    assert [(Path(fault.file).name, fault.line) for fault in faults] == [("a.rig.yaml", 7)]


def test_a_rig_that_the_project_refuses_is_held_to_the_schema_too(tmp_path: Path) -> None:
    faults = check_rig(tmp_path, make_house(tmp_path, {"required": ["job"]}), RIG + "nonsense: 1\n")

    assert [fault.code for fault in faults] == ["file:missing-key"]


PART = """\
parts:
  - rigmint_part: 1
    id: house/base
    kind: lens
    mass: 1 kg
  - rigmint_part: 1
    id: house/lens
    like: house/base
    kind: lens
    figures: scale in the workshop
"""


def test_parts_of_the_house_are_held_to_the_schema_and_others_are_not(tmp_path: Path) -> None:
    make_house(tmp_path, part={"required": ["figures", "mass"], "properties": {"id": {"pattern": "^house/"}}})
    (tmp_path / "parts" / "lens.part.yaml").write_text(PART, encoding="utf-8")
    library = load_library(tmp_path / "rigmint.yaml")
    faults = HouseSchemas(library.house_paths).check_parts(library.catalogue)

    # `mass` is inherited by the second; `figures` is not, and the first has none.
    assert show(faults) == [(2, "file:missing-key", "`figures` must be stated")]


DRAFT_7 = "http://json-schema.org/draft-07/schema#"


@pytest.mark.parametrize(
    ("schema", "line", "code", "says"),
    [
        ("{\n  \"type\": ,\n}", 2, "file:wrong-kind", "a house schema is JSON, and this is not: expecting value"),
        ("[1]", 1, "file:wrong-kind", "a house schema is an object of keywords"),
        ('{"type": "object", "type": "array"}', 1, "file:duplicate-key", "`type` stands twice in one object of the schema"),
        ("[" * 100_000, 1, "file:too-deep", "the schema nests deeper than is read"),
        ({"$schema": DRAFT_7}, 2, "file:bad-value", f"the schema is written for `{DRAFT_7}`; house schemas are JSON Schema 2020-12,"),
        ({"type": "thing"}, 2, "file:bad-value", "this is no JSON Schema: 'thing' is not"),
        ({"properties": {"a": {"minimum": "1"}}}, 4, "file:bad-value", "this is no JSON Schema: '1' is not of type 'number'"),
        ({"properties": {"a": {"pattern": "("}}}, 4, "file:bad-value", "`(` is no pattern: "),
        ({"patternProperties": {"(": {}}}, 3, "file:bad-value", "`(` is no pattern: "),
        ({"allOf": [{"$ref": "https://kestrel.example/a.json"}]}, 4, "file:bad-value", "`$ref: https://kestrel.example/a.json` leads out of the schema: nothing is fetched"),
        ({"$ref": "other.schema.json"}, 2, "file:bad-value", "`$ref: other.schema.json` leads out of the schema"),
        ({"$ref": "file:///etc/passwd"}, 2, "file:bad-value", "`$ref: file:///etc/passwd` leads out of the schema"),
        ({"$ref": "#/$defs/a"}, 2, "file:bad-value", "`$ref: #/$defs/a` leads nowhere in the schema"),
        ({"$ref": "#a"}, 2, "file:bad-value", "`$ref: #a` leads nowhere in the schema"),
    ],
)  # fmt: skip
def test_a_schema_that_is_useless(tmp_path: Path, schema: Any, line: int, code: str, says: str) -> None:
    library = make_house(tmp_path, schema)
    schemas = HouseSchemas(library.house_paths)
    (fault,) = schemas.find_faults()

    assert (fault.line, fault.code) == (line, code)
    assert fault.says.startswith(says)
    assert Path(fault.file).name == "rig.schema.json"
    # It is said once, and not again for each rig.
    assert check_rig(tmp_path, library) == ()


@pytest.mark.parametrize(
    "schema",
    [
        {"properties": {"a": {"const": {"$ref": "https://kestrel.example/a.json"}}}},
        {"examples": [{"$ref": "nowhere"}], "default": {"pattern": "("}},
        {"properties": {"$ref": {"type": "string"}, "pattern": {"type": "string"}}},
        {"$id": "https://kestrel.example/rig.json", "$ref": "https://kestrel.example/rig.json#/$defs/a", "$defs": {"a": {}}},
        {"$defs": {"a": {"$anchor": "here"}}, "$ref": "#here"},
        {"$schema": "https://json-schema.org/draft/2020-12/schema"},
    ],
)  # fmt: skip
def test_a_schema_that_is_whole(tmp_path: Path, schema: Any) -> None:
    library = make_house(tmp_path, schema)

    assert HouseSchemas(library.house_paths).find_faults() == ()
    assert check_rig(tmp_path, library) == ()


@pytest.fixture
def server() -> Iterator[tuple[str, list[str]]]:
    """A server on this computer, and the paths that it was asked for."""
    asked: list[str] = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            asked.append(self.path)
            self.send_response(200)
            self.end_headers()
            self.wfile.write(b"{}")

        def log_message(self, *_arguments: object) -> None:
            pass

    with HTTPServer(("127.0.0.1", 0), Handler) as http:
        thread = threading.Thread(target=http.serve_forever)
        thread.start()
        yield f"http://127.0.0.1:{http.server_port}", asked
        http.shutdown()
        thread.join()


@pytest.mark.parametrize("keyword", ["$ref", "$dynamicRef", "$schema", "$id"])
def test_nothing_is_fetched(tmp_path: Path, server: tuple[str, list[str]], keyword: str) -> None:
    address, asked = server
    check_rig(tmp_path, make_house(tmp_path, {keyword: f"{address}/a.json", "properties": {"rig": {"$ref": "#"}}}))

    assert asked == []


RUNAWAY = {"properties": {"rig": {"pattern": "^(a+)+$"}}}
"""Backtracks for ever on many an `a` and something else."""


def test_a_pattern_that_never_ends_is_stopped(tmp_path: Path) -> None:
    library = make_house(tmp_path, RUNAWAY)
    schemas = HouseSchemas(library.house_paths, seconds=0.5)
    documents = []
    for name in ("a.rig.yaml", "b.rig.yaml"):
        (tmp_path / name).write_text(f"rigmint: 1\nrig: {'a' * 60}!\nkit: {{}}\n", encoding="utf-8")
        document = read_rig(tmp_path / name, library).document
        assert document is not None
        documents.append(document)
    started = time.monotonic()
    found = [schemas.check_rig(document) for document in documents]
    taken = time.monotonic() - started

    for name, faults in zip(("a.rig.yaml", "b.rig.yaml"), found, strict=True):
        (fault,) = faults
        assert f"{name} was not checked against the house schema" in fault.says
        assert "it took more than 0.5 s and was stopped" in fault.says
    assert taken < 30  # the second file does not wait again; the start of the process counts too


def test_a_schema_that_refers_to_itself_is_no_traceback(tmp_path: Path) -> None:
    (fault,) = check_rig(tmp_path, make_house(tmp_path, {"$ref": "#"}))

    assert "it refers to itself without end" in fault.says


@pytest.mark.parametrize(
    ("house", "says"),
    [
        ("{rig: house/none.json}", "`house:` names house/none.json, which is not there"),
        ("{part: ../outside.json}", "`house:` names ../outside.json, which leads out of the library's folder"),
        ("{checks: [/etc/hostname]}", "`house:` names /etc/hostname, which leads out of the library's folder"),
        ("{checks: [house/link.py]}", "`house:` names house/link.py, which leads out of the library's folder"),
    ],
)
def test_files_of_the_house_lie_in_its_folder(tmp_path: Path, house: str, says: str) -> None:
    folder = tmp_path / "library"
    folder.mkdir()
    for name in ("outside.json", "outside.py"):
        (tmp_path / name).write_text("{}", encoding="utf-8")
    (folder / "house").mkdir()
    (folder / "house" / "link.py").symlink_to(tmp_path / "outside.py")
    library = make_house(folder, library=f"rigmint_library: 1\nparts: [parts]\nhouse: {house}\n")

    assert [(fault.line, fault.code, fault.says) for fault in library.faults] == [(3, "file:unreadable", says)]


def test_a_schema_that_is_no_file(tmp_path: Path) -> None:
    library = make_house(tmp_path, library="rigmint_library: 1\nhouse: {rig: house}\n")
    (fault,) = HouseSchemas(library.house_paths).find_faults()

    assert fault.code == "file:unreadable"
