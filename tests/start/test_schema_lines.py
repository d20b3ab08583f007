"""Every skeleton names its schema in its first line, by the identifier that the schema has."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from rigmint.library.schemas import load_schema
from rigmint.start.render import TEMPLATES

LINE = re.compile(r"# yaml-language-server: \$schema=(\S+)")
KINDS = {".rig.yaml": "rig", ".part.yaml": "part", "rigmint.yaml": "library"}
TABLES = Path(__file__).parent / "tables"
BEGUN = (
    ("rig", "--yes", "asked"),
    ("rig", "tables", "--from", str(TABLES / "stage-leads.csv"), "--items", str(TABLES / "stage-items.csv")),
    ("part", "--yes", "thing"),
    ("part", "tail", "--kind", "lead", "--port", "a=d-tap", "--port", "b=0b-2"),
    ("library", "house"),
)


def test_every_file_that_is_laid_down_names_its_schema(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for words in BEGUN:
        assert CliRunner().invoke(main, ["start", *words]).exit_code == 0, words
    found = {}
    for path in tmp_path.rglob("*.yaml"):
        kind = next((kind for suffix, kind in KINDS.items() if path.name.endswith(suffix)), None)
        if kind is not None:
            match = LINE.fullmatch(path.read_text(encoding="utf-8").splitlines()[0])
            assert match is not None, path
            found[path.name] = (match[1], load_schema(kind)["$id"])

    assert len(found) == 7
    assert all(named == schema for named, schema in found.values())


def test_no_template_names_a_schema_that_is_none() -> None:
    ids = {load_schema(kind)["$id"] for kind in KINDS.values()}
    named = {one for path in TEMPLATES.rglob("*.j2") for one in LINE.findall(path.read_text(encoding="utf-8"))}

    assert named == ids
    assert all(re.fullmatch(r"https://\S+/schemas/[0-9]+/[a-z]+\.schema\.json", one) for one in ids)
