"""The page from its view: templates with everything escaped, its own style and script named by their hashes."""

from __future__ import annotations

import base64
import hashlib
from importlib.resources import files
from typing import TYPE_CHECKING

from rigmint.lint.results import ReportedFinding
from rigmint.report.draw.style import drawing_style
from rigmint.report.safe import clean
from rigmint.report.sheet.drawings import draw_grade_marks
from rigmint.words import CAUTIONS

if TYPE_CHECKING:
    from jinja2 import Environment

    from rigmint.report.sheet.view import Sheet

_TEMPLATES = "rigmint.report.sheet"


def render_sheet(sheet: Sheet) -> str:
    """The whole page."""
    from markupsafe import Markup

    style = Markup(_read("sheet.css") + drawing_style())
    script = Markup(_read("sheet.js"))
    return (
        _make_environment()
        .get_template("page.html.j2")
        .render(
            sheet=sheet,
            style=style,
            script=script,
            policy=_write_policy(style, script),
            marks=draw_grade_marks(),
            cautions=CAUTIONS,
        )
    )


def _make_environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        loader=PackageLoader(_TEMPLATES),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        finalize=_clean,
    )
    environment.filters["lights"] = list_lights
    return environment


def _clean(value: object) -> object:
    """Text as it may stand on a page: no control characters, no marks that turn the reading direction. What is
    already markup is ours."""
    return clean(value) if type(value) is str else value


def list_lights(finding: ReportedFinding) -> str:
    """The items, leads and ports that light up with a finding: its cause first, then where it shows and its path."""
    names: dict[str, None] = {}
    for place in (finding.cause, finding.at, *finding.also, *finding.path):
        owner = place.partition(":")[0] if not place.startswith(("link:", "dock:")) else place
        names |= {owner: None, owner.partition(".")[0]: None}
    return " ".join(names)


def _read(name: str) -> str:
    return (files(_TEMPLATES) / "templates" / name).read_text(encoding="utf-8")


def _write_policy(style: str, script: str) -> str:
    """Nothing is loaded from anywhere; only this style and this script hold (Content Security Policy Level 3)."""
    return (
        "default-src 'none'; base-uri 'none'; form-action 'none';"
        f" style-src 'sha256-{_hash(style)}'; script-src 'sha256-{_hash(script)}'"
    )


def _hash(text: str) -> str:
    return base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
