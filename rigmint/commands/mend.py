"""`rigmint mend`: puts right in the rig file what can be proved to be right then, and signs for what is meant."""

from __future__ import annotations

import datetime
import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from rigmint.commands.group import COULD_NOT, CouldNot
from rigmint.commands.options import house_checks_option, library_option, out_option, plain_option, setup_option
from rigmint.commands.output import choose_style, write_output
from rigmint.report.safe import clean

if TYPE_CHECKING:
    from rigmint.library.faults import Fault
    from rigmint.lint.accept import Signature
    from rigmint.lint.mend import Mending
    from rigmint.report.style import Style


@click.command("mend", short_help="Apply proved fixes to a rig file, or sign for a finding.")
@click.argument("path", type=click.Path(path_type=Path), metavar="PATH")
@click.option("--show", is_flag=True, help="Print the change as a unified diff and write nothing.")
@click.option("--accept", metavar="CODE", help="Sign for a finding instead of mending; needs --at, --why and --by.")
@click.option(
    "--at", metavar="PLACE", help="With --accept: where it is found, or what its cause is; `*` for any letters."
)
@click.option("--why", metavar="TEXT", help="With --accept: why it is meant so.")
@click.option("--by", metavar="NAME", help="With --accept: who signs.")
@click.option(
    "--until",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="With --accept: the last day on which it holds. What can burn or hurt needs one.",
)
@click.option("--up-to", metavar="QUANTITY", help="With --accept: the value beyond which it speaks again, as `45 min`.")
@setup_option()
@library_option()
@out_option()
@plain_option()
@click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DATE",
    help="The day that counts for what was accepted until a date. Default: by the clock.",
)
@house_checks_option()
@click.pass_context
def command(
    ctx: click.Context,
    *,
    path: Path,
    show: bool,
    accept: str | None,
    at: str | None,
    why: str | None,
    by: str | None,
    until: datetime.datetime | None,
    up_to: str | None,
    setup: str | None,
    library: Path | None,
    out: Path | None,
    plain: bool,
    today: datetime.datetime | None,
    house_checks: bool | None,
) -> None:
    """Apply proved fixes to a rig file, worst finding first, until nothing is left that one would clear. PATH may be a
    folder: each *.rig.yaml below it is mended.

    A fix is proved when the file, changed so, is found clear of its finding and nothing at `thin` or worse has come.
    Comments, order and layout of the file stay. With --accept, an entry under `accepted:` is written instead: it
    answers the finding until the day given, or until it gets worse.
    """
    signature = _read_signature(accept, at, why, by, until, setup, up_to)
    day = today.date() if today else datetime.date.today()
    style = choose_style(plain=plain, out=out)
    if signature is not None and os.path.isdir(path):
        msg = "one rig file is signed for at a time: name the file"
        raise click.UsageError(msg)
    mendings, refused = _mend_files(path, library, day, setup, signature, writes=not show, house_checks=house_checks)
    shown = _render(mendings, signature, style, shows=show)
    write_output(shown, out, style)
    for says in refused:
        click.echo(says, err=True)
    ctx.exit(COULD_NOT if refused or any(one.faults for one in mendings) else 0)


def _read_signature(
    accept: str | None,
    at: str | None,
    why: str | None,
    by: str | None,
    until: datetime.datetime | None,
    setup: str | None,
    up_to: str | None,
) -> Signature | None:
    from rigmint.lint.accept import Signature

    given = {"--at": at, "--why": why, "--by": by, "--until": until, "--up-to": up_to}
    if accept is None:
        alone = [name for name, value in given.items() if value is not None]
        if alone:
            msg = f"{', '.join(alone)} belongs to --accept CODE"
            raise click.UsageError(msg)
        return None
    if at is None or why is None or by is None:
        missing = [name for name in ("--at", "--why", "--by") if given[name] is None]
        msg = f"--accept needs {', '.join(missing)} too"
        raise click.UsageError(msg)
    return Signature(accept, at, why, by, until.date() if until is not None else None, setup, up_to)


def _mend_files(
    path: Path,
    library: Path | None,
    day: datetime.date,
    setup: str | None,
    signature: Signature | None,
    *,
    writes: bool,
    house_checks: bool | None,
) -> tuple[list[Mending], list[str]]:
    """Each file mended or signed for, and what could not be done. Raises CouldNot where nothing can be judged."""
    from rigmint.library.find_files import find_rig_files
    from rigmint.library.library_file import find_library_file
    from rigmint.library.write_file import NotWritten
    from rigmint.lint.accept import NotSigned, plan_acceptance
    from rigmint.lint.house_checks import say_unsaid
    from rigmint.lint.mend import order_by_base, plan_mending, write_mending
    from rigmint.lint.open_library import open_library
    from rigmint.lint.packs import load_packs
    from rigmint.lint.run import find_loose_faults

    files, faults = find_rig_files([path])
    packs = load_packs()
    library_files = {file: library if library is not None else find_library_file(file) for file in files}
    libraries = {
        one: open_library(one, packs, house_checks=house_checks) for one in dict.fromkeys(library_files.values())
    }
    unsaid = [say_unsaid(one.library, len(files)) for one in libraries.values() if one.is_unsaid]
    loose = [fault for one in libraries.values() for fault in find_loose_faults(packs, one)]
    _refuse_faults(list(dict.fromkeys([*faults, *unsaid, *loose])))
    mendings: list[Mending] = []
    refused: list[str] = []
    for file in order_by_base(files, lambda file: libraries[library_files[file]].library):
        opened = libraries[library_files[file]]
        try:
            if signature is not None:
                mending, held = plan_acceptance(file, opened, day, signature)
            else:
                mending, held = plan_mending(file, opened, day, setup)
            if writes:
                write_mending(file, mending, held)
            mendings.append(mending)
        except (NotWritten, NotSigned) as error:
            refused.append(clean(str(error)))
        except KeyboardInterrupt as error:
            written = [one.file for one in mendings if one.is_changed] if writes else []
            if not written:
                raise
            msg = clean(f"stopped before all was done; written were: {', '.join(written)}")
            raise CouldNot(msg) from error
    return mendings, refused


def _refuse_faults(faults: Sequence[Fault]) -> None:
    """Nothing is proved where part of the rules or of the library is missing."""
    if faults:
        from rigmint.report.style import Style
        from rigmint.report.text import render_faults

        msg = f"nothing is mended, since it could not be judged whole:\n\n{render_faults(faults, Style())}"
        raise CouldNot(msg)


def _render(mendings: Sequence[Mending], signature: Signature | None, style: Style, *, shows: bool) -> str:
    from rigmint.report.mend import render_diff, render_mending, render_signed, render_unread

    if shows:
        return "".join(render_unread(one, style) + render_diff(one) for one in mendings)
    if signature is not None:
        return "".join(render_unread(one, style) or render_signed(one, signature, style) for one in mendings)
    return render_mending(mendings, style) if mendings else ""
