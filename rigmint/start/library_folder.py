"""A library: a folder with rigmint.yaml, parts, a first rig, and the check on each commit."""

from __future__ import annotations

import re

from rigmint.library.library_file import Library
from rigmint.start.lay_rig import write_started_rig
from rigmint.start.questions import QUESTIONS, build_answers
from rigmint.start.render import render_template
from rigmint.start.write_rig import quote


def write_library(name: str, library: Library) -> dict[str, str]:
    """Path below the folder to text. `library`: whose catalogue the first rig is made of."""
    title = " ".join(re.findall(r"[^\W_]+", name)).title()
    house = "-".join(re.findall(r"[a-z0-9]+", name.casefold())[:1]) or "house"
    values = {"title": quote(title), "bare_title": title, "house": "house" if house == "generic" else house}
    given: dict[str, str] = {}
    for question in QUESTIONS:
        given[question.key] = question.default(given)
    return {
        "rigmint.yaml": render_template("library/rigmint.yaml.j2", **values),
        "parts/own.part.yaml": render_template("library/own.part.yaml.j2", **values),
        "rigs/first.rig.yaml": write_started_rig(build_answers(given, "eu", library.catalogue), "First rig", library),
        ".pre-commit-config.yaml": render_template("library/pre-commit.yaml.j2", **values),
        "README.md": render_template("library/README.md.j2", **values),
    }
