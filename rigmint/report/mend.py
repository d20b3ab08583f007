"""What `mend` did, for a person: what was mended, what is left, and the change as a unified diff."""

from __future__ import annotations

import re
from collections.abc import Sequence
from difflib import unified_diff

from rigmint.lint.accept import Signature
from rigmint.lint.mend import Left, Mended, Mending
from rigmint.report.layout import INDENT, lay_head, wrap
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.report.text import render_faults
from rigmint.words import CAUTIONS

_CONTEXT = 3
_LINE = re.compile(r"[^\n]*\n|[^\n]+")
_OPEN_END = "\\ No newline at end of file\n"


def render_mending(mendings: Sequence[Mending], style: Style) -> str:
    """What was mended and what is left, file by file."""
    blocks = [_render_file(one, style) for one in mendings]
    mended = sum(len(one.mended) for one in mendings)
    left = sum(len(one.left) for one in mendings)
    closing = wrap(f"{mended} mended, {left} left.", style.width)
    if mended:
        closing += wrap(
            "The file is mended, the rig is not: do what each line above says, with your own hands.", style.width
        )
    for caution in CAUTIONS:
        closing += wrap(caution, style.width)
    return "\n\n".join([*blocks, "\n".join(closing)]) + "\n"


def render_diff(mending: Mending) -> str:
    """The change as a unified diff; nothing where there is none."""
    name = clean(mending.file)
    before, after = (_LINE.findall(text) for text in (mending.before, mending.after))
    return "".join(_show_line(line) for line in unified_diff(before, after, name, name, n=_CONTEXT))


def render_signed(mending: Mending, signature: Signature, style: Style) -> str:
    """Who signed for what."""
    until = f" until {signature.until.isoformat()}" if signature.until is not None else ""
    up_to = f", up to {signature.up_to}" if signature.up_to is not None else ""
    says = f"{signature.by} signed for {signature.code} at {signature.at}{until}{up_to}: {signature.why}"
    return "\n".join([clean(mending.file), "", *wrap(says, style.width, INDENT)]) + "\n"


def render_unread(mending: Mending, style: Style) -> str:
    """Why a file could not be read or judged whole; nothing for one that could."""
    return render_faults(mending.faults, style) if mending.faults else ""


def _show_line(line: str) -> str:
    """With what does not print shown as an escape, the line end kept, and an open last line marked as such."""
    body = line.rstrip("\r\n")
    end = line[len(body) :]
    return clean(body) + (end or f"\n{_OPEN_END}")


def _render_file(mending: Mending, style: Style) -> str:
    lines = [render_unread(mending, style).rstrip("\n") or clean(mending.file)]
    for one in mending.mended:
        lines += ["", *_render_mended(one, style)]
    for rest in mending.left:
        lines += ["", *_render_left(rest, style)]
    if len(lines) == 1 and not mending.faults:
        lines[0] += "   nothing to mend"
    return "\n".join(lines)


def _render_mended(one: Mended, style: Style) -> list[str]:
    head = _render_head("mended", one.code, one.line, style)
    return [*head, *wrap(one.says, style.width, INDENT), *wrap(f"Done: {one.fix}", style.width, INDENT)]


def _render_left(one: Left, style: Style) -> list[str]:
    lines = [*_render_head(one.grade.value, one.code, one.line, style), *wrap(one.says, style.width, INDENT)]
    for index, (says, why) in enumerate(one.remedies):
        lines += wrap(f"{'Fix' if index == 0 else 'Or'} ({clean(why)}): {says}", style.width, INDENT)
    return lines


def _render_head(word: str, code: str, line: int, style: Style) -> list[str]:
    left = f"{word:<{INDENT - 1}} {clean(code)}"
    first, *rest = lay_head(left, f"line {line}", style.width, INDENT)
    return [style.paint(word, word) + first[len(word) :], *rest]
