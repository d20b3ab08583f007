"""Options that commands share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import click

Function = TypeVar("Function", bound=Callable[..., object])


def as_option(*forms: str) -> Callable[[Function], Function]:
    """`--as`: the first form is the default."""
    return click.option(
        "--as",
        "form",
        type=click.Choice(forms),
        default=forms[0],
        show_default=True,
        help="Form of the output.",
    )


def out_option() -> Callable[[Function], Function]:
    """`--out`."""
    return click.option(
        "--out",
        type=click.Path(dir_okay=False, path_type=Path),
        metavar="FILE",
        help="Write to a file instead of the terminal.",
    )


def setup_option() -> Callable[[Function], Function]:
    """`--setup`."""
    return click.option("--setup", metavar="NAME", help="Only this setup.")


def library_option() -> Callable[[Function], Function]:
    """`--library`."""
    return click.option(
        "--library",
        type=click.Path(path_type=Path),
        metavar="FILE",
        help="This library file, instead of the nearest rigmint.yaml above the rig.",
    )


def plain_option() -> Callable[[Function], Function]:
    """`--plain`."""
    return click.option("--plain", is_flag=True, help="No colour, no progress.")


def house_checks_option() -> Callable[[Function], Function]:
    """`--house-checks`, `--no-house-checks`; None where neither is said."""
    return click.option(
        "--house-checks/--no-house-checks",
        default=None,
        help="Run the checks in Python that a library lists, or do without them. Where it lists any, one must be said.",
    )
