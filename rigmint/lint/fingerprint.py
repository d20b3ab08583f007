"""What makes a finding of one run and a finding of a later run the same one."""

from __future__ import annotations

import hashlib
import os
import re

from rigmint.library.walk import find_top_above
from rigmint.lint.results import ReportedFinding

FINGERPRINT = "rigmintFinding/v2"
"""Name and version of the fingerprint in a log; what it is made of never changes under one version."""

_LIST_ENTRY = re.compile(r"(accepted|requires)\.[0-9]+")


def find_home(file: str) -> tuple[str, str]:
    """Of a file as reports show it: the folder of its library, else of its checkout, else the working folder; and its
    path from there, with `/`, which is the same in every checkout and from wherever the run was started."""
    folder = os.path.realpath(os.path.dirname(os.path.abspath(file)))
    top = find_top_above(folder) or os.path.realpath(os.getcwd())
    return top, os.path.relpath(os.path.join(folder, os.path.basename(file)), top).replace(os.sep, "/")


def make_fingerprint(finding: ReportedFinding, home: str) -> str:
    """What stays the same when lines move: code, cause, place and file, the file by its path from its home.

    An entry of a list has a number for its place, which changes with its neighbours: it is known by its sentence.
    """
    cause = finding.says if _LIST_ENTRY.fullmatch(finding.cause) else finding.cause
    text = "\n".join((finding.code, cause, finding.at, home))
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()
