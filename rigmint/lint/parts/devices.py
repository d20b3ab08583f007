"""What a head, a driver, a lens motor and whatever rides on a rig must state to be judged at all."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.lint.parts.hint import Hint, PartView

_BARE_DRIVE = "motor-drive"
"""The protocol of motors without electronics of their own."""


def check_mass(view: PartView) -> Iterator[Hint]:
    """What rides has a mass: payload is summed over all of it."""
    part = view.part
    if part.mass is None and part.kind != "lead" and part.rides != "away":
        yield Hint(
            "part:mass",
            "It rides on the rig and has no mass: payload comes out too light wherever it is.",
            "Weigh it and write `mass:`; what stays off the rig says `rides: away`.",
            ("mass",),
        )


def check_head(view: PartView) -> Iterator[Hint]:
    """A head has buttons or a stick of its own, which a hand can reach whoever is meant to have it."""
    if view.part.kind == "head" and not view.part.controls:
        yield Hint(
            "part:head",
            "A head without a button, dial or stick of its own: who can reach its axes comes out too short.",
            "Write what a hand can press on it under `controls:`, and where that leads under `passes:`.",
            ("controls",),
        )


def check_calibration(view: PartView) -> Iterator[Hint]:
    """A driver of bare motors says when they seek the stops, a lens motor how hard. Motors on a bus have electronics of
    their own, which calibrate."""
    part = view.part
    turns_bare = any(_BARE_DRIVE in spoken for spoken in view.protocols_of().values())
    if part.kind == "motor_driver" and turns_bare and not view.states("drive", "calibrates"):
        yield Hint(
            "part:calibration",
            "The driver does not say when its motors seek the stops of a ring: at each switch-on is assumed.",
            "Write `drive: {calibrates: {when: {SETTING: VALUE}}}`, or `calibrates: never`.",
            ("drive",),
        )
    drive = part.drive
    if part.kind == "lens_motor" and (drive is None or (drive.calibration is None and not drive.never_calibrates)):
        yield Hint(
            "part:calibration",
            "The lens motor does not say how hard it runs into the stops of a ring.",
            "Write `calibration:` under `drive:`, in N*m; `calibrates: never` where it seeks none.",
            ("drive",),
        )
