"""`rigmint start rig`: a whole rig from eight questions, or from a table of leads."""

from __future__ import annotations

import datetime
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from rigmint.commands.options import library_option, plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.lint.run import check_paths
from rigmint.report.safe import clean, clean_lines
from rigmint.report.text import render_report
from rigmint.start.answers import REGIONS, Refusal
from rigmint.start.lay_rig import write_started_rig
from rigmint.start.names import find_file, find_stem, find_title, write_new
from rigmint.start.questions import NONE, QUESTIONS, Question, build_answers, read_answer
from rigmint.start.table_kit import Unplaced
from rigmint.start.table_rig import write_table_rig

RIG_SUFFIX = ".rig.yaml"
_ASKED = 8


def _add_question_options(function: Any) -> Any:
    for question in reversed(QUESTIONS):
        words = "|".join(question.choices)
        help_text = f"{question.asks}."
        if question.many:
            words = ",".join(question.choices)
            help_text = f"{question.asks}: some of them, or none."
        flag = f"--{question.key.replace('_', '-')}"
        function = click.option(flag, question.key, metavar=words or "TEXT", help=help_text)(function)
    return function


@click.command("rig", short_help="A whole rig from eight questions, or from a table of leads.")
@click.argument("name")
@_add_question_options
@click.option("--region", default=REGIONS[0], show_default=True, metavar="|".join(REGIONS), help="Whose radio rules.")
@click.option(
    "--from",
    "leads",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Instead of asking: a table of leads as CSV, with the columns label, from, to, length.",
)
@click.option(
    "--items",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="With --from: a table of items as CSV, with the columns item, part, asset, settings.",
)
@click.option("--yes", is_flag=True, help="Ask nothing: what is not given as an option has its default.")
@library_option()
@plain_option()
@click.pass_context
def rig(
    ctx: click.Context,
    /,
    *,
    name: str,
    region: str,
    leads: Path | None,
    items: Path | None,
    yes: bool,
    library: Path | None,
    plain: bool,
    **given: str | None,
) -> None:
    """Lay down NAME.rig.yaml: a whole rig of generic parts, with leads, docks, links, setups and who has what, and a
    comment where your own part goes. It asks eight things, each of which is an option too, and checks what it wrote."""
    if items is not None and leads is None:
        msg = "--items goes with --from: the table of leads says what is plugged into what"
        raise click.UsageError(msg)
    if leads is not None and any(value is not None for value in given.values()):
        msg = "--from takes the rig from a table, and the answers to the questions go with no table: leave one out"
        raise click.UsageError(msg)
    try:
        path = find_file(name, RIG_SUFFIX)
        loaded = load_library(library if library is not None else find_library_file(path))
        title = find_title(find_stem(path, RIG_SUFFIX))
        unplaced: tuple[Unplaced, ...] = ()
        says: tuple[str, ...] = ()
        if leads is not None:
            made = write_table_rig(leads, items, title, loaded.catalogue)
            text, unplaced, says = made.text, made.unplaced, made.says
        else:
            text = _answer(given, region, title, loaded, is_asking=not yes and sys.stdin.isatty())
        write_new(path, text)
    except Refusal as error:
        raise click.ClickException(clean_lines(str(error))) from error
    for line in says:
        click.echo(f"{clean(line)}\n")
    say_unplaced(unplaced)
    report_new_rig(ctx, path, library, plain=plain)
    if unplaced:
        ctx.exit(1)


def say_unplaced(unplaced: Sequence[Unplaced]) -> None:
    """What of a table could not be placed, row by row."""
    if not unplaced:
        return
    head = "1 row was not placed" if len(unplaced) == 1 else f"{len(unplaced)} rows were not placed"
    click.echo(f"{head}; each stands in the file as a comment:")
    for one in unplaced:
        click.echo(f"  {clean(str(one))}")
    click.echo()


def report_new_rig(ctx: click.Context, path: Path, library: Path | None, *, plain: bool) -> None:
    """Check what was laid down, a rig or a folder of them, and print the report; status 2 where that failed."""
    report = check_paths([path], library=library, today=datetime.date.today(), setup=None, prove=True)
    style = choose_style(plain=plain)
    head = "" if path.is_dir() else f"Laid down {clean(str(path))}.\n"
    write_output(f"{head}\n{render_report(report, style)}", None, style)
    if report.status(strict=False) == 2:
        ctx.exit(2)


def _answer(given: dict[str, str | None], region: str, title: str, library: Library, *, is_asking: bool) -> str:
    """Ask what is not given. Answers that make no sense together are asked again, with what was said before."""
    said = {key: text for key, text in given.items() if text is not None}
    while True:
        answers = _gather(said, given, is_asking=is_asking)
        try:
            return write_started_rig(build_answers(answers, region, library.catalogue), title, library)
        except Refusal as error:
            if not is_asking:
                raise
            click.echo(f"\n{clean_lines(str(error))}\n")
            said, given = answers, dict.fromkeys(given)


def _gather(said: dict[str, str], given: dict[str, str | None], *, is_asking: bool) -> dict[str, str]:
    answers: dict[str, str] = {}
    number = 0
    for question in QUESTIONS:
        if not question.is_due(answers):
            continue
        before = said.get(question.key)
        default = before if before is not None else question.default(answers)
        if given[question.key] is not None or not is_asking:
            answers[question.key] = read_answer(question, default)
            continue
        heading = f"{question.number} of {_ASKED}. " if question.number != number else " " * len("1 of 8. ")
        number = question.number
        answers[question.key] = _ask(question, heading, default)
    return answers


def _ask(question: Question, heading: str, default: str) -> str:
    words = f" ({', '.join([*question.choices, *([NONE] if question.many else [])])})" if question.choices else ""
    while True:
        text: str = click.prompt(f"{heading}{question.asks}{words}", default=default)
        try:
            return read_answer(question, text)
        except Refusal as error:
            click.echo(clean(str(error)))
