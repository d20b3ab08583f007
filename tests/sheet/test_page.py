"""The sheet as a document: whole, self-contained, escaped, the same bytes each time, small."""

from __future__ import annotations

import base64
import hashlib
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner

from rigmint.commands import main
from tests.sheet.pages import DAY, RIGS, write_hostile_sheet, write_sheet

SECTIONS = ["card", "plugging", "switching", "settings", "change", "fails", "drawings", "pull", "power", "answers"]
VOID = {"meta", "input", "br", "img", "link", "hr"}


class Reader(HTMLParser):
    """Elements in order, and whether each that opens closes in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if not self.open or self.open[-1] not in ("script", "style"):
            self.text.append(data)


def read(path: Path) -> Reader:
    reader = Reader()
    reader.feed(path.read_text(encoding="utf-8"))
    reader.close()
    assert reader.open == []
    return reader


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_every_section_is_there_in_order_and_every_id_once(path: Path) -> None:
    reader = read(write_sheet(path))

    ids = [attributes["id"] for _, attributes in reader.tags if attributes.get("id")]
    assert [one for one in ids if one in SECTIONS] == SECTIONS
    assert len(ids) == len(set(ids))
    named = {attributes["id"] for tag, attributes in reader.tags if attributes.get("id")}
    referred = [attributes["aria-labelledby"] for _, attributes in reader.tags if attributes.get("aria-labelledby")]
    assert [one for names in referred for one in str(names).split() if one not in named] == []


@pytest.mark.parametrize("path", RIGS, ids=lambda path: path.name)
def test_nothing_is_fetched_and_the_page_is_small(path: Path) -> None:
    sheet = write_sheet(path)
    text = sheet.read_text(encoding="utf-8")

    assert sheet.stat().st_size < 500_000
    assert re.findall(r'(?:src|href|action|data)="(?!#)[^"]*"', text) == []
    assert "url(" not in text
    assert "@import" not in text


def test_only_the_page_s_own_style_and_script_hold() -> None:
    text = write_sheet(RIGS[0]).read_text(encoding="utf-8")
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', text)
    assert policy is not None
    for tag in ("style", "script"):
        (inner,) = re.findall(rf"<{tag}>(.*?)</{tag}>", text, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(inner.encode()).digest()).decode()
        assert f"{tag}-src &#39;sha256-{digest}&#39;" in policy[1]
    assert "default-src &#39;none&#39;" in policy[1]
    assert re.findall(r'\sstyle="', text) == []
    assert re.findall(r"\son\w+=", text) == []


def test_hostile_names_are_text() -> None:
    reader = read(write_hostile_sheet())
    text = "".join(reader.text)

    assert {tag for tag, _ in reader.tags} & {"img", "b", "i", "u"} == set()
    assert [tag for tag, _ in reader.tags].count("script") == 1
    assert "<img src=x onerror=alert(2)>" in text
    assert "{{ 7 * 7 }}" in text
    assert "\u202e" not in text


def test_the_same_input_gives_the_same_bytes(tmp_path: Path) -> None:
    pages = []
    for name in ("a", "b"):
        out = tmp_path / name
        CliRunner().invoke(main, ["sheet", str(RIGS[0]), "--out", str(out), "--today", DAY])
        pages.append(out.read_bytes())

    assert pages[0] == pages[1]


def test_the_content_hash_is_that_of_what_is_said_and_not_of_its_layout(tmp_path: Path) -> None:
    rig = "rigmint: 1\nrig: Saltmarsh\nkit: {lamp: generic/light-on-board}\n"
    texts = [
        rig,
        rig.replace("kit: {lamp: generic/light-on-board}", "kit:\n  # a comment\n  lamp: generic/light-on-board"),
    ]
    texts.append(rig.replace("Saltmarsh", "Oat Field"))
    hashes = []
    for index, text in enumerate(texts):
        path = tmp_path / f"{index}.rig.yaml"
        path.write_text(text, encoding="utf-8")
        page = CliRunner().invoke(main, ["sheet", str(path), "--today", DAY]).output
        hashes.append(re.findall(r"content ([0-9a-f]{12})", page)[0])

    assert hashes[0] == hashes[1] != hashes[2]


def test_a_rig_that_cannot_be_read_ends_in_status_2_with_nothing_on_standard_output(tmp_path: Path) -> None:
    path = tmp_path / "a.rig.yaml"
    path.write_text("rigmint: 1\nrig: Saltmarsh\nkit: {a: generic/none-such}\n", encoding="utf-8")

    result = CliRunner().invoke(main, ["sheet", str(path)])

    assert result.exit_code == 2
    assert "file:unknown-name" in result.stderr
    assert result.stdout == ""


def test_power_rows_name_the_volts_that_a_meter_shows() -> None:
    """A 4S lithium battery: 12.0 to 16.8 V (3.0 and 4.2 V a cell, common practice)."""
    text = "".join(read(write_sheet(next(path for path in RIGS if "saltmarsh" in path.name))).text)

    assert "12.0 to 16.8 V" in text


def test_pdf_is_the_same_page() -> None:
    pytest.importorskip("weasyprint")
    result = CliRunner().invoke(main, ["sheet", str(RIGS[0]), "--as", "pdf", "--today", DAY])

    assert result.exit_code == 0, result.output
    assert result.stdout_bytes.startswith(b"%PDF-")
