"""What misplugs do, in words."""

from __future__ import annotations

from collections.abc import Sequence

from rigmint.report.layout import list_some, show_tenths
from rigmint.report.misplug_groups import Culprit, FailureGroup, VictimGroup
from rigmint.rig.electric import Role
from rigmint.rig.rig import Rig
from rigmint.study.misplug.burns import HarmKind
from rigmint.study.misplug.losses import Loss, LossKind
from rigmint.study.misplug.mistakes import How

_MOST = 4
_MOST_LOSSES = 3


def say_fate(rig: Rig, group: VictimGroup) -> str:
    """What becomes of a socket."""
    harm = group.harm
    assumed = "~" if harm.ref is not None and "survives" in rig.port(harm.ref).assumed else ""
    limit = f"{assumed}{show_tenths(harm.limit)} V" if harm.limit is not None else ""
    each = "each " if len(group.victims) > 1 else ""
    if harm.kind is HarmKind.OVER:
        return f"{each}destroyed above {limit}"
    if harm.kind is HarmKind.REVERSED:
        stands = f"{assumed}{show_tenths(max(0.0, -(harm.limit or 0.0)))} V"
        return f"{each}gets its feed the wrong way round and stands {stands} of that"
    if harm.kind is HarmKind.SIGNAL:
        return f"plus on `{harm.what}`, which stands {limit}"
    if harm.kind is HarmKind.SHORT:
        return f"plus and minus of {harm.what} are joined there"
    if harm.kind is HarmKind.TIED:
        giver, taker = harm.what.split()
        return f"{giver} pushes into {taker}"
    return f"{each}an output into which a feed is pushed"


def say_culprit(culprit: Culprit, *, with_marks: bool) -> str:
    """Which plug it is, and where it goes in if that is not the socket that dies."""
    where = f", in {list_some([ref.place for ref in culprit.sockets], _MOST)}" if culprit.sockets else ""
    marks = f" (marked: {', '.join(culprit.marks)})" if culprit.marks and with_marks else ""
    return f"{_name_plug(culprit.how, culprit.leads, culprit.end, culprit.meant)}{where}{marks}"


def _name_plug(how: How, leads: tuple[str, ...], end: str, meant: tuple[str, ...]) -> str:
    named = list_some(leads, _MOST)
    if how is How.SWAPPED:
        return f"{named} in the place of {list_some(meant, _MOST)}"
    if how is How.TURNED:
        return f"{named} turned round"
    if how is How.FORCED:
        return f"end {end} of {named} forced in turned round" if named else "pushed on turned round"
    return f"end {end} of {named}"


def say_remedy(rig: Rig, group: VictimGroup) -> str:
    """What an old hand would do about it: tape or a cap, a key or another connector, a regulated lead."""
    victims = list_some([ref.place for ref in group.victims], _MOST)
    own = [lead for culprit in group.culprits for lead in culprit.leads if lead in rig.leads]
    leads = list_some(list(dict.fromkeys(own)), _MOST)
    hows = {culprit.how for culprit in group.culprits}
    if hows == {How.FORCED}:
        return "put a keyed connector in place of a worn one, and mark plus on both halves; meter it before it is live."
    if hows == {How.SWAPPED} and not own:
        return "keep that lead out of this rig's case, or sleeve it in a colour of its own."
    mark = f"mark {leads}" if leads else "sleeve those leads in a colour of their own"
    if len(group.victims) == 1:
        mark = f"cap or tape {victims}, or {mark}"
    if group.harm.kind in (HarmKind.REVERSED, HarmKind.SHORT):
        return f"{mark}; better one pin-out on this connector, or a key or another connector for the odd one."
    if group.harm.kind is HarmKind.OVER:
        return f"{mark}; better another connector or a key on what carries more, or {_name_regulated(rig, group)}."
    return f"{mark}; better another connector or a key on one of the two."


def _name_regulated(rig: Rig, group: VictimGroup) -> str:
    works = rig.port(group.victims[0]).works
    if works is None or rig.port(group.victims[0]).role is Role.OUT:
        return "a regulated lead"
    return f"a regulated lead that gives {show_tenths((works.low + works.high) / 2)} V"


def say_failure(group: FailureGroup) -> str:
    """Where a plug goes in besides, and what no longer works then."""
    lost = _say_losses(group)
    if group.how is How.MOVED:
        sockets = sorted(ref.place for ref in group.sockets)
        return f"{_name_plug(group.how, group.leads, group.end, ())} in {list_some(sockets, _MOST)}: {lost}"
    return f"{_name_plug(group.how, group.leads, group.end, (group.meant,))}: {lost}"


def _say_losses(group: FailureGroup) -> str:
    if not group.losses:
        which = "depending on the socket" if group.how is How.MOVED else "depending on the lead"
        return f"{which}, {_list_losses(group.others)}"
    what_more = "what was in that socket" if group.how is How.MOVED else "more with some of them"
    return _list_losses(group.losses) + (f"; and {what_more}" if group.others else "")


def _list_losses(losses: Sequence[Loss]) -> str:
    """`no power at camera, monitor; nobody has lens.focus`."""
    words = {LossKind.POWER: "no power at", LossKind.HAND: "nobody has"}
    told: dict[str, list[str]] = {}
    for loss in losses:
        told.setdefault(words.get(loss.kind, f"no {loss.token} at"), []).append(loss.place)
    return "; ".join(f"{what} {list_some(places, _MOST_LOSSES)}" for what, places in told.items())
