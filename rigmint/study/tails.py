"""Tails: the leads that cross a joint of a head, and the joints on which they wind up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint.rig.device import Joint, SignalKind
from rigmint.rig.rig import Rig, Setup
from rigmint.study.following import find_following
from rigmint.study.hands import Claim, Hands
from rigmint.study.riding import STAGES, Riding
from rigmint.study.stages import StagePlaces


@dataclass(frozen=True, slots=True)
class JointTails:
    """A joint of a head, and the leads whose ends ride on different sides of it. `joint` is None where the part says
    nothing of it; `assumed` are the items whose side is that of their kind, for want of a statement."""

    head: str
    name: str
    joint: Joint | None
    leads: tuple[str, ...]
    assumed: tuple[str, ...]

    @property
    def place(self) -> str:
        """`head.pan`."""
        return f"{self.head}.{self.name}"

    @property
    def is_known(self) -> bool:
        """Whether the part says that the joint ends, or that it does not."""
        return self.joint is not None and (self.joint.endless or self.joint.travel is not None)

    @property
    def winds(self) -> bool:
        """Whether it turns on for ever and nothing lets the leads turn with it."""
        return self.joint is not None and self.joint.endless and not self.joint.slip_ring and self.joint.travel is None


@dataclass(frozen=True, slots=True)
class Windup:
    """A joint whose tails wind up, or may, and the hand that turns it on and on."""

    tails: JointTails
    by: Claim


def find_tails(rig: Rig, setup: Setup, riding: Riding) -> tuple[JointTails, ...]:
    """Every joint that a lead crosses, by head, from the base up."""
    stages = StagePlaces(rig, setup, riding)
    return tuple(tails for head in stages.heads for tails in _find_of_head(rig, setup, stages, head))


def _find_of_head(rig: Rig, setup: Setup, places: StagePlaces, head: str) -> Iterator[JointTails]:
    joints = rig.items[head].part.joints
    spans = {label: _find_span(rig, places, head, label) for label in sorted(setup.leads)}
    for upper, name in enumerate(STAGES[1:], start=1):
        if joints and name not in joints:
            continue
        leads = [label for label, (low, high) in spans.items() if low < upper <= high]
        if leads:
            refs = {ref for label in leads for ref in rig.leads[label].plugged.values()}
            assumed = {ref.item for ref in refs if places.is_assumed(ref)}
            yield JointTails(head, name, joints.get(name), tuple(leads), tuple(sorted(assumed)))


def _find_span(rig: Rig, places: StagePlaces, head: str, label: str) -> tuple[int, int]:
    """The lowest and the highest stage of a lead's ends."""
    stages = [STAGES.index(places.find_stage(ref, head)) for ref in rig.leads[label].plugged.values()]
    return (min(stages), max(stages)) if stages else (0, 0)


def find_windups(rig: Rig, setup: Setup, tails: tuple[JointTails, ...], hands: Hands) -> tuple[Windup, ...]:
    """The joints on which tails wind up, or may where the part does not say how far they turn. Follow mode brings a
    joint back under whoever carries the head, so one that follows does not; nor does one that is off, which turns by
    hand alone."""
    found = []
    for one in tails:
        if (one.is_known and not one.winds) or one.head in setup.off or _follows(rig, setup, one):
            continue
        claim = find_turning_claim(rig, hands, one.place)
        if claim is not None:
            found.append(Windup(one, claim))
    return tuple(found)


def find_turning_claim(rig: Rig, hands: Hands, place: str) -> Claim | None:
    """A hand that can turn a joint on and on: not follow mode, and not a position between the stops of its control."""
    axis = hands.axes.get(place)
    claims = axis.certain if axis is not None else ()
    return next(
        (claim for claim in claims if claim.arrives is not SignalKind.FOLLOW and not _is_bounded(rig, claim)), None
    )


def _is_bounded(rig: Rig, claim: Claim) -> bool:
    name = claim.control.partition(".")[2]
    control = rig.items[claim.item].part.controls.get(name)
    return claim.arrives is SignalKind.ABSOLUTE and control is not None and control.turn is not None


def _follows(rig: Rig, setup: Setup, tails: JointTails) -> bool:
    """Whether it follows in the mode that is set, whatever that is."""
    states = find_following(rig.items[tails.head], setup).set_mode
    return any(state.axis == tails.name and not state.assumes for state in states)
