"""What a change by verb comes down to in the file."""

from __future__ import annotations

import pytest

from rigmint.library.document import Value
from rigmint.library.faults import FaultList
from rigmint.library.tree_edits import Edit, EditRefused, apply_edits
from rigmint.library.yaml import parse_yaml
from rigmint.lint.changes import (
    AddLead,
    Change,
    ChangePart,
    FitRing,
    JoinLink,
    LeaveLink,
    Mark,
    MeetDistance,
    MoveEnd,
    SetChannel,
    SetFitting,
    SetSetting,
    SwapEnds,
    SwitchOn,
    TakeOutLead,
    Unsign,
)
from rigmint.lint.edits import list_edits
from rigmint.rig.rig import Rig
from tests.builders import make_rig

PARTS = """
house/box:
  kind: accessory
  ports:
    one: {connector: 0b-4, sex: socket}
    two: {connector: 0b-4, sex: socket}
    three: {connector: 0b-4, sex: socket}
  settings: {mode: {values: [a, b], default: a}, axis: {values: [focus, iris]}}
  radios: {air: {speaks: [lens-air]}}
house/lens: {kind: lens, rings: {focus: {}, iris: {}}}
house/motor: {kind: lens_motor, settings: {axis: {values: [focus, iris]}}, moves: {shaft: {axis: {setting: axis}, takes: [absolute]}}}
house/cord: {kind: lead, ends: {a: {connector: 0b-4, sex: plug}, b: {connector: 0b-4, sex: plug}}, conductors: straight}
house/cord-y: {kind: lead, ends: {a: {connector: 0b-4, sex: plug}, b: {connector: 0b-4, sex: plug}, c: {connector: 0b-4, sex: plug}}, conductors: [{from: a.1, to: b.1, gauge: 22 AWG}]}
"""
RIG = """\
kit:
  x: house/box
  y: {part: house/box, set: {mode: b}}
  z: {part: house/box, in: [day]}
  lens: house/lens
  motor: {part: house/motor, set: {axis: focus}}
leads:
  P1: x.one > y.one
  P2: {part: house/cord, from: x.two, to: y.two}
  P3: {part: house/cord-y, ends: {a: x.three, b: y.three, c: loose}}
  P4: {part: house/cord, from: z.one, to: loose}
links:
  air: {between: [x.air, y.air, z.air], channel: 3}
  pair: {between: [x.air, y.air]}
fitted: {motor: lens.focus}
settings: {y.axis: focus}
setups:
  day: {set: {x.axis: iris}, off: [y]}
  night: {unplugged: [P2]}
  dusk: {off: [x, y]}
marked: {P2: red, "P3:a": blue, x.one: capped}
metered: {P2: {by: prep}}
tied: [P2, "P2:a", x.one]
accepted:
  - {code: "house:a", at: P2, why: x, by: y}
  - {code: "house:b", at: P2, why: x, by: y}
"""
ALL = ("day", "night", "dusk")


def read_tree(text: str) -> Value:
    """The tree of a text."""
    document = parse_yaml(text, "x", FaultList())
    assert document is not None
    return document.tree


@pytest.fixture(scope="module")
def rig() -> Rig:
    """Two boxes on leads of each form, a third in one setup alone."""
    return make_rig(RIG, PARTS)


def edits_of(rig: Rig, change: Change, *setups: str) -> list[tuple[object, ...]]:
    """What a change comes down to, as (do, path, value)."""
    return [(one.do, one.path, one.value) for one in list_edits((change,), rig, read_tree(RIG), setups or ALL)]


@pytest.mark.parametrize(
    ("change", "setups", "edits"),
    [
        # where the value stands now: a default, the item's own, the rig's, a setup's
        (SetSetting("x", "mode", "b", "day"), ALL, [("set", ("settings", "x.mode"), "b")]),
        (SetSetting("y", "mode", "a", "day"), ALL, [("set", ("kit", "y", "set", "mode"), "a")]),
        (SetSetting("y", "axis", "iris", "day"), ALL, [("set", ("settings", "y.axis"), "iris")]),
        (SetSetting("x", "axis", "focus", "day"), ("day",), [("set", ("setups", "day", "set", "x.axis"), "focus")]),
        # only in some of the setups that have it from there: into the setups
        (SetSetting("y", "mode", "a", "day"), ("day",), [("set", ("setups", "day", "set", "y.mode"), "a")]),
        (
            SetSetting("x", "axis", "focus", "day"),
            ("day", "night"),
            [("set", ("setups", "night", "set", "x.axis"), "focus"), ("set", ("setups", "day", "set", "x.axis"), "focus")],
        ),
        # where a setup states it itself, the others have it from elsewhere: both places
        (
            SetSetting("x", "axis", "focus", None),
            ("day",),
            [("set", ("settings", "x.axis"), "focus"), ("set", ("setups", "day", "set", "x.axis"), "focus")],
        ),
        # an item that is in one setup alone: all that it is in
        (SetSetting("z", "mode", "b", "day"), ("day",), [("set", ("settings", "z.mode"), "b")]),
        (MoveEnd("P1", "b", "y.three"), ALL, [("set", ("leads", "P1"), "x.one > y.three")]),
        (MoveEnd("P2", "b", "y.three"), ALL, [("set", ("leads", "P2", "to"), "y.three")]),
        (MoveEnd("P3", "c", "y.three"), ALL, [("set", ("leads", "P3", "ends", "c"), "y.three")]),
        (SwapEnds("P1"), ALL, [("set", ("leads", "P1"), "y.one > x.one")]),
        (SwapEnds("P2"), ALL, [("set", ("leads", "P2", "from"), "y.two"), ("set", ("leads", "P2", "to"), "x.two")]),
        (SwapEnds("P4"), ALL, [("set", ("leads", "P4", "from"), "loose"), ("set", ("leads", "P4", "to"), "z.one")]),
        (TakeOutLead("P1"), ALL, [("remove", ("leads", "P1"), None)]),
        (TakeOutLead("P1"), ("day",), [("add", ("setups", "day", "unplugged"), "P1")]),
        (TakeOutLead("P1", "dusk"), ALL, [("add", ("setups", "dusk", "unplugged"), "P1")]),
        (TakeOutLead("P4"), ("day",), [("remove", ("leads", "P4"), None)]),
        (AddLead("P9", "x.one", "y.one"), ALL, [("set", ("leads", "P9"), "x.one > y.one")]),
        (
            AddLead("P9", "x.one", "y.one", "house/cord", "day"),
            ALL,
            [("set", ("leads", "P9"), {"part": "house/cord", "from": "x.one", "to": "y.one", "in": ["day"]})],
        ),
        (ChangePart("x", "house/z"), ALL, [("set", ("kit", "x"), "house/z")]),
        (ChangePart("y", "house/z"), ALL, [("set", ("kit", "y", "part"), "house/z")]),
        (ChangePart("P2", "house/z"), ALL, [("set", ("leads", "P2", "part"), "house/z")]),
        (
            ChangePart("P1", "house/z"),
            ALL,
            [("set", ("leads", "P1"), {"part": "house/z", "from": "x.one", "to": "y.one"})],
        ),
        (Mark("P4:b", "taped"), ALL, [("set", ("marked", "P4:b"), "taped")]),
        (SetChannel("air", "5"), ALL, [("set", ("links", "air", "channel"), "5")]),
        (MeetDistance("air", 36.0, None), ALL, [("set", ("links", "air", "distance"), "36 m")]),
        (MeetDistance("air", 36.0, "day"), ALL, [("set", ("setups", "day", "distance", "air"), "36 m")]),
        (JoinLink("pair", "z.air"), ALL, [("add", ("links", "pair", "between"), "z.air")]),
        (LeaveLink("air", "y.air"), ALL, [("remove", ("links", "air", "between", 1), None)]),
        (LeaveLink("pair", "y.air"), ALL, [("remove", ("links", "pair"), None)]),
        (LeaveLink("pair", "y.air"), ("day",), [("add", ("setups", "day", "out"), "pair")]),
        (SwitchOn("y"), ("day", "night"), [("remove", ("setups", "day", "off"), None)]),
        (SwitchOn("y"), ("dusk",), [("remove", ("setups", "dusk", "off", 1), None)]),
        (FitRing("motor", "lens.iris"), ALL, [("set", ("fitted", "motor"), "lens.iris")]),
        (
            SetFitting("motor", "direction", "reversed"),
            ALL,
            [("set", ("fitted", "motor"), {"ring": "lens.focus", "direction": "reversed"})],
        ),
        (Unsign(1), ALL, [("remove", ("accepted", 1), None)]),
    ],
)  # fmt: skip
def test_what_a_change_comes_down_to(
    rig: Rig, change: Change, setups: tuple[str, ...], edits: list[tuple[object, ...]]
) -> None:
    assert edits_of(rig, change, *setups) == edits


def test_what_is_said_of_a_lead_elsewhere_goes_with_it(rig: Rig) -> None:
    assert edits_of(rig, TakeOutLead("P2")) == [
        ("remove", ("leads", "P2"), None),
        ("remove", ("marked", "P2"), None),
        ("remove", ("metered",), None),
        ("remove", ("tied", 0), None),
        ("remove", ("tied", 1), None),
        ("remove", ("setups", "night", "unplugged"), None),
    ]


def test_a_rig_without_a_lead_still_reads(rig: Rig) -> None:
    tree = read_tree(RIG)
    changed = apply_edits(tree, list_edits((TakeOutLead("P2"),), rig, tree, ALL))

    assert isinstance(changed, dict)
    assert changed["tied"] == ["x.one"]
    assert "metered" not in changed


def test_both_ends_of_a_lead_in_one_line_move_together(rig: Rig) -> None:
    changes = (MoveEnd("P1", "a", "x.three"), MoveEnd("P1", "b", "y.three"))

    assert list_edits(changes, rig, read_tree(RIG), ALL) == (Edit("set", ("leads", "P1"), "x.three > y.three"),)


@pytest.mark.parametrize(
    ("change", "setups", "says"),
    [
        (SetSetting("q", "mode", "b", None), ALL, "there is no setting q.mode"),
        (SetSetting("x", "volume", "b", None), ALL, "there is no setting x.volume"),
        (MoveEnd("P9", "a", "x.one"), ALL, "there is no lead P9"),
        (SwapEnds("P3"), ALL, "P3 has 3 ends"),
        (AddLead("P1", "x.one", "y.one"), ALL, "the label P1 is taken"),
        (AddLead("x", "x.one", "y.one"), ALL, "the label x is taken"),
        (LeaveLink("air", "y.air"), ("day",), "in one setup alone"),
        (LeaveLink("air", "lens.air"), ALL, "lens.air is not in the link air"),
    ],
)
def test_what_does_not_fit_the_rig(rig: Rig, change: Change, setups: tuple[str, ...], says: str) -> None:
    with pytest.raises(EditRefused, match=says):
        edits_of(rig, change, *setups)
