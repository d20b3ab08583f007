"""Takes entries out of mappings and lists in brackets and puts new ones in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rigmint.library.document import Path, Value
from rigmint.library.text_replacement import Replacement, list_runs
from rigmint.library.yaml_layout import Layout
from rigmint.library.yaml_values import render_flow, render_pair


@dataclass(frozen=True, slots=True)
class _Entry:
    """Where an entry begins and ends, commas excluded."""

    start: int
    end: int


def change_flow_mapping(
    layout: Layout, path: Path, keys: Sequence[str], removed: set[str], added: Mapping[str, Value]
) -> Iterator[Replacement]:
    """New entries come last, with the quotation marks of the key before them."""
    entries = [_Entry(layout.key_span((*path, key)).start, layout.content_end((*path, key))) for key in keys]
    quote = layout.quote_of_key((*path, keys[-1])) if keys else ""
    shown = [render_pair(key, value, quote=quote) for key, value in added.items()]
    indices = {index for index, key in enumerate(keys) if key in removed}
    yield from _change_entries(layout, path, entries, indices, {len(keys): shown} if shown else {})


def change_flow_list(
    layout: Layout, path: Path, length: int, removed: set[int], added: Mapping[int, Sequence[Value]]
) -> Iterator[Replacement]:
    """`added`: entries before the one of that index, or at the end."""
    paths: list[Path] = [(*path, index) for index in range(length)]
    entries = [_Entry(layout.span(one).start, layout.content_end(one)) for one in paths]
    quote = layout.quote_of(paths[-1]) if paths else ""
    quote = quote or (layout.quote_of_key(path) if path in layout.keys else "")
    shown = {index: [render_flow(value, quote=quote) for value in values] for index, values in added.items()}
    yield from _change_entries(layout, path, entries, removed, shown)


def _change_entries(
    layout: Layout, path: Path, entries: Sequence[_Entry], removed: set[int], added: Mapping[int, Sequence[str]]
) -> Iterator[Replacement]:
    kept = [index for index in range(len(entries)) if index not in removed]
    if not kept:
        yield _fill(layout, path, entries, [one for shown in added.values() for one in shown])
        return
    for first, last in list_runs(removed):
        yield _take_out(layout, entries, first, last)
    for index, shown in added.items():
        before = [one for one in kept if one < index]
        if not before:
            start = entries[kept[0]].start
            yield Replacement(start, start, "".join(f"{one}, " for one in shown))
        elif index == len(entries):
            yield from _append(layout, path, entries[before[-1]], shown)
        else:
            end = entries[before[-1]].end
            yield Replacement(end, end, "".join(f", {one}" for one in shown))


def _fill(layout: Layout, path: Path, entries: Sequence[_Entry], shown: Sequence[str]) -> Replacement:
    """Brackets whose entries all go, or that had none."""
    start = layout.span(path).start + 1
    return Replacement(start, entries[-1].end if entries else start, ", ".join(shown))


def _take_out(layout: Layout, entries: Sequence[_Entry], first: int, last: int) -> Replacement:
    start, end = entries[first].start, entries[last].end
    comma = layout.skip_space(end)
    has_comma = layout.text[comma : comma + 1] == ","
    after = comma + 1 if has_comma else end
    rest = layout.text[after : layout.line_end(after)].strip()
    if layout.begins_line(start) and (not rest or rest.startswith("#")):
        return Replacement(layout.line_start(start), layout.next_line(after), "")
    if last + 1 < len(entries):
        gap = layout.text[after : entries[last + 1].start]
        return Replacement(start, after if gap.strip() else entries[last + 1].start, "")
    gap = layout.text[entries[first - 1].end : start]
    return Replacement(start if "#" in gap else entries[first - 1].end, end, "")


def _append(layout: Layout, path: Path, last: _Entry, shown: Sequence[str]) -> Iterator[Replacement]:
    """Behind the last entry: in its line, or, where each entry has a line of its own, in lines of their own."""
    close = layout.span(path).end - 1
    has_own_lines = layout.begins_line(last.start) and layout.line_start(last.start) > layout.span(path).start
    if not has_own_lines:
        yield Replacement(last.end, last.end, "".join(f", {one}" for one in shown))
        return
    indent = " " * layout.column(last.start)
    if close < layout.line_end(last.end):
        yield Replacement(last.end, last.end, "".join(f",{layout.line_break}{indent}{one}" for one in shown))
        return
    comma = layout.skip_space(last.end)
    has_comma = layout.text[comma : comma + 1] == ","
    if not has_comma:
        yield Replacement(last.end, last.end, ",")
    following = layout.next_line(comma if has_comma else last.end)
    lines = f",{layout.line_break}".join(f"{indent}{one}" for one in shown)
    yield Replacement(following, following, f"{lines}{',' if has_comma else ''}{layout.line_break}")
