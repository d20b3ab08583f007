"""Record: by which leads each control that is to start the camera reaches it, and who has it."""

from __future__ import annotations

from rigmint.start.draft import Draft
from rigmint.start.people import CARRIER, OPERATOR, find_puller

RECORD = "record"


def add_record(draft: Draft) -> None:
    """The trigger's way to the camera, once for all controls that use it."""
    answers = draft.answers
    from_head = bool({"desk", "trigger"} & set(answers.record))
    from_driver = "hand_unit" in answers.record
    has_loom = any(lead.part.endswith("loom-head-y") for lead in draft.leads)
    if from_head and from_driver and not has_loom and not answers.is_small:
        # Both reach the camera's one input: the head's trigger goes to the driver, and the driver starts the camera.
        ends = {"a": "driver.head", "b": "head.accessory", "c": "head.record"}
        draft.loom(RECORD, "D", "loom-head-y", ends, remark="brings the head's trigger to the driver")
        has_loom = True
    if from_driver or (from_head and has_loom):
        _join_driver(draft)
    elif from_head:
        _join_head(draft)
    for control in answers.record:
        draft.own("record", _find_owner(draft, control))


def _join_driver(draft: Draft) -> None:
    if draft.answers.is_small:
        _add_box(draft, "driver.run")
    elif _takes_pulse(draft):
        draft.lead(RECORD, "R", "driver.run_5v", "camera.remote", part="lead-run-5v")
    else:
        draft.lead(RECORD, "R", "driver.run", "camera.remote")


def _join_head(draft: Draft) -> None:
    if draft.answers.is_small and draft.answers.lens:
        _add_box(draft, "head.record")
    elif _takes_pulse(draft):
        draft.add(RECORD, "box", "trigger-box", remark="makes the camera's 5 V pulse of the head's contact")
        draft.lead(RECORD, "R", "head.record", "box.trigger_in")
        draft.lead(RECORD, "R", "box.pulse_out", "camera.remote", part="lead-run-5v")
    else:
        draft.lead(RECORD, "R", "head.record", "camera.remote")


def _add_box(draft: Draft, source: str) -> None:
    """A camera that records while its trigger is held: a box turns a pulse into a hold."""
    draft.add(RECORD, "box", "trigger-box", remark="holds the trigger of a camera that records while it is held")
    draft.lead(RECORD, "R", source, "box.trigger_in")
    draft.lead(RECORD, "R", "box.hold_out", "camera.remote")


def _takes_pulse(draft: Draft) -> bool:
    return "run-pulse" in draft.port("camera.remote").speaks


def _find_owner(draft: Draft, control: str) -> str:
    answers = draft.answers
    if control == "hand_unit":
        return find_puller(answers)
    if control == "camera" and answers.is_remote:
        draft.give(CARRIER, "camera")
        return CARRIER
    if control == "camera":
        draft.give(OPERATOR, "camera")
    return OPERATOR
