"""`check` on the example library, whole: what the outputs say is true of the files."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from rigmint.commands import main

EXAMPLES = Path(__file__).parents[2] / "examples"
DAY = "2026-05-02"
MOVED = [
    "faults/fit-required-flip.rig.yaml",
    "faults/owner-mixed-head-dial.rig.yaml",
    "faults/polarity-unknown-string-lead.rig.yaml",
    "faults/voltage-over-raw-on-handgrip.rig.yaml",
]
BREAK = re.compile(r"\r\n|\n|\r")


def copy_library(folder: Path) -> Path:
    """A copy of the examples' main library."""
    for name in ("rigmint.yaml", "parts", "rigs", "faults"):
        source = EXAMPLES / name
        if source.is_dir():
            shutil.copytree(source, folder / name)
        else:
            shutil.copy(source, folder / name)
    return folder


@pytest.fixture
def library(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the library, in the working folder."""
    monkeypatch.chdir(tmp_path)
    return copy_library(tmp_path)


@pytest.fixture(scope="module")
def all_faults(tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """The results on every fault rig."""
    folder = copy_library(tmp_path_factory.mktemp("library"))
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        return read_log("faults")


def check(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["check", "--today", DAY, *arguments])


def read_log(*arguments: str) -> list[dict[str, Any]]:
    """The results of a run as SARIF."""
    results: list[dict[str, Any]] = json.loads(check("--as", "sarif", *arguments).stdout)["runs"][0]["results"]
    return results


def locate(result: dict[str, Any]) -> str:
    return str(result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"])


def apply_fix(text: str, fix: dict[str, Any]) -> str:
    """The text with a SARIF fix made, by its regions alone; columns count characters from 1, the end excluded."""
    starts = [0, *(match.end() for match in BREAK.finditer(text))]

    def find_offset(line: int, column: int) -> int:
        return starts[line - 1] + column - 1

    replacements = fix["artifactChanges"][0]["replacements"]
    for one in reversed(replacements):
        region = one["deletedRegion"]
        start = find_offset(region["startLine"], region["startColumn"])
        end = find_offset(region["endLine"], region["endColumn"])
        text = text[:start] + one["insertedContent"]["text"] + text[end:]
    return text


def name_result(result: dict[str, Any]) -> tuple[str, str]:
    return result["ruleId"], result["properties"]["cause"]


def test_fixes_put_the_files_right(library: Path, all_faults: list[dict[str, Any]]) -> None:
    """The first fix of each finding, made by the regions that the log gives alone, clears the finding."""
    before = [result for result in all_faults if "fixes" in result]
    (library / "fixed").mkdir()
    for index, result in enumerate(before):
        original = (library / locate(result)).read_text(encoding="utf-8")
        fixed = apply_fix(original, result["fixes"][0])
        (library / "fixed" / f"{index}.rig.yaml").write_text(fixed, encoding="utf-8")
    result = check("--as", "json", "fixed")
    files = {file["file"]: file for file in json.loads(result.stdout)["files"]}
    found = {
        index: [(one["code"], one["cause"]) for one in files[f"fixed/{index}.rig.yaml"]["findings"]]
        for index in range(len(before))
    }

    assert len(before) > 15
    assert [file["file"] for file in files.values() if file["unread"]] == []
    assert [name_result(one) for index, one in enumerate(before) if name_result(one) in found[index]] == []


def test_fingerprints_stay_when_lines_move(library: Path, all_faults: list[dict[str, Any]]) -> None:
    before = [one for one in all_faults if locate(one) in MOVED]
    for name in MOVED:
        path = library / name
        path.write_text("# moved\n\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    after = read_log(*MOVED)

    assert len(before) >= len(MOVED)
    assert [one["partialFingerprints"] for one in after] == [one["partialFingerprints"] for one in before]
    assert [one["locations"] for one in after] != [one["locations"] for one in before]


def test_fingerprints_tell_findings_apart(all_faults: list[dict[str, Any]]) -> None:
    prints = [one["partialFingerprints"]["rigmintFinding/v2"] for one in all_faults]

    assert len(set(prints)) == len(prints)


def test_since_an_earlier_run(library: Path) -> None:
    removed, stays = "faults/voltage-over-raw-on-handgrip.rig.yaml", "faults/owner-mixed-head-dial.rig.yaml"
    sound = "rigs/tin-kite-strings.rig.yaml"
    check("--as", "sarif", "--out", "before.sarif", removed, stays, sound)
    again = check("--since", "before.sarif", removed, stays, sound)
    text = (library / sound).read_text(encoding="utf-8")
    spoiled = text.replace("  - battery.mount > plate.battery\n", "")
    (library / sound).write_text(spoiled, encoding="utf-8")
    (library / removed).unlink()
    log = read_log("--since", "before.sarif", stays, sound)
    worse = check("--since", "before.sarif", stays, sound)
    states = {(locate(one), one["baselineState"]) for one in log}

    assert again.exit_code == 0
    assert "Since before.sarif: 0 new, 2 unchanged, 0 gone. Only what is new fails." in again.stdout
    assert spoiled != text
    assert states == {(removed, "absent"), (stays, "unchanged"), (sound, "new")}
    assert worse.exit_code == 1
    assert "1 gone (voltage:over at " in worse.stdout
    assert re.search(r"^dead +voltage:unpowered +new, line", worse.stdout, re.MULTILINE)


@pytest.mark.parametrize("content", ["not json", '{"version": "2.1.0", "runs": []}', None])
def test_a_since_that_is_no_log_is_status_2_and_nothing_is_checked(library: Path, content: str | None) -> None:
    if content is not None:
        (library / "log.sarif").write_text(content, encoding="utf-8")
    result = check("--since", "log.sarif", "rigs")

    assert (result.exit_code, result.stdout) == (2, "")
    assert "Error: log.sarif " in result.stderr
