"""Setups: what is there, what each setting is worth, who is meant, what the job needs."""

from __future__ import annotations

from typing import Any

import pytest

from rigmint.rig.place import Position
from rigmint.rig.rig import Rig, SettingState
from tests.builders import make_rig

PARTS = """
house/box:
  kind: camera
  settings: {mode: {values: [a, b, c], default: a}, open: {values: [x, y]}}
  ports: {p: {connector: 0b-4, sex: socket}, q: {connector: 0b-4, sex: socket}}
  radios: {radio: {speaks: [lens-air]}}
  moves: {roller: {axis: record}}
house/lens: {kind: lens, rings: {focus: {}, iris: {}}}
house/head: {kind: head, joints: {pan: {}, tilt: {}}}
house/bare-camera: {kind: camera}
"""
KIT = "kit: {one: house/box, two: house/box, three: house/box, lens: house/lens, head: house/head}\n"


def rig(text: str) -> Rig:
    """A rig with five items."""
    return make_rig(KIT + text, PARTS)


def test_a_rig_without_setups_has_one() -> None:
    found = rig("")

    assert list(found.setups) == ["as_wired"]
    assert found.setups["as_wired"].items == set(found.items)


WIRED = """
docks: [one.p > two.p, {from: two.q, to: three.q, in: [second]}]
leads: {P1: one.q > three.p, P2: {from: one.p, to: two.q, in: [first]}, P3: {from: one.p, to: loose}}
links:
  l1: {between: [one.radio, two.radio, three.radio]}
  l2: {between: [three.radio, one.radio], in: [first]}
"""


@pytest.mark.parametrize(
    ("body", "items_gone", "leads", "docks", "links"),
    [
        ("{}", set(), {"P1", "P3"}, {0, 1}, {"l1"}),
        ("{out: [two]}", {"two"}, {"P1", "P3"}, set(), {"l1"}),
        ("{out: [three]}", {"three"}, {"P3"}, {0}, {"l1"}),
        ("{out: [one]}", {"one"}, set(), {1}, set()),
        ("{out: [two, three]}", {"two", "three"}, {"P3"}, set(), set()),
        ("{out: [P1, l1]}", set(), {"P3"}, {0, 1}, set()),
        ("{unplugged: [P3]}", set(), {"P1"}, {0, 1}, {"l1"}),
        ("{off: [two]}", set(), {"P1", "P3"}, {0, 1}, {"l1"}),
    ],
)
def test_what_is_there(body: str, items_gone: set[str], leads: set[str], docks: set[int], links: set[str]) -> None:
    found = rig(f"{WIRED}setups: {{first: {{}}, second: {body}}}")
    setup = found.setups["second"]

    assert set(found.items) - setup.items == items_gone
    assert (set(setup.leads), set(setup.docks), set(setup.links)) == (leads, docks, links)


def test_what_is_in_one_setup_only() -> None:
    found = make_rig(
        "kit: {one: {part: house/box, in: [first]}, two: house/box}\n"
        "leads: {P1: one.p > two.p, P2: {from: two.q, to: loose, in: [second]}}\nsetups: {first: {}, second: {}}",
        PARTS,
    )

    assert {name: (set(setup.items), set(setup.leads)) for name, setup in found.setups.items()} == {
        "first": ({"one", "two"}, {"P1"}),
        "second": ({"two"}, {"P2"}),
    }


def test_what_is_out_is_not_off() -> None:
    setup = rig("setups: {s: {out: [one], off: [one, two]}}").setups["s"]

    assert (set(setup.off), "one" in setup.items) == ({"two"}, False)


@pytest.mark.parametrize(
    ("item", "settings", "setup", "state"),
    [
        ("", "", "", SettingState("a", "default")),
        ("b", "", "", SettingState("b", "item")),
        ("b", "c", "", SettingState("c", "rig")),
        ("b", "c", "a", SettingState("a", "setup")),
        ("", "c", "", SettingState("c", "rig")),
        ("b", "", "a", SettingState("a", "setup")),
    ],
)
def test_the_last_statement_of_a_setting_wins(item: str, settings: str, setup: str, state: SettingState) -> None:
    found = make_rig(
        f"kit: {{one: {{part: house/box, set: {{{f'mode: {item}' if item else ''}}}}}}}\n"
        f"settings: {{{f'one.mode: {settings}' if settings else ''}}}\n"
        f"setups: {{s: {{set: {{{f'one.mode: {setup}' if setup else ''}}}}}, other: {{}}}}",
        PARTS,
    )

    assert found.setups["s"].settings["one", "mode"] == state
    assert found.setups["other"].settings["one", "mode"].stated != "setup"


def test_a_setting_without_default_that_nobody_states_is_unknown() -> None:
    setup = rig("settings: {two.open: x}").setups["as_wired"]

    assert (setup.is_unknown("one", "open"), setup.is_unknown("two", "open")) == (True, False)
    assert (setup.setting("one", "open"), setup.is_unknown("one", "nothing")) == (None, False)


def test_a_setting_is_placed_where_it_was_stated_last() -> None:
    found = rig("settings:\n  one.mode: b\n  two.mode: b\nsetups:\n  s:\n    set: {one.mode: c}\n  t: {}\n")

    assert found.position("one.set.mode", "s") == Position(9, 11)
    assert found.position("one.set.mode", "t") == Position(5, 3)
    assert found.position("three.set.mode") == Position(3, 39)


@pytest.mark.parametrize(
    ("who", "meant"),
    [
        ("{focus: op}", {"lens.focus": ("op",)}),
        ("{lens.focus: op}", {"lens.focus": ("op",)}),
        ("{pan: [op, ac]}", {"head.pan": ("op", "ac")}),
        ("{iris: nobody}", {"lens.iris": ("nobody",)}),
        ("{focus: automatic}", {"lens.focus": ("automatic",)}),
        ("{one.record: op}", {"one.record": ("op",)}),
    ],
)
def test_who_by_short_and_by_long_name(who: str, meant: dict[str, tuple[str, ...]]) -> None:
    setup = rig(f"crew: {{op: [one], ac: two}}\nsetups: {{s: {{who: {who}}}}}").setups["s"]

    assert setup.who == meant


def test_a_short_name_counts_only_what_is_there() -> None:
    setup = rig("crew: {op: [one]}\nsetups: {s: {out: [two, three], who: {record: op}}}").setups["s"]

    assert setup.who == {"one.record": ("op",)}


def test_an_axis_that_is_out_is_nobodys() -> None:
    setup = rig("crew: {op: [one]}\nsetups: {s: {out: [head], who: {pan: op, head.tilt: op}}}").setups["s"]

    assert setup.who == {}


def test_a_camera_without_a_record_control_of_its_own_has_a_record() -> None:
    found = make_rig("kit: {cam: house/bare-camera}\nsetups: {s: {who: {record: nobody}}}", PARTS)

    assert found.setups["s"].who == {"cam.record": ("nobody",)}


def test_crew_and_needs_are_replaced_key_by_key() -> None:
    found = rig(
        "crew: {op: [one, two], ac: [three]}\n"
        "needs: {runtime: 60 min, distance: 300 m, stays_up: [one], picture: [two]}\n"
        "on: hand\nregion: eu\n"
        "setups: {s: {crew: {op: [head]}, needs: {runtime: 30 min, picture: [three]}, on: crane}, t: {}}\n"
    )
    own, other = found.setups["s"], found.setups["t"]

    assert (own.crew, other.crew) == (
        {"op": ("head",), "ac": ("three",)},
        {"op": ("one", "two"), "ac": ("three",)},
    )
    assert (own.needs.runtime, own.needs.distance, own.needs.stays_up) == (1800, 300, ("one",))
    assert (own.needs.flows, other.needs.flows) == ({"picture": ("three",)}, {"picture": ("two",)})
    assert [(setup.on, setup.region) for setup in (own, other)] == [("crane", "eu"), ("hand", "eu")]
    assert (own.holder("head"), own.holder("one"), other.holder("one")) == ("op", None, "op")


def test_distance_of_a_link() -> None:
    found = rig(
        "links: {l1: {between: [one.radio, two.radio], distance: 80 m}, l2: {between: [one.radio, three.radio]}}\n"
        "setups: {s: {distance: {l1: 60 m}}, t: {distance: {l2: 10 m}}}"
    )

    assert {name: dict(setup.distances) for name, setup in found.setups.items()} == {
        "s": {"l1": 60},
        "t": {"l1": 80, "l2": 10},
    }


def test_the_rig_cannot_be_changed() -> None:
    found = rig(WIRED + "setups: {first: {}, second: {}}")
    tables: list[Any] = [found.items, found.leads, found.setups, found.setups["first"].settings, found.positions]

    for table in tables:
        with pytest.raises(TypeError, match="does not support item assignment"):
            table["x"] = 1
    for name in ("title", "unheard_of"):
        with pytest.raises((AttributeError, TypeError)):
            setattr(found, name, "x")
