"""`ground:through-shield`: power returns through a signal lead."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, DeviceReturn, Feed, Finding, Fix, Grade, Measured, Point, Rule, SignalReturn, say_amps

_MOST_AMPS = 1.0
_MOST_SHARE = 0.4
_NOTICED = 0.1


def check(case: Case) -> Iterator[Finding]:
    """One finding for each feed that leaves its return to a signal lead."""
    without_minus = {rail.load.item for rail in case.powering.rails if rail.feed is Feed.BY_SHIELD}
    for device in case.returns(Point.TYPICAL):
        if device.item in without_minus:  # its feed is broken: `polarity:no-return` speaks of that
            continue
        for signal in device.signals:
            if signal.amps > _MOST_AMPS:
                amount = f"{say_amps(signal.amps)}; {say_amps(_MOST_AMPS)} is the most that it should carry"
                yield _report(case, device, signal, amount, Measured(signal.amps, _MOST_AMPS, "A"))
        leaving = _find_leaving(case, device)
        if leaving is not None:
            yield leaving


def _find_leaving(case: Case, device: DeviceReturn) -> Finding | None:
    """A device that sends too much of its own current out through signals, apart from what others send through it."""
    has_minus = any(port.carries_power for port in case.rig.items[device.item].part.ports.values())
    if not has_minus or device.by_signal <= _NOTICED:
        return None
    own = case.own_return(device.item)
    if own is None or own.by_signal <= _NOTICED or own.share <= _MOST_SHARE or not own.signals:
        return None
    signal = max(own.signals, key=lambda one: one.amps)
    amount = f"{100 * own.share:.0f} % of its {say_amps(own.drawn)}, and {100 * _MOST_SHARE:.0f} % is the most"
    return _report(case, own, signal, amount, Measured(own.by_signal, _MOST_SHARE * own.drawn, "A"))


def _report(case: Case, device: DeviceReturn, signal: SignalReturn, amount: str, measured: Measured) -> Finding:
    lead = signal.lead or signal.ref.place
    feed = case.find_feeding_lead(device.item)
    assumed = {f"{label} gauge" for label in (feed, signal.lead) if label is not None and case.is_gauge_assumed(label)}
    return Finding(
        code="ground:through-shield",
        grade=Grade.BURN,
        says=f"{device.item} returns current through {lead} at {signal.ref.place}, a signal lead: {amount}.",
        at=signal.ref.place,
        cause=feed or signal.lead or signal.ref.item,
        measured=measured,
        assumed=tuple(sorted(assumed)),
        fixes=(
            Fix(
                f"Give {device.item} a shorter or thicker feed"
                f"{f' than {feed}' if feed else ''}, so that its own minus is the easier way back."
            ),
            Fix(f"Feed both ends of {lead} from one plate."),
        ),
    )


RULE = Rule(
    code="ground:through-shield",
    grades=(Grade.BURN,),
    title="Power returns through a signal lead",
    looks_for=(
        "At typical load and with nothing broken: more than 1 A in one signal return, or a device with a minus of its"
        " own that sends more than 40 % of its current out through shields and signal grounds."
    ),
    why="Shields and picture inputs are not made for it: contacts burn, and inputs fail one after the other.",
    put_right="Shorten or thicken the power return, feed both devices from one plate, or isolate the signal.",
    source="common practice",
    check=check,
)
