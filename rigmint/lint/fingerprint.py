"""What makes a finding of one run and a finding of a later run the same one."""

from __future__ import annotations

import hashlib
import re

from rigmint.lint.results import ReportedFinding

FINGERPRINT = "rigmintFinding/v1"
"""Name and version of the fingerprint in a log; what it is made of never changes under one version."""

_LIST_ENTRY = re.compile(r"(accepted|requires)\.[0-9]+")


def make_fingerprint(finding: ReportedFinding, file: str) -> str:
    """What stays the same when lines move: code, cause, place and file, the file relative to the working folder.

    An entry of a list has a number for its place, which changes with its neighbours: it is known by its sentence.
    """
    cause = finding.says if _LIST_ENTRY.fullmatch(finding.cause) else finding.cause
    text = "\n".join((finding.code, cause, finding.at, file))
    return hashlib.sha256(text.encode("utf-8", "surrogateescape")).hexdigest()
