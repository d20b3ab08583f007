"""Lens control: motors on their rings, and what turns them: a hand unit, the desk, or the dial of the head."""

from __future__ import annotations

from rigmint.start.draft import Draft
from rigmint.start.people import OPERATOR, find_puller
from rigmint.start.refusals import has_line

LENS = "lens control"
HANDS = "in somebody's hands"
_CHANNEL = 3


def add_lens_control(draft: Draft) -> None:
    """Driver, motors, hand unit; nothing where no ring is driven."""
    answers = draft.answers
    if not answers.lens:
        return
    puller = find_puller(draft.answers) if answers.lens_by == "hand_unit" else OPERATOR
    for ring in answers.lens:
        draft.own(ring, puller)
    if answers.is_small:
        _add_small(draft)
    else:
        _add_driver(draft)
    if answers.lens_by == "hand_unit":
        draft.add(HANDS, "hand", "hand-unit-three-axis", remark="your hand unit")
        draft.link("lens_control", ("driver.radio", "hand.radio"), _CHANNEL)
        draft.give(puller, "hand")


def _add_motors(draft: Draft, part: str) -> list[str]:
    motors = []
    for number, ring in enumerate(draft.answers.lens, start=1):
        motor = draft.add(LENS, f"motor_{ring[0]}", part, axis=ring)
        draft.dock(f"{motor}.rod", f"rods.motor_{number}")
        draft.fitted[motor] = f"lens.{ring}"
        motors.append(motor)
    return motors


def _add_driver(draft: Draft) -> None:
    """A driver with a port for each motor; by desk or dial it listens to the head through a loom."""
    answers = draft.answers
    draft.add(LENS, "driver", "motor-driver-three", remark="your lens motor driver")
    for number, motor in enumerate(_add_motors(draft, "lens-motor"), start=1):
        draft.lead(LENS, "M", f"driver.motor_{number}", f"{motor}.bus_1", part="lead-bus")
    if answers.lens_by == "hand_unit" and "focus" in answers.lens:
        draft.add(LENS, "finder", "range-finder", remark="leave it out where the focus puller works without")
        draft.lead(LENS, "D", "driver.finder", "finder.data")
    if answers.lens_by in ("desk", "dial"):
        ends = {"a": "driver.head", "b": "head.accessory", "c": "head.record"}
        draft.loom(LENS, "D", "loom-head-y", ends, remark="brings lens control and trigger from the head to the driver")
    if answers.lens_by == "desk" and not has_line(answers) and answers.head == "wheels":
        draft.settings["mon_op.link_axis"] = answers.lens[0]


def _add_small(draft: Draft) -> None:
    """Motors in a chain: at a small driver, or at the head, whose dial they listen to."""
    motors = _add_motors(draft, "lens-motor-fine")
    if draft.answers.lens_by == "hand_unit":
        draft.add(LENS, "driver", "motor-driver-one", remark="your lens motor driver")
        source = "driver.motor_1"
    else:
        source = "head.accessory"
    for motor in motors:
        draft.lead(LENS, "M", source, f"{motor}.bus_1", part="lead-bus")
        source = f"{motor}.bus_2"
