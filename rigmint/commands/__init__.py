"""The command line: parse, call, print, exit status. A command's module is imported only when it is called."""

from rigmint.commands.group import main

__all__ = ["main"]
