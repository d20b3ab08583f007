"""`rigmint compare`: what a change to a rig does."""

from __future__ import annotations

import datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import click

from rigmint.commands.group import CouldNot
from rigmint.commands.one_rig import choose_setups, render_unread
from rigmint.commands.options import as_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.two_rigs import (
    OneSide,
    expect_paths,
    is_from_git,
    read_files,
    read_from_git,
    read_revision,
    read_side,
)
from rigmint.commands.version import find_version
from rigmint.library.faults import Fault, suggest
from rigmint.library.revision import NoRevision
from rigmint.lint.compare import Comparison, compare_judged, judge_side
from rigmint.lint.packs import PackSet, load_packs
from rigmint.lint.stand_ins import find_stand_ins
from rigmint.report.compare import render_comparison
from rigmint.report.compare_json import render_comparison_json, render_stand_ins_json
from rigmint.report.safe import clean
from rigmint.report.stand_ins import render_stand_ins
from rigmint.report.style import Style


@click.command("compare", short_help="What a change does: findings gained and lost, voltages, owners, reach, runtime.")
@click.argument("paths", nargs=-1, metavar="OLD NEW")
@as_option("text", "json")
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.option("--rev", metavar="REV", help="Compare a file with itself as it was at a git revision.")
@click.option("--stand-in", metavar="ITEM", help="Which parts could stand in for an item of a rig, best first.")
@click.option("--judge", is_flag=True, help="Status 1 where findings came, or grew, at or above the library's grade.")
@click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="The day that counts for what was accepted until a date. Default: by the clock.",
)
@click.pass_context
def command(
    ctx: click.Context,
    *,
    paths: tuple[str, ...],
    form: str,
    out: Path | None,
    setup: str | None,
    library: Path | None,
    plain: bool,
    rev: str | None,
    stand_in: str | None,
    judge: bool,
    today: datetime.datetime | None,
) -> None:
    """What a change to a rig does: from OLD to NEW, two rig files; with --rev REV from a file's revision to the file;
    with --stand-in ITEM what each part that could take an item's place would change.

    Status 0, or 2 where it could not be compared; with --judge 1 where the change brings or worsens findings at or
    above the grade at which the library fails a rig.
    """
    style = choose_style(plain=plain, out=out)
    day = today.date() if today else datetime.date.today()
    packs = load_packs()
    if stand_in is not None:
        (path,) = expect_paths(paths, 1, "with --stand-in one rig file")
        one = read_side(path, library)
        _refuse_unread([one], packs, form, style, out, ctx)
        write_output(_list_stand_ins(one, stand_in, packs, day, setup, form, style), out, style)
        return
    with TemporaryDirectory(prefix="rigmint-") as folder:
        old, new = _read_sides(paths, rev, library, Path(folder))
        if old is None or new is None:
            write_output(f"{clean(paths[0])}: {'a new rig' if old is None else 'the rig is gone'}\n", out, style)
            return
        _refuse_unread([old, new], packs, form, style, out, ctx)
        comparison = _compare(old, new, packs, day, setup)
    write_output(_render(comparison, form, style), out, style)
    if comparison.crashes:
        ctx.exit(2)
    if judge and comparison.find_worsening(new.library.house.fail_on):
        ctx.exit(1)


def _read_sides(
    paths: tuple[str, ...], rev: str | None, library: Path | None, folder: Path
) -> tuple[OneSide | None, OneSide | None]:
    if is_from_git(paths):
        return read_from_git(paths, library)
    if rev is None:
        before, after = expect_paths(paths, 2, "an old and a new rig file")
        return read_files(before, after, library)
    (path,) = expect_paths(paths, 1, "with --rev one rig file")
    try:
        return read_revision(path, rev, library, folder)
    except NoRevision as error:
        raise CouldNot(clean(str(error))) from error


def _refuse_unread(
    sides: list[OneSide], packs: PackSet, form: str, style: Style, out: Path | None, ctx: click.Context
) -> None:
    """End with status 2 where a rig cannot be read or a pack is broken: half a comparison would look whole."""
    faults: dict[Fault, None] = dict.fromkeys(packs.faults)
    for side in sides:
        faults |= dict.fromkeys((*side.library.faults, *side.read.faults))
    if faults:
        write_output(render_unread(tuple(faults), form, style), out, style)
        ctx.exit(2)


def _compare(old: OneSide, new: OneSide, packs: PackSet, today: datetime.date, setup: str | None) -> Comparison:
    rigs = [side.read.rig for side in (old, new)]
    if setup is not None and not any(rig is not None and setup in rig.setups for rig in rigs):
        msg = f"neither rig has a setup `{clean(setup)}`"
        raise click.UsageError(msg)
    judged = [
        judge_side(side.read.rig, side.library.house, packs.rules, today, setup)
        for side in (old, new)
        if side.read.rig is not None
    ]
    return compare_judged(judged[0], judged[1])


def _render(comparison: Comparison, form: str, style: Style) -> str:
    if form == "json":
        return render_comparison_json(find_version(), comparison)
    return render_comparison(comparison, style)


def _list_stand_ins(
    side: OneSide, item: str, packs: PackSet, today: datetime.date, setup: str | None, form: str, style: Style
) -> str:
    rig = side.read.rig
    if rig is None or item not in rig.items:
        near = suggest(item, rig.items if rig is not None else ())
        msg = f"the rig has no item `{clean(item)}`{near}"
        raise click.UsageError(msg)
    choose_setups(rig, setup)
    judged = judge_side(rig, side.library.house, packs.rules, today, setup)
    found = find_stand_ins(judged, item, side.library.catalogue, packs.rules, today, setup)
    if form == "json":
        return render_stand_ins_json(find_version(), rig.file, found)
    return render_stand_ins(rig.file, found, style)
