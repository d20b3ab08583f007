"""`rigmint parts`: search the catalogue."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from rigmint.commands.options import library_option, out_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.library.catalogue import Catalogue
from rigmint.library.faults import Fault, suggest
from rigmint.library.library_file import find_library_file, load_library
from rigmint.report.parts import render_parts
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.report.text import render_faults
from rigmint.rig.part import Part


@click.command("parts", short_help="Search the catalogue.")
@click.argument("words", nargs=-1, metavar="[WORD ...]")
@library_option()
@out_option()
@plain_option()
@click.pass_context
def command(ctx: click.Context, *, words: tuple[str, ...], library: Path | None, out: Path | None, plain: bool) -> None:
    """Parts of the catalogue that hold every WORD in their id, name, kind or connectors; without a word, all."""
    loaded = load_library(library if library is not None else find_library_file(Path("any.rig.yaml")))
    parts, faults = _read_parts(loaded.catalogue)
    found = [part for part in parts if _holds(part, words)]
    style = choose_style(plain=plain, out=out)
    write_output(_render(found, words, loaded.catalogue.part_ids, style), out, style)
    all_faults = tuple(dict.fromkeys((*loaded.faults, *faults)))
    if all_faults:
        click.echo(render_faults(all_faults, Style(style.width)), err=True, nl=False)
        ctx.exit(2)


def _read_parts(catalogue: Catalogue) -> tuple[list[Part], list[Fault]]:
    parts: list[Part] = []
    faults: list[Fault] = []
    for part_id in catalogue.part_ids:
        part = catalogue.part(part_id)
        if part is not None:
            parts.append(part)
        faults += catalogue.faults_of(part_id)
    return parts, faults


def _holds(part: Part, words: tuple[str, ...]) -> bool:
    texts = [text.casefold() for text in _list_texts(part)]
    return all(any(word.casefold() in text for text in texts) for word in words)


def _list_texts(part: Part) -> Iterator[str]:
    yield from (part.id, part.name, part.kind, part.kind.replace("_", " "))
    ends = part.lead.ends.values() if part.lead is not None else ()
    for connector in (*(port.connector for port in part.ports.values()), *(end.connector for end in ends)):
        yield from (connector.id, connector.name)


def _render(found: list[Part], words: tuple[str, ...], part_ids: Sequence[str], style: Style) -> str:
    if found:
        return render_parts(found, style)
    if not words:
        return "The catalogue holds no part.\n"
    known = {word for part_id in part_ids for word in re.split(r"[/-]", part_id)}
    meant = next((near for word in words if (near := suggest(word, known - {word}))), ".")
    return f"No part of the catalogue holds `{clean(' '.join(words))}`{meant}\n"
