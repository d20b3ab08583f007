"""`rigmint start library` and `rigmint start pack`: folders of files."""

from __future__ import annotations

import click

from rigmint.commands.options import plain_option
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.start_rig import report_new_rig
from rigmint.library.library_file import load_library
from rigmint.report.safe import clean
from rigmint.start.answers import Refusal
from rigmint.start.library_folder import write_library
from rigmint.start.names import find_folder, write_folder
from rigmint.start.pack_folder import write_pack


@click.command("library", short_help="A folder with rigmint.yaml, parts and a first rig.")
@click.argument("name")
@plain_option()
@click.pass_context
def library(ctx: click.Context, name: str, plain: bool) -> None:
    """Lay down the folder NAME: rigmint.yaml with its keys in comments, parts/, rigs/ with a first rig, the check on
    each commit, a README."""
    try:
        folder = find_folder(name)
        files = write_library(folder.name, load_library(None))
        write_folder(folder, files)
    except Refusal as error:
        raise click.ClickException(clean(str(error))) from error
    for file in files:
        click.echo(f"Laid down {clean(str(folder / file))}")
    report_new_rig(ctx, folder, None, plain=plain)


@click.command("pack", short_help="A pack of rules: a distribution with one rule and its tests.")
@click.argument("name")
@plain_option()
def pack(name: str, plain: bool) -> None:
    """Lay down the folder NAME: a distribution with one rule, its explain text, and tests that pass once it is
    installed."""
    try:
        folder = find_folder(name)
        files = write_pack(folder.name)
        write_folder(folder, files)
    except Refusal as error:
        raise click.ClickException(clean(str(error))) from error
    said = [f"Laid down {clean(str(folder / file))}" for file in files]
    next_step = (
        f"\nNext: cd {clean(str(folder))}, then `pip install -e '.[test]'` and `pytest`; `rigmint packs` lists it.\n"
    )
    write_output("\n".join([*said, next_step]), None, choose_style(plain=plain))
