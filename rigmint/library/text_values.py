"""Writes one value in place of another of a different kind, or of another scalar."""

from __future__ import annotations

import re
from collections.abc import Iterator

from rigmint.library.document import Path, Value
from rigmint.library.text_replacement import Replacement
from rigmint.library.tree_edits import EditRefused, show_edit_path
from rigmint.library.yaml_layout import Layout
from rigmint.library.yaml_values import fits_one_line, render_children, render_flow, render_scalar

_COMMENT = re.compile(r"(^|\s)#")


def write_value(layout: Layout, path: Path, held: Value, wanted: Value) -> Iterator[Replacement]:
    """The replacement of a value as a whole. Raises EditRefused where comments would go with it."""
    if layout.is_empty(path):
        yield _fill(layout, path, wanted)
        return
    start, end = layout.span(path).start, layout.content_end(path)
    is_collection = isinstance(held, (dict, list))
    if is_collection and _COMMENT.search(layout.text[start:end]):
        msg = f"there are comments inside {show_edit_path(path)}, which would be lost: change it by hand"
        raise EditRefused(msg)
    shown = _render_inline(layout, path, held, wanted)
    if is_collection and not layout.is_flow(path) and path in layout.keys:
        after = layout.after_colon(path)
        if _COMMENT.search(layout.text[after:start]):
            msg = f"there is a comment at {show_edit_path(path)}, which would be lost: change it by hand"
            raise EditRefused(msg)
        yield Replacement(after, end, f" {shown}")
        return
    yield Replacement(start, end, shown)


def _render_inline(layout: Layout, path: Path, held: Value, wanted: Value) -> str:
    if isinstance(wanted, (dict, list)):
        return render_flow(wanted)
    is_number = held is not None and not isinstance(held, (str, dict, list))
    quote = layout.quote_of(path) if isinstance(held, str) else ""
    return render_scalar(wanted, in_flow=layout.lies_in_flow(path), quote=quote, like_number=is_number)


def _fill(layout: Layout, path: Path, wanted: Value) -> Replacement:
    """A value behind a key that has none."""
    if path not in layout.keys:
        msg = f"the entry {show_edit_path(path)} is empty: change it by hand"
        raise EditRefused(msg)
    after = layout.after_colon(path)
    if layout.lies_in_flow(path) or not isinstance(wanted, (dict, list)) or fits_one_line(wanted):
        colon = "" if layout.has_colon(path) else ":"
        return Replacement(after, after, f"{colon} {_render_inline(layout, path, None, wanted)}")
    indent = layout.column(layout.key_span(path).start) + layout.step
    return insert_lines(layout, layout.next_line(after), render_children(wanted, indent, layout.step))


def insert_lines(layout: Layout, offset: int, lines: list[str]) -> Replacement:
    """Whole lines before the line that starts at `offset`, or at the end of a text whose last line may be open."""
    is_open = offset == len(layout.text) and offset > 0 and layout.text[offset - 1] not in "\r\n"
    text = layout.line_break.join(lines)
    return Replacement(offset, offset, f"{layout.line_break}{text}" if is_open else f"{text}{layout.line_break}")
