"""The output contracts: keys, figures, and the same bytes for the same input."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from rigmint.library.tree_edits import Edit
from rigmint.lint.finding import Measured
from rigmint.report.json import render_check_json, render_owners_json, render_unread_json, to_json
from rigmint.rig.device import SignalKind
from rigmint.study.hands import Stopped
from tests.report.results import (
    ACCEPTED,
    HOSTILE,
    OVER,
    REACHABLE,
    RIG_FILE,
    UNKNOWN_NAME,
    WANTS_FIGURE,
    make_axis,
    make_claim,
    make_file,
    make_hands,
    make_report,
)

ROOT = Path(__file__).parents[2]


def test_the_object_of_check() -> None:
    file = make_file(findings=(ACCEPTED, OVER), unknown=(WANTS_FIGURE,), unread=(UNKNOWN_NAME,))
    shown_over = {
        "code": "voltage:over",
        "grade": "burn",
        "says": "handgrip.usb is destroyed above 5.5 V; lead P4 can put 16.8 V on it.",
        "at": "handgrip.usb",
        "cause": "P4",
        "also": [],
        "line": 48,
        "column": 3,
        "setups": ["two_up", "solo"],
        "path": ["battery", "plate.tap_2", "P4", "motor_f.bus_1", "motor_f.bus_2", "D6", "handgrip.usb"],
        "measured": {"value": 16.8, "limit": 5.5, "unit": "V"},
        "assumed": ["handgrip.usb survives", "P2 pin-out"],
        "fixes": [
            {
                "says": "take out P4. The handgrip already feeds motor_f through D6.",
                "proved": True,
                "edits": [{"do": "remove", "path": ["leads", "P4"], "value": None}],
            }
        ],
        "accepted": None,
    }
    shown_accepted = {
        **shown_over,
        "code": "backfeed:into-output",
        "at": "plate.usb",
        "cause": "P7",
        "line": 52,
        "accepted": {"why": "Diode fitted inside the sleeve", "by": "prep lead", "until": "2027-03-01"},
    }

    assert json.loads(render_check_json(make_report(file))) == {
        "rigmint": "0.1.0",
        "today": "2026-05-02",
        "packs": {"voltage": "0.1.0", "follow": "0.2.0"},
        "counts": {"hurt": 0, "burn": 1, "dead": 0, "fight": 0, "thin": 0, "tidy": 0},
        "accepted": 1,
        "files": [
            {
                "file": RIG_FILE,
                "items": 23,
                "leads": 17,
                "setups": ["two_up", "solo"],
                "findings": [shown_over, shown_accepted],
                "unknown": [
                    {
                        "code": "voltage:under",
                        "needs": "works",
                        "at": "camera.dc_in",
                        "says": "camera.dc_in does not state the window that it works in",
                    }
                ],
                "unread": [
                    {
                        "code": "file:unknown-name",
                        "says": UNKNOWN_NAME.says,
                        "file": RIG_FILE,
                        "line": 12,
                        "column": 9,
                    }
                ],
            }
        ],
        "unread": [],
    }


def test_measured_against_a_range_against_nothing_or_not_at_all() -> None:
    limits = [Measured(9.8, (11.0, 17.0), "V"), Measured(3.0, None, "s"), None]
    findings = tuple(replace(OVER, code=f"a:{name}", measured=m) for name, m in zip("abc", limits, strict=True))
    shown = json.loads(render_check_json(make_report(make_file(findings=findings))))["files"][0]["findings"]

    assert [finding["measured"] for finding in shown] == [
        {"value": 9.8, "limit": [11, 17], "unit": "V"},
        {"value": 3, "limit": None, "unit": "s"},
        None,
    ]


def test_edits_carry_values_of_any_kind() -> None:
    edit = Edit("set", ("setups", "solo", "set", "accepted", 2), {"b": [1, 2.00000049], "a": None})
    finding = replace(OVER, fixes=(replace(OVER.fixes[0], edits=(edit,)),))
    shown = json.loads(render_check_json(make_report(make_file(findings=(finding,)))))

    assert shown["files"][0]["findings"][0]["fixes"][0]["edits"] == [
        {"do": "set", "path": ["setups", "solo", "set", "accepted", 2], "value": {"b": [1, 2.0], "a": None}}
    ]


def test_the_object_of_owners() -> None:
    wheel = make_claim("hand.wheel", "first_ac", sends=SignalKind.RATE, reach=1234567.8)
    knob = make_claim("desk.knob", "operator", assumes={("desk", "lens_control"): "on"})
    stop = Stopped("grip.dial", "head.set.dial", "head.dial is none, not focus")
    axis = make_axis("lens.focus", wheel, knob, meant=("first_ac",), stopped=(stop,))

    assert json.loads(render_owners_json("0.1.0", RIG_FILE, {"two_up": make_hands(axis)})) == {
        "rigmint": "0.1.0",
        "file": RIG_FILE,
        "setups": {
            "two_up": {
                "focus": {
                    "meant": ["first_ac"],
                    "claims": [
                        {
                            "control": "hand.wheel",
                            "person": "first_ac",
                            "sends": "rate",
                            "arrives": "absolute",
                            "mover": "motor_f.shaft",
                            "automatic": False,
                            "path": ["hand.wheel", "D6", "motor_f.shaft"],
                            "reach": 1234570.0,
                        }
                    ],
                    "stopped": [
                        {
                            "control": "grip.dial",
                            "by": "head.set.dial",
                            "says": "head.dial is none, not focus",
                        },
                        {
                            "control": "desk.knob",
                            "by": "desk.set.lens_control",
                            "says": "desk.lens_control is not stated;"
                            " with desk.lens_control at on it reaches lens.focus",
                        },
                    ],
                }
            }
        },
    }


def test_a_rig_that_cannot_be_read() -> None:
    assert json.loads(render_unread_json((UNKNOWN_NAME,))) == {
        "unread": [{"code": "file:unknown-name", "says": UNKNOWN_NAME.says, "file": RIG_FILE, "line": 12, "column": 9}]
    }


@pytest.mark.parametrize(
    ("value", "printed"),
    [
        (16.800000000000001, "16.8"),
        (1 / 3, "0.333333"),
        (1234567.0, "1234570.0"),
        (-0.0, "0.0"),
        (-1e-320 * 1e-10, "0.0"),
        (7, "7"),
        (1234567, "1234567"),
        (True, "true"),
        (None, "null"),
        ("Ω\x1b\u202e", '"\\u03a9\\u001b\\u202e"'),
        (SignalKind.RATE, '"rate"'),
        ((1.0, "a"), '[\n  1.0,\n  "a"\n]'),
        ({"b": 1, "a": 2}, '{\n  "a": 2,\n  "b": 1\n}'),
    ],
)
def test_values_are_printed_in_one_way(value: object, printed: str) -> None:
    assert to_json(value) == printed + "\n"


@pytest.mark.parametrize(
    ("value", "error", "words"),
    [
        ({"ports": {"camera": [1.0, float("nan")]}}, ValueError, r"\.ports\.camera\[1\] is nan"),
        (float("inf"), ValueError, "is inf, which is no number"),
        ({"a": {1: "x"}}, TypeError, "key 1, which is no text"),
        ({"a": {1, 2}}, TypeError, r"\.a is of type set"),
    ],
)
def test_what_is_no_json_is_refused_by_place(value: object, error: type[Exception], words: str) -> None:
    with pytest.raises(error, match=words):
        to_json(value)


def test_hostile_names_stay_whole_and_ascii() -> None:
    finding = replace(OVER, at=HOSTILE, says=HOSTILE)
    text = render_check_json(make_report(make_file(file=HOSTILE, findings=(finding,))))

    assert text.isascii()
    assert json.loads(text)["files"][0]["findings"][0]["at"] == HOSTILE


@pytest.mark.parametrize(("seed", "locale"), [("0", "C"), ("1", "C.UTF-8"), ("77", "POSIX")])
def test_the_same_bytes_whatever_the_hash_seed_the_locale_and_the_order(seed: str, locale: str) -> None:
    program = (
        "import sys\n"
        "from rigmint.report.json import render_check_json\n"
        "from tests.report.results import *\n"
        "print(render_check_json(make_report(make_file(findings=(OVER, ACCEPTED, REACHABLE)))), end='')\n"
    )
    environment = {**os.environ, "PYTHONHASHSEED": seed, "LC_ALL": locale, "PYTHONPATH": str(ROOT)}
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, env=environment, check=True, cwd=ROOT)
    shuffled = make_report(make_file(findings=(REACHABLE, OVER, ACCEPTED)))

    assert ran.stdout == render_check_json(shuffled).encode("ascii")
