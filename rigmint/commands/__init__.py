"""The command line: parse, call, print, exit status. A command's module is imported only when it is called."""

from __future__ import annotations

from rigmint import TYPE_CHECKING

if TYPE_CHECKING:
    from rigmint.commands.group import main as main

__all__ = ["main"]


def __getattr__(name: str) -> object:
    """`main`, the group of commands; click is imported with it."""
    if name != "main":
        msg = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(msg)
    from rigmint.commands.group import main

    return main
