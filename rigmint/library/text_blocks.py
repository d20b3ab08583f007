"""Takes entries out of block mappings and lists and puts new ones in, line by line."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from rigmint.library.document import Path, Value
from rigmint.library.text_replacement import Replacement, list_runs
from rigmint.library.text_values import insert_lines
from rigmint.library.tree_edits import EditRefused, show_edit_path
from rigmint.library.yaml_layout import Layout
from rigmint.library.yaml_values import render_dash, render_entry

_OPEN_END = re.compile(r"(\r\n|\n|\r)\Z")


def change_block_mapping(
    layout: Layout, path: Path, keys: Sequence[str], removed: set[str], added: Mapping[str, Value]
) -> Iterator[Replacement]:
    """New entries come last, at the indentation of the others. A mapping that loses all of its entries becomes `{}`."""
    if not added and len(removed) == len(keys):
        yield _leave_empty(layout, path, "{}")
    starts = [layout.key_span((*path, key)).start for key in keys]
    for first, last in list_runs({index for index, key in enumerate(keys) if key in removed}):
        end = layout.content_end((*path, keys[last]))
        if layout.begins_line(starts[first]):
            yield _take_out_lines(layout, starts[first], end)
        elif last + 1 < len(keys):  # the first entry behind a dash: the next one takes its place
            yield Replacement(starts[first], starts[last + 1], "")
        else:
            raise _refusal(path)
    if added:
        indent = layout.column(starts[0])
        lines = [line for key, value in added.items() for line in render_entry(key, value, indent, layout.step)]
        yield insert_lines(layout, layout.next_line(layout.content_end((*path, keys[-1]))), lines)


def change_block_list(
    layout: Layout, path: Path, length: int, removed: set[int], added: Mapping[int, Sequence[Value]]
) -> Iterator[Replacement]:
    """`added`: entries before the one of that index, or at the end. A list that loses all becomes `[]`."""
    dashes = [_find_dash(layout, (*path, index)) for index in range(length)]
    if not added and len(removed) == length:
        yield _leave_empty(layout, path, "[]")
    for first, last in list_runs(removed):
        yield _take_out_lines(layout, dashes[first], layout.content_end((*path, last)))
    indent = layout.column(dashes[0])
    for index, values in added.items():
        at_end = index == length
        offset = (
            layout.next_line(layout.content_end((*path, length - 1))) if at_end else layout.line_start(dashes[index])
        )
        yield insert_lines(layout, offset, [render_dash(value, indent) for value in values])


def _find_dash(layout: Layout, path: Path) -> int:
    dash = None if layout.is_empty(path) else layout.find_dash(path)
    if dash is None:
        raise _refusal(path[:-1])
    return dash


def _take_out_lines(layout: Layout, start: int, end: int) -> Replacement:
    """From the line of `start` to that of `end`. Of a text whose last line is open, the new last line is open too."""
    first, following = layout.line_start(start), layout.next_line(end)
    if following == len(layout.text) and layout.line_end(end) == following:
        before = _OPEN_END.search(layout.text, 0, first)
        first = before.start() if before else first
    return Replacement(first, following, "")


def _leave_empty(layout: Layout, path: Path, brackets: str) -> Replacement:
    if path not in layout.keys:
        raise _refusal(path)
    after = layout.after_colon(path)
    return Replacement(after, after, f" {brackets}")


def _refusal(path: Path) -> EditRefused:
    msg = f"{show_edit_path(path) or 'the file'} is laid out in a way that is left alone: change it by hand"
    return EditRefused(msg)
