"""`rigmint parts`: search the catalogue."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import click

from rigmint.commands.one_rig import warn_of
from rigmint.commands.options import library_option, out_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.library.catalogue import Catalogue
from rigmint.library.faults import Fault, suggest
from rigmint.library.library_file import find_library_file, load_library
from rigmint.report.parts import render_parts
from rigmint.report.safe import clean
from rigmint.report.style import Style
from rigmint.rig.connector import Sex
from rigmint.rig.part import Part


class _Parts(click.Command):
    """The search; `parts check` is a command of its own."""

    def make_context(
        self, info_name: str | None, args: list[str], parent: click.Context | None = None, **extra: Any
    ) -> click.Context:
        """The context of the search, or of the check where that is the first word."""
        if args[:1] != ["check"]:
            return super().make_context(info_name, args, parent, **extra)
        from rigmint.commands.parts_check import command as check

        return check.make_context(f"{info_name} check", args[1:], parent, **extra)


@click.command("parts", cls=_Parts, short_help="Search the catalogue, or check part files.")
@click.argument("words", nargs=-1, metavar="[WORD ...]")
@library_option()
@out_option()
@plain_option()
@click.pass_context
def command(ctx: click.Context, *, words: tuple[str, ...], library: Path | None, out: Path | None, plain: bool) -> None:
    """Parts of the catalogue that hold every WORD in their id, name, kind, connectors, radios or protocols; without a
    word, all. Few are shown in full, with ports, settings and controls.

    `rigmint parts check [PATH ...]` checks part files; see `rigmint parts check --help`.
    """
    loaded = load_library(library if library is not None else find_library_file(Path("any.rig.yaml")))
    parts, faults = _read_parts(loaded.catalogue)
    named = [part for part in parts if (part.id,) == words]
    found = named or [part for part in parts if _holds(part, words)]
    style = choose_style(plain=plain, out=out)
    write_output(_render(found, words, loaded.catalogue.part_ids, style), out, style)
    all_faults = tuple(dict.fromkeys((*loaded.faults, *faults)))
    warn_of(all_faults, style)
    if all_faults:
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
    yield from (sex.value for sex in _list_sexes(part))
    yield from (protocol for port in part.ports.values() for protocol in port.speaks)
    yield from (protocol for radio in part.radios.values() for protocol in radio.speaks)
    yield from ("radio" for _ in part.radios)
    ends = part.lead.ends.values() if part.lead is not None else ()
    for connector in (*(port.connector for port in part.ports.values()), *(end.connector for end in ends)):
        yield from (connector.id, connector.name)


def _list_sexes(part: Part) -> Iterator[Sex]:
    yield from (port.sex for port in part.ports.values())
    yield from (end.sex for end in (part.lead.ends.values() if part.lead is not None else ()))


def _render(found: list[Part], words: tuple[str, ...], part_ids: Sequence[str], style: Style) -> str:
    if found:
        return render_parts(found, style)
    if not words:
        return "The catalogue holds no part.\n"
    known = {word for part_id in part_ids for word in re.split(r"[/-]", part_id)}
    meant = next((near for word in words if (near := suggest(word, known - {word}))), ".")
    what = f"`{clean(words[0])}`" if len(words) == 1 else f"all of `{clean('`, `'.join(words))}`"
    return f"No part of the catalogue holds {what}{meant}\n"
