"""Rigs of one job that are checked together: they share the air and the cases."""

from __future__ import annotations

from collections.abc import Iterable

from rigmint.rig.rig import Rig


def find_job_rigs(rig: Rig, checked: Iterable[Rig]) -> tuple[Rig, ...]:
    """The other rigs of a rig's job among those `checked` in this run with the same library, by file name.

    A rig that has its `job:` from another by `like:` is that rig flown another way, out of the same cases: the two are
    not on the job at once, and neither counts for the other. A copy that states its own `job:` is a rig of its own.
    """
    if rig.job is None:
        return ()
    job = _fold(rig.job)
    others = [
        other
        for other in checked
        if other.file != rig.file and other.job is not None and _fold(other.job) == job
        and other.job_file != rig.job_file
    ]  # fmt: skip
    return tuple(sorted(others, key=lambda other: other.file))


def _fold(job: str) -> str:
    return " ".join(job.casefold().split())
