"""`rigmint check`: the main job."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from rigmint.commands.group import CouldNot
from rigmint.commands.options import (
    as_option,
    house_checks_option,
    library_option,
    out_option,
    plain_option,
    setup_option,
)
from rigmint.commands.output import choose_style, write_output
from rigmint.commands.progress import show_progress
from rigmint.commands.request import Request
from rigmint.lint.cache_store import open_store
from rigmint.lint.results import Report
from rigmint.lint.run import check_paths
from rigmint.lint.run_memory import RunMemory
from rigmint.report.safe import clean
from rigmint.report.style import Style

if TYPE_CHECKING:
    from rigmint.lint.baseline import Baseline
    from rigmint.lint.packs import PackSet


@click.command("check", short_help="Report findings in rig files.")
@click.argument("paths", nargs=-1, type=click.Path(path_type=Path), metavar="[PATH ...]")
@as_option("text", "json", "sarif", "junit")
@out_option()
@setup_option()
@library_option()
@plain_option()
@click.option("--strict", is_flag=True, help="Status 2 where a rule lacked a figure to judge by.")
@click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="The day that counts for what was accepted until a date, as 2026-05-02. Default: by the clock.",
)
@house_checks_option()
@click.option("--fresh", is_flag=True, help="Check everything anew, whatever was found before.")
@click.option(
    "--since",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    help="A log of an earlier run, by --as sarif: only findings that are new since then fail.",
)
@click.pass_context
def command(
    ctx: click.Context,
    *,
    paths: tuple[Path, ...],
    form: str,
    out: Path | None,
    setup: str | None,
    library: Path | None,
    plain: bool,
    strict: bool,
    today: datetime.datetime | None,
    house_checks: bool | None,
    fresh: bool,
    since: Path | None,
) -> None:
    """Report findings in rig files: files, or folders that are searched for *.rig.yaml (default: this folder).

    Status 0: nothing at or above the grade at which the library fails a rig. 1: findings at or above it. 2: it could
    not be checked.
    """
    baseline = _read_baseline(since) if since is not None else None
    memory = RunMemory(open_store(), fresh=fresh)
    with show_progress(plain=plain) as on_done:
        report = check_paths(
            paths or (Path(),),
            library=library,
            today=today.date() if today else datetime.date.today(),
            setup=setup,
            prove=form == "text",
            house_checks=house_checks,
            plan=form == "sarif",
            memory=memory,
            on_done=on_done,
        )
    if baseline is not None:
        from rigmint.lint.compare_runs import compare_with_baseline

        report = compare_with_baseline(report, baseline, setup)
    style = choose_style(plain=plain, out=out)
    text, status = _render(report, form, style, strict=strict), report.status(strict=strict)
    if isinstance(ctx.obj, Request):
        memory.keep(ctx.obj.make_key(), report, text, status)
    memory.store.close()
    write_output(text, out, style)
    ctx.exit(status)


def _render(report: Report, form: str, style: Style, *, strict: bool) -> str:
    if form == "json":
        from rigmint.report.json import render_check_json

        return render_check_json(report)
    if form == "junit":
        from rigmint.report.junit import render_junit

        return render_junit(report, strict=strict)
    if form == "sarif":
        from rigmint.report.sarif import render_sarif

        return render_sarif(report, _list_packs(report), strict=strict)
    from rigmint.report.text import render_report

    return render_report(report, style)


def _read_baseline(path: Path) -> Baseline:
    """The earlier run. Raises CouldNot where the file is no log of one."""
    from rigmint.lint.baseline import BadBaseline, read_baseline

    try:
        return read_baseline(path)
    except BadBaseline as error:
        raise CouldNot(clean(str(error))) from error


def _list_packs(report: Report) -> PackSet:
    """The installed packs and the house checks that ran."""
    from rigmint.lint.packs import PackSet, load_packs

    installed = load_packs()
    return PackSet((*installed.packs, *report.house_packs), installed.faults)
