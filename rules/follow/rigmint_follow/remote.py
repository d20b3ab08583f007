"""Which axes of a head somebody operates remotely."""

from __future__ import annotations

from rigmint import AxisHands, Case, Claim, Item, SignalKind


def find_remote_axes(case: Case, head: Item) -> dict[str, Claim]:
    """Axis to a remote claim on it, for each axis that a person who is meant to has from another item. Where the rig
    does not say who is meant, any remote hand counts. An axis that `who` gives to the one who carries the head too
    follows by agreement, and is none."""
    found = {}
    for axis in case.hands.axes.values():
        item, _, name = axis.place.partition(".")
        claim = _find_remote_claim(axis) if item == head.name else None
        if claim is not None and case.find_carrier(head) not in set(axis.meant) - {claim.person}:
            found[name] = claim
    return found


def _find_remote_claim(axis: AxisHands) -> Claim | None:
    own = axis.place.partition(".")[0]
    for claim in axis.certain:
        is_meant = not axis.meant or claim.person in axis.meant
        if claim.arrives is not SignalKind.FOLLOW and claim.item != own and is_meant:
            return claim
    return None


def list_heads(case: Case) -> list[Item]:
    """The heads with follow modes that are there and on."""
    return [item for item in case.items if item.part.follow is not None and item.name not in case.setup.off]
