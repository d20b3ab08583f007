"""Names that files, folders and packs are laid down by: nothing is written over, and nothing odd becomes a path."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main

ODD = ["", ".", "..", "/", "CON", "a\nb", "a;b", "-x", "a/..", "..rig.yaml", "a\u200bb", "a" * 300, "none/a"]


def start(*words: str) -> Result:
    return CliRunner().invoke(main, ["start", *words])


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("what", ["rig", "part", "library", "pack"])
@pytest.mark.parametrize("name", ODD)
def test_what_is_no_name_is_refused(tmp_path: Path, what: str, name: str) -> None:
    result = start(what, *(["--yes"] if what in ("rig", "part") else []), "--", name)

    assert result.exit_code != 0
    assert "Traceback" not in result.output
    assert result.output.startswith("Error: ")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("os", "a word of Python's own"),
        ("class", "a word of Python's own"),
        ("tests", "a word of Python's own"),
        ("rigmint-more", "a name of rigmint's own"),
        ("polarity", "a name of rigmint's own"),
        ("Kestrel", "is no name for a pack"),
        ("a b", "is no name for a pack"),
        ("1st", "is no name for a pack"),
        ("kestrel--house", "is no name for a pack"),
        ("ünten", "is no name for a pack"),
    ],
)
def test_a_pack_has_a_name_that_python_can_say(tmp_path: Path, name: str, says: str) -> None:
    result = start("pack", name)

    assert result.exit_code != 0
    assert says in result.output
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("words", "path"),
    [
        (("rig", "--yes", "one"), "one.rig.yaml"),
        (("part", "--yes", "one"), "one.part.yaml"),
        (("library", "one"), "one"),
        (("pack", "one"), "one"),
    ],
)
def test_nothing_is_written_over(tmp_path: Path, words: tuple[str, ...], path: str) -> None:
    (tmp_path / path).write_text("mine", encoding="utf-8")
    result = start(*words)

    assert result.exit_code != 0
    assert "is there already, and nothing is written over" in result.output
    assert (tmp_path / path).read_text(encoding="utf-8") == "mine"


def test_a_link_that_leads_nowhere_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "one.rig.yaml").symlink_to(tmp_path / "elsewhere")
    result = start("rig", "--yes", "one")

    assert result.exit_code != 0
    assert not (tmp_path / "elsewhere").exists()


@pytest.mark.parametrize("name", ["Saltmarsh", "two-up", "wet_night 2"])
def test_a_name_becomes_a_title(tmp_path: Path, name: str) -> None:
    result = start("rig", "--yes", name)

    assert result.exit_code == 0
    title = {"Saltmarsh": "Saltmarsh", "two-up": "Two up", "wet_night 2": "Wet night 2"}[name]
    assert f'\nrig: "{title}"\n' in (tmp_path / f"{name}.rig.yaml").read_text(encoding="utf-8")
