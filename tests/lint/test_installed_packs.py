"""Packs as pip leaves them: distributions with entry points beside rigmint, one of each sort that can go wrong.

Each is a folder `NAME.dist-info` and a module in a folder of the module search path, and rigmint is a process of its
own, so that what a pack does to the process is seen.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

RIG = """\
rigmint: 1
rig: Saltmarsh, bare
kit: {battery: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, camera: generic/camera-compact}
docks: [battery.mount > plate.battery]
leads:
  P1: {part: generic/lead-tap-to-2pin-plus-first, from: plate.tap_1, to: camera.dc_in}
"""
RULES = """\
from rigmint import Finding, Grade, Rule, hookimpl
PACK_API = 1

def find(case):
    yield Finding("CODE", Grade.TIDY, "Seen.", "camera", "camera")

def make(code, check):
    return Rule(code, (Grade.TIDY,), "A", "B.", "C.", "D.", "house rule", check)

@hookimpl
def rigmint_rules():
    return [make("CODE", CHECK)]
"""


def write_pack(site: Path, name: str, module: str) -> None:
    """A pack as installed."""
    target = f"pack_{name.replace('-', '_')}"
    (site / f"{target}.py").write_text(module, encoding="utf-8")
    info = site / f"pack_{name}-1.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text(f"Metadata-Version: 2.1\nName: pack-{name}\nVersion: 1.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[rigmint.packs]\n{name} = {target}\n", encoding="utf-8")


def make_pack(code: str, check: str = "find", more: str = "") -> str:
    return RULES.replace("CODE", code).replace("CHECK", check) + more


PACKS = {
    "good": make_pack("good:seen"),
    "raises": make_pack("raises:rule", "bad", "\ndef bad(case):\n    raise LookupError('no figures')\n    yield\n"),
    "wrong-type": make_pack("wrong:type", "bad", "\ndef bad(case):\n    yield 'camera'\n"),
    "undeclared": make_pack("undeclared:one", "bad", "\ndef bad(case):\n    yield Finding('undeclared:two', Grade.TIDY, 'a', 'camera', 'camera')\n"),
    "other-api": make_pack("other:api").replace("PACK_API = 1", "PACK_API = 2"),
    "one-code": make_pack("shared:code"),
    "two-code": make_pack("shared:code"),
    "core-code": make_pack("file:mine"),
    "exits": "import sys\nsys.exit(0)\n",
    "import-fails": "import rigmint_none_such\n",
    "hook-misspelt": make_pack("hook:misspelt").replace("def rigmint_rules", "def rigmint_rulez"),
    "noisy": "print('while imported')\n" + make_pack("noisy:rule", "bad", "\ndef bad(case):\n    print('while run')\n    return ()\n"),
}  # fmt: skip


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> subprocess.CompletedProcess[str]:
    folder = tmp_path_factory.mktemp("packs")
    site = folder / "site"
    site.mkdir()
    for name, module in PACKS.items():
        write_pack(site, name, module)
    (folder / "bare.rig.yaml").write_text(RIG, encoding="utf-8")
    command = "import sys; from rigmint.commands import main; sys.argv[0] = 'rigmint'; main()"
    return subprocess.run(
        [sys.executable, "-c", command, "check", "bare.rig.yaml", "--as", "json"],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(site)},
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def report(checked: subprocess.CompletedProcess[str]) -> dict[str, Any]:
    return dict(json.loads(checked.stdout))


def test_the_run_ends_with_2_and_without_a_traceback(checked: subprocess.CompletedProcess[str]) -> None:
    assert checked.returncode == 2
    assert "Traceback" not in checked.stderr


def test_the_rest_is_still_checked(report: dict[str, Any]) -> None:
    codes = [finding["code"] for finding in report["files"][0]["findings"]]

    assert "polarity:reversed" in codes
    assert "good:seen" in codes
    assert not {"shared:code", "undeclared:one", "undeclared:two", "other:api", "file:mine"} & set(codes)


@pytest.mark.parametrize(
    ("pack", "code", "says"),
    [
        ("other-api", "pack:refused", "pack other-api 1.0 was built for version 2 of the pack contract; this rigmint has version 1"),
        ("one-code", "pack:refused", "the code `shared:code` is declared twice, by one-code and two-code: none of them is run"),
        ("core-code", "pack:broken", "pack core-code 1.0 does not register: ValueError: `file:mine`: the family `file` is the core's own"),
        ("exits", "pack:broken", "pack exits 1.0 cannot be imported: SystemExit: 0"),
        ("import-fails", "pack:broken", "pack import-fails 1.0 cannot be imported: ModuleNotFoundError: No module named 'rigmint_none_such'"),
    ],
)  # fmt: skip
def test_packs_that_cannot_be_used(report: dict[str, Any], pack: str, code: str, says: str) -> None:
    assert [(one["code"], one["says"]) for one in report["unread"] if one["file"] == pack] == [(code, says)]


def test_a_misspelt_hook_is_no_silence(report: dict[str, Any]) -> None:
    (fault,) = [one for one in report["unread"] if one["file"] == "hook-misspelt"]

    assert fault["says"].startswith(
        "pack hook-misspelt 1.0 does not register: PluginValidationError: unknown hook 'rigmint_rulez'"
    )


def test_each_fault_is_told_and_none_else(report: dict[str, Any]) -> None:
    assert [one["file"] for one in report["unread"]] == [
        "core-code", "exits", "hook-misspelt", "import-fails", "other-api", "one-code",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("rule", "says"),
    [
        ("raises:rule", "rule raises:rule of pack raises 1.0 failed in setup as_wired: LookupError: no figures"),
        ("wrong:type", "rule wrong:type of pack wrong-type 1.0 failed in setup as_wired: TypeError: it gave str where a Finding is due"),
        ("undeclared:one", "rule undeclared:one of pack undeclared 1.0 failed in setup as_wired: ValueError: it gave the code 'undeclared:two', which it did not declare"),
    ],
)  # fmt: skip
def test_rules_that_fail(report: dict[str, Any], rule: str, says: str) -> None:
    crashes = [one["says"] for one in report["files"][0]["unread"] if f"rule {rule} " in one["says"]]

    assert crashes == [says]


def test_what_packs_print_is_no_part_of_the_report(checked: subprocess.CompletedProcess[str]) -> None:
    assert checked.stdout.startswith("{")
    assert checked.stderr.splitlines() == ["while imported", "while run"]
