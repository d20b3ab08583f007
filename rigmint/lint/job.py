"""Rigs of one job that are checked together: they share the air and the cases."""

from __future__ import annotations

import re
from collections.abc import Iterable

from rigmint.rig.rig import Rig


def find_job_rigs(rig: Rig, checked: Iterable[Rig]) -> tuple[Rig, ...]:
    """The other rigs of a rig's job among those `checked` in this run with the same library, by file name.

    A rig that has its `job:` from another by `like:` is that rig flown another way, out of the same cases: the two are
    not on the job at once, and neither counts for the other. A copy that states its own `job:` is a rig of its own.
    """
    if rig.job is None:
        return ()
    job = fold_job(rig.job)
    others = [
        other
        for other in checked
        if other.file != rig.file and other.job is not None and fold_job(other.job) == job
        and other.job_file != rig.job_file
    ]  # fmt: skip
    return tuple(sorted(others, key=lambda other: other.file))


def fold_job(job: str) -> str:
    """The name by which jobs are one: letters' case and spaces do not count."""
    return " ".join(job.casefold().split())


_JOB_LINE = re.compile(r"^job: *([A-Za-z0-9][A-Za-z0-9 _,.()/-]*?) *(#.*)?$", re.MULTILINE)
_GOES_ON = re.compile(r"\s*(\n[^\s]|\n?\Z)")


def guess_job(text: str) -> tuple[bool, str | None]:
    """Whether the job of a rig file is sure from its text alone, and the job, folded. Where it is sure, it may still
    turn out that the rig has no job, but never that it has another one.

    Sure are a file in which the word does not stand, and one in which it stands once, as a plain key of its own line;
    `like:` may bring a job from elsewhere, and a backslash may spell a key.
    """
    if "like" in text or "\\" in text:
        return False, None
    count = text.count("job")
    if count == 0:
        return True, None
    found = _JOB_LINE.search(text)
    if count > 1 or found is None or (found[2] is None and _GOES_ON.match(text, found.end()) is None):
        return False, None
    return True, fold_job(found[1])
