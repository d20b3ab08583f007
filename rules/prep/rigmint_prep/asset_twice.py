"""`tidy:asset-twice`: one asset number on two things, in a rig or across the rigs of a job."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rig, Rule, say_list


def check(case: Case) -> Iterator[Finding]:
    """One finding for each set of rigs that hold the same things, and one for each thing that is twice in a rig."""
    own = _list_assets(case.rig, case.setup.items | case.setup.leads)
    for names in own.values():
        if len(names) > 1:
            yield _report_within(case, names)
    shared: dict[tuple[str, ...], list[str]] = defaultdict(list)
    earlier = [other for other in case.job_rigs if other.file < case.rig.file]
    held = {case.name_rig(other): _list_assets(other, {*other.items, *other.leads}) for other in earlier}
    for asset, names in own.items():
        files = tuple(file for file, assets in held.items() if asset in assets)
        if files:
            shared[files].append(names[0])
    for files, names in shared.items():
        yield _report_across(case, files, names)


def _list_assets(rig: Rig, names: frozenset[str] | set[str]) -> dict[str, list[str]]:
    """Asset number, in one way of writing, to the items and leads that bear it, as the file lists them."""
    found: dict[str, list[str]] = defaultdict(list)
    for name in (*rig.items, *rig.leads):
        asset = _find_asset(rig, name)
        if asset is not None and name in names:
            found["".join(asset.casefold().split())].append(name)
    return found


def _find_asset(rig: Rig, name: str) -> str | None:
    return rig.items[name].asset if name in rig.items else rig.leads[name].asset


def _report_within(case: Case, names: list[str]) -> Finding:
    return Finding(
        code="tidy:asset-twice",
        grade=Grade.TIDY,
        says=f"{_find_asset(case.rig, names[0])} is the asset number of {say_list(names)}.",
        at=names[-1],
        cause=names[-1],
        also=tuple(names[:-1]),
        fixes=(Fix(f"Read the label on {names[-1]} and write its own number."),),
    )


def _report_across(case: Case, files: tuple[str, ...], names: list[str]) -> Finding:
    told = say_list([f"{_find_asset(case.rig, name)} ({name})" for name in names])
    are, they = ("is", "it") if len(names) == 1 else ("are", "they")
    return Finding(
        code="tidy:asset-twice",
        grade=Grade.TIDY,
        says=f"{told} {are} in {say_list(files)} too, a rig of the same job: {they} can be on one of them at a time.",
        at=names[0],
        cause=names[0],
        also=tuple(names[1:]),
        fixes=(
            Fix(
                "Give one of the rigs another; or, if this is the same rig flown another way, make it a setup, or let"
                " it start from the other by `like:` without a `job:` of its own."
            ),
        ),
    )


RULE = Rule(
    code="tidy:asset-twice",
    grades=(Grade.TIDY,),
    title="One thing is promised twice",
    looks_for=(
        "An `asset:` number on two things of one setup, or on things of two rigs with the same `job:`, among the rig"
        " files that are checked in one run with one library; reported in the later file by name. A rig that has its"
        " job from another by `like:` is that rig flown another way, and shares its things."
    ),
    why="Two cases are packed, and the second one is a camera short.",
    put_right="Give each rig its own, or write down that the two are one rig.",
    source="common practice",
    check=check,
)
