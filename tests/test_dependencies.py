"""Every dependency has bounds on both sides, and its reason in DEVELOPERS.md."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parent.parent
_ROW = re.compile(r"^\| ([a-z][a-z0-9.-]*) \| (.+) \|$", re.MULTILINE)
_NEED = re.compile(r"^([A-Za-z0-9.-]+)>=[\d.]+,<[\d.]+$")


def list_needs() -> list[str]:
    """The requirements of the program, of its extras and of the development group."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    extras = project["project"]["optional-dependencies"].values()
    groups = project["dependency-groups"].values()
    needs = [*project["project"]["dependencies"], *(one for group in (*extras, *groups) for one in group)]
    assert len(needs) > 20
    return needs


def test_each_has_bounds_on_both_sides() -> None:
    assert [need for need in list_needs() if _NEED.match(need) is None] == []


def test_each_has_its_reason() -> None:
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    table = text[text.index("| package | why |") :].partition("\n\n")[0]
    reasons = dict(_ROW.findall(table))
    names = {need.partition(">")[0] for need in list_needs()}

    assert set(reasons) - {"package"} == names
