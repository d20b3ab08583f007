"""`windup:lead`: tails across a joint that turns without end."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Grade, Rule, Unknown, Windup, say_list
from rigmint_follow.joint_fix import offer_joint_fix

_MOST = 6
_MAY_BE_ENDLESS = "pan"
"""The joint that is worth asking about: roll and tilt come to an end on any head whose maker says nothing."""


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each joint."""
    for windup in case.windups:
        tails = windup.tails
        if tails.is_known:
            yield _report(case, windup)
        elif tails.name == _MAY_BE_ENDLESS:
            says = (
                f"{say_list(tails.leads)} cross{'es' if len(tails.leads) == 1 else ''} {tails.place}, and"
                f" {case.rig.items[tails.head].part.id} does not state whether that joint is endless or its travel"
            )
            yield Unknown("windup:lead", "travel", tails.place, says)


def _report(case: Case, windup: Windup) -> Finding:
    tails, claim = windup.tails, windup.by
    count = len(tails.leads)
    listed = say_list(tails.leads, most=_MOST)
    what = f"{listed} crosses" if count == 1 else f"{count} leads ({listed}) cross"
    they, them = ("it winds", "it") if count == 1 else ("they wind", "them")
    head = case.rig.items[tails.head]
    can_follow = head.part.follow is not None and any(tails.name in axes for axes in head.part.follow.modes.values())
    locked = f", with follow mode off, which would unwind {them}" if can_follow else ""
    return Finding(
        code="windup:lead",
        grade=Grade.THIN,
        says=(
            f"{what} {tails.place}, which turns without end and has no slip ring: {they} up while"
            f" {claim.person or 'somebody'} has it on {claim.control}{locked}."
        ),
        at=tails.place,
        cause=tails.place,
        also=tails.leads,
        path=claim.path,
        assumed=tuple(f"{item} rides" for item in tails.assumed),
        fixes=offer_joint_fix(case, tails, claim),
    )


RULE = Rule(
    code="windup:lead",
    grades=(Grade.THIN,),
    title="Leads wind up on an endless joint",
    looks_for=(
        "Leads whose ends ride on different sides of a joint that is endless and has no slip ring, while somebody's"
        " control turns that joint and follow mode, which brings it back, is off. An end rides where its item does; on"
        " the head itself, where its port is; what is away counts with the base. One finding a joint."
    ),
    why=(
        "A few turns the same way, or a carrier who walks round a head that is locked, and the leads pull: on the"
        " balance first, then out of their sockets."
    ),
    put_right=(
        "Follow mode with a wide dead band, by agreement with whoever carries the head and written under `who`; or a"
        " stop on the joint, or a slip ring, or both ends of the lead on one side."
    ),
    source="common practice",
    check=check,
)
