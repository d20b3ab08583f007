"""`picture:late`: a picture too late for what the screen is for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from rigmint import HEAD_AXES, Case, Finding, Fix, FlowArrival, Grade, Item, Measured, Parameter, Rule

_PICTURE = "picture"
_OPERATOR, _FOCUS = "operator", "focus"
_RECORDER = "recorder"
_CONVERTER = "converter"
_MILLI = 1e-3


def check(case: Case) -> Iterator[Finding]:
    """One finding for each item that delays the picture most on the way to a screen that is late."""
    for arrival in case.flows(_PICTURE):
        item_name, _, screen = arrival.place.partition(".")
        if screen not in case.flow_ends(item_name, _PICTURE):
            continue
        use = _find_use(case, case.rig.items[item_name])
        if use is not None and arrival.latency > case.parameters[use] * (1 + 1e-9):
            yield _report(case, arrival, use)


def _find_use(case: Case, item: Item) -> str | None:
    """What the screen is for: as it is written, else what the person in whose crew it is holds; the stricter of two."""
    if item.watch is not None:
        return item.watch if item.watch in (_OPERATOR, _FOCUS) else None
    person = case.setup.holder(item.name)
    if person is None or item.part.kind == _RECORDER:
        return None
    held = {place.partition(".")[2] for place, persons in case.setup.who.items() if person in persons}
    uses = [_FOCUS] if _FOCUS in held else []
    if held & set(HEAD_AXES) or person == _OPERATOR:
        uses.append(_OPERATOR)
    return min(uses, key=lambda use: case.parameters[use], default=None)


def _report(case: Case, arrival: FlowArrival, use: str) -> Finding:
    shares: dict[str, float] = defaultdict(float)
    for item, seconds in arrival.delays:
        shares[item] += seconds
    slowest = _find_slowest(case, shares, arrival.place.partition(".")[0], case.parameters[use])
    told = ", ".join(f"{item} {seconds / _MILLI:.0f}" for item, seconds in shares.items())
    limit = case.parameters[use]
    whom = "an operator" if use == _OPERATOR else "pulling focus"
    return Finding(
        code="picture:late",
        grade=Grade.THIN,
        says=(
            f"{arrival.place} shows the picture {arrival.latency / _MILLI:.0f} ms late ({told}); for {whom}"
            f" {limit / _MILLI:.0f} ms is the most."
        ),
        at=arrival.place,
        cause=slowest,
        path=arrival.path,
        measured=Measured(arrival.latency, limit, "s"),
        fixes=(Fix(_say_fix(slowest, arrival)),),
    )


def _find_slowest(case: Case, shares: dict[str, float], screen: str, limit: float) -> str:
    """What delays most on the way, a converter before others; the screen's own item, which nobody can leave out, only
    where it is too late by itself."""
    if shares.get(screen, 0.0) > limit or shares.keys() == {screen}:
        return screen
    ahead = {item: share for item, share in shares.items() if item != screen}
    return max(ahead, key=lambda item: (ahead[item], case.rig.items[item].part.kind == _CONVERTER, item))


def _say_fix(slowest: str, arrival: FlowArrival) -> str:
    if arrival.place.startswith(f"{slowest}."):
        return f"Use a quicker screen than {slowest}."
    return f"Take the picture from before {slowest}, or use a quicker one in its place."


RULE = Rule(
    code="picture:late",
    grades=(Grade.THIN,),
    title="A picture too late to work by",
    looks_for=(
        "A screen whose picture has gone through more delay, added up over senders, converters and the screen itself,"
        " than somebody can operate (80 ms) or pull focus (60 ms) by. A screen that is only for watching is never late."
        " What it is for is written under `for:`, else it follows from whose crew it is in."
    ),
    why="The operator chases the frame and the focus lands two steps behind, and nobody knows why.",
    put_right="Leave out a converter, take the loop in front of it, or use a sender of lower delay.",
    source="common practice",
    parameters={
        _OPERATOR: Parameter(0.080, "duration", "delay that a head can be operated by"),
        _FOCUS: Parameter(0.060, "duration", "delay that focus can be pulled by"),
    },
    check=check,
)
