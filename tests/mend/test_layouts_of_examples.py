"""Every sound example rewritten in other styles: an edit of each kind is written so that the rig that is read is the one
that is meant, and taking it back gives the file as it was."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from rigmint.library.build_rig import assemble_rig, read_rig
from rigmint.library.document import Document, Value
from rigmint.library.faults import FaultList
from rigmint.library.library_file import Library, load_library
from rigmint.library.text_edits import apply_text_edits, plan_text_edits, reads_as
from rigmint.library.tree_edits import Edit, apply_edits
from rigmint.library.yaml import parse_yaml

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
SOUND = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))
STYLES = ("as it is", "block", "flow", "mixed", "JSON", "wide", "CRLF")


def rewrite(text: str, style: str) -> str:
    """The same tree in another style; the comments go, save where the text stays."""
    if style == "as it is":
        return text
    if style == "CRLF":
        return text.replace("\n", "\r\n")
    tree = parse(text).tree
    if style == "JSON":
        return json.dumps(tree, indent=1, ensure_ascii=False)
    yaml = YAML(typ="safe", pure=True)
    yaml.default_flow_style = {"block": False, "flow": True, "mixed": None, "wide": False}[style]
    yaml.sort_base_mapping_type_on_output = False
    if style == "wide":
        yaml.indent = 6
    stream = io.StringIO()
    yaml.dump(tree, stream)
    return stream.getvalue()


def parse(text: str) -> Document:
    """The document of a text without faults."""
    faults = FaultList()
    document = parse_yaml(text, "x.rig.yaml", faults)
    assert document is not None
    assert faults.found == []
    return document


@pytest.fixture(scope="module")
def library() -> Library:
    """The examples' library."""
    return load_library(EXAMPLES / "rigmint.yaml")


def list_edits(tree: Value) -> list[tuple[Edit, ...]]:
    """An edit of each kind that a rule may ask for, on what this rig holds."""
    assert isinstance(tree, dict)
    leads, kit, setups = tree["leads"], tree["kit"], tree["setups"]
    assert isinstance(leads, dict)
    assert isinstance(kit, dict)
    assert isinstance(setups, dict)
    label, setup = next(iter(leads)), next(iter(setups))
    return [
        (Edit("set", ("setups", setup, "set", "head.mode"), "custom"),),
        (Edit("set", ("settings", "head.dial"), "none"), Edit("set", ("marked", f"{label}:b"), "taped")),
        (Edit("remove", ("leads", label)),),
        (Edit("remove", ("leads", label)), Edit("set", ("leads", "Z9"), {"part": "generic/lead-bus", "from": "a.b", "to": "c.d"})),
        tuple(Edit("remove", ("leads", one)) for one in leads),
        (Edit("add", ("setups", setup, "unplugged"), label),),
        (Edit("add", ("accepted",), {"code": "runtime:short", "at": "battery", "why": "x: y", "by": "prep"}),),
        (Edit("set", ("kit", next(iter(kit))), "generic/battery-98wh-wedge"),),
    ]  # fmt: skip


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.name)
def test_edits_of_every_kind_are_written_in_every_style(path: Path, style: str) -> None:
    text = rewrite(path.read_text(encoding="utf-8"), style)
    document = parse(text)
    for edits in list_edits(document.tree):
        planned = plan_text_edits(document, edits)
        after = apply_text_edits(text, planned)

        assert reads_as(parse(after), apply_edits(document.tree, edits)), (style, edits)
        assert plan_text_edits(parse(after), [one for one in edits if one.do == "set"]) == ()


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.name)
def test_a_rig_in_another_style_is_the_same_rig(path: Path, style: str, library: Library) -> None:
    """So that the other test of this file is about rigs, and not about texts that nobody could read."""
    read = read_rig(path, library)
    assert read.rig is not None
    again = assemble_rig(parse(rewrite(path.read_text(encoding="utf-8"), style)), library, FaultList())

    assert again.faults == ()
    assert again.rig is not None
    assert (again.rig.leads, again.rig.setups) == (read.rig.leads, read.rig.setups)
