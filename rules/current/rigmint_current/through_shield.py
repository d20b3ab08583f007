"""`ground:through-shield`: power returns through a signal lead."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, DeviceReturn, Finding, Fix, Grade, Measured, Point, Rule, SignalReturn, say_amps

_MOST_AMPS = 1.0
_MOST_SHARE = 0.4
_NOTICED = 0.05


def check(case: Case) -> Iterator[Finding]:
    """One finding for each signal lead whose shield carries too much."""
    for device in case.returns(Point.TYPICAL):
        for signal in device.signals:
            if signal.amps > _MOST_AMPS:
                says = f"{say_amps(signal.amps)}; {say_amps(_MOST_AMPS)} is the most that it should carry"
                yield _report(device, signal, says, Measured(signal.amps, _MOST_AMPS, "A"))
        if _has_feed_minus(case, device) and device.by_signal > _NOTICED and device.share > _MOST_SHARE:
            leaving = max(device.signals, key=lambda one: one.amps, default=None)
            if leaving is not None and leaving.amps <= _MOST_AMPS:
                says = f"{100 * device.share:.0f} % of its {say_amps(device.drawn)}; {100 * _MOST_SHARE:.0f} % is the most"
                measured = Measured(device.by_signal, _MOST_SHARE * device.drawn, "A")
                yield _report(device, leaving, says, measured)


def _has_feed_minus(case: Case, device: DeviceReturn) -> bool:
    return any(port.carries_power for port in case.rig.items[device.item].part.ports.values())


def _report(device: DeviceReturn, signal: SignalReturn, amount: str, measured: Measured) -> Finding:
    lead = signal.lead or signal.ref.place
    return Finding(
        code="ground:through-shield",
        grade=Grade.BURN,
        says=f"{device.item} returns current through {lead} at {signal.ref.place}, a signal lead: {amount}.",
        at=signal.ref.place,
        cause=signal.lead or signal.ref.item,
        measured=measured,
        fixes=(
            Fix(f"Give {device.item} a shorter or thicker feed, so that its own minus is the easier way back."),
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
