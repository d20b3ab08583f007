"""Who has what on small rigs: each mechanism by hand, what stops a control, and the settings that free an axis."""

from __future__ import annotations

import pytest

from rigmint.rig.house import House
from rigmint.study.following import find_following
from rigmint.study.hands import Claim, Hands
from rigmint.study.study_hands import study_hands
from tests.builders import make_studies

BUS = "connector: 0b-4, sex: socket, pins: {1: minus, 2: plus, 3: d_plus, 4: d_minus}, speaks: [lens-bus]"
PARTS = f"""
house/hand:
  kind: hand_unit
  settings: {{link: {{values: [on, off], default: on}}}}
  controls: {{knob: {{sends: absolute, axis: focus}}, slider: {{sends: absolute, axis: iris}}}}
  radios: {{radio: {{speaks: [lens-air], reach: {{eu: 120 m}}}}}}
  passes: [{{from: [knob, slider], to: radio, when: {{link: on}}}}]
house/desk:
  kind: desk
  settings: {{lens_control: {{values: [on, off]}}}}
  controls: {{wheel: {{sends: rate, axis: [focus, iris], takes_over: touch}}, assist: {{sends: absolute, axis: focus, automatic: true, takes_over: never}}}}
  radios: {{radio: {{speaks: [lens-air, head-air]}}}}
  passes: [{{from: [wheel, assist], to: radio, when: {{lens_control: on}}}}]
house/driver:
  kind: motor_driver
  settings: {{axis: {{values: [none, focus, iris], default: none}}}}
  controls: {{dial: {{sends: rate, axis: {{setting: axis}}}}}}
  ports: {{bus: {{{BUS}}}, spare: {{{BUS}}}}}
  radios: {{radio: {{speaks: [lens-air], reach: {{eu: 100 m, us: 150 m}}, peers: 1}}}}
  passes: [{{from: radio, to: [bus, spare], axes: [focus, iris]}}, {{from: dial, to: [bus, spare]}}]
house/motor:
  kind: lens_motor
  settings: {{axis: {{values: [focus, iris, zoom]}}}}
  ports: {{bus_1: {{{BUS}}}, bus_2: {{{BUS}}}}}
  moves: {{shaft: {{axis: {{setting: axis}}, takes: [absolute, rate]}}}}
  passes: [{{from: bus_1, to: [shaft, bus_2]}}, {{from: bus_2, to: [shaft, bus_1]}}]
house/slow-motor: {{like: house/motor, moves: {{shaft: {{takes: [rate]}}}}}}
house/lens: {{kind: lens, rings: {{focus: {{}}, iris: {{}}}}}}
house/head:
  kind: head
  settings:
    mode: {{values: [lock, pan_follow, custom], default: lock, forgets: true}}
    pan_switch: {{values: [on, off]}}
  controls: {{stick: {{sends: rate, axis: [pan, tilt]}}, button: {{sends: trigger, axis: mode}}}}
  moves: {{pan: {{axis: pan}}, tilt: {{axis: tilt}}}}
  passes: [{{from: stick, to: [pan, tilt]}}]
  follow: {{mode: {{setting: mode}}, modes: {{lock: {{}}, pan_follow: {{pan: on, roll: off}}, custom: {{pan: {{setting: pan_switch}}, tilt: on}}}}, cycle: [lock, pan_follow]}}
  joints: {{pan: {{}}, tilt: {{}}}}
house/bus-lead:
  kind: lead
  ends: {{a: {{connector: 0b-4, sex: plug}}, b: {{connector: 0b-4, sex: plug}}}}
  conductors: [{{from: a.3, to: b.3}}, {{from: a.4, to: b.4}}]
  carries: [lens-bus]
house/power-lead: {{like: house/bus-lead, conductors: [{{from: a.1, to: b.1}}, {{from: a.2, to: b.2}}]}}
house/other-lead: {{like: house/bus-lead, carries: [run-closure]}}
"""

KIT = "kit: {hand: house/hand, driver: house/driver, mf: {part: house/motor, set: {axis: focus}}, lens: house/lens EXTRA}\n"
WIRED = (
    "leads: {B1: {part: house/bus-lead, from: driver.bus, to: mf.bus_1}}\n"
    "links: {air: {between: [driver.radio, hand.radio]}}\n"
    "fitted: {mf: lens.focus}\ncrew: {ac: [hand]}\nregion: eu\nwhere: open\n"
)


def study(text: str) -> Hands:
    """Who has what in the first setup, with stops."""
    studies, setup = make_studies(text, PARTS)
    return study_hands(studies.rig, setup, House())


def list_claims(hands: Hands, place: str) -> list[tuple[str, str | None, str, dict[tuple[str, str], str]]]:
    """Control, person, arriving kind and assumptions of each claim on an axis."""
    return [(c.control, c.person, c.arrives.value, dict(c.assumes)) for c in hands.axes[place].claims]


def find_claim(hands: Hands, place: str) -> Claim:
    """The only claim on an axis."""
    (claim,) = hands.axes[place].claims
    return claim


KNOB: tuple[str, str, str, dict[tuple[str, str], str]] = ("hand.knob", "ac", "absolute", {})


def test_a_hand_unit_over_the_air_and_a_bus() -> None:
    claim = find_claim(study(KIT.replace("EXTRA", "") + WIRED), "lens.focus")

    assert (claim.control, claim.person, claim.sends, claim.arrives) == ("hand.knob", "ac", "absolute", "absolute")
    assert (claim.mover, claim.axis) == ("mf.shaft", "focus")
    assert claim.path == (
        "hand.knob",
        "hand.radio",
        "link:air",
        "driver.radio",
        "driver.bus",
        "B1",
        "mf.bus_1",
        "mf.shaft",
    )
    assert claim.reach == pytest.approx(50.0)  # the shorter of 100 m and 120 m, of which an open place leaves half


@pytest.mark.parametrize(
    ("change", "to", "claims"),
    [
        # settings
        ("fitted:", "settings: {hand.link: off}\nfitted:", []),
        ("fitted:", "settings: {driver.axis: focus}\nfitted:", [("driver.dial", None, "rate", {}), KNOB]),
        ("fitted:", "settings: {driver.axis: iris}\nfitted:", [KNOB]),
        # a motor set to another axis moves the ring that it is fitted to
        ("set: {axis: focus}", "set: {axis: iris}", [("hand.slider", "ac", "absolute", {})]),
        ("set: {axis: focus}", "set: {axis: zoom}", []),
        ("set: {axis: focus}", "", [("hand.knob", "ac", "absolute", {("mf", "axis"): "focus"}),
                                    ("hand.slider", "ac", "absolute", {("mf", "axis"): "iris"})]),
        # a motor that nobody fitted has no ring
        ("fitted: {mf: lens.focus}\n", "", []),
        # leads
        ("house/bus-lead", "house/power-lead", []),
        ("house/bus-lead", "house/other-lead", []),
        ("to: mf.bus_1", "to: mf.bus_2", [KNOB]),
        ("to: mf.bus_1", "to: loose", []),
        # what a mover takes
        ("house/motor", "house/slow-motor", []),
        # persons
        ("crew: {ac: [hand]}\n", "", [("hand.knob", None, "absolute", {})]),
        # presence
        ("region: eu", "setups: {s: {off: [hand]}}", []),
        ("region: eu", "setups: {s: {off: [driver]}}", []),
        ("region: eu", "setups: {s: {off: [mf]}}", []),
        ("region: eu", "setups: {s: {out: [hand]}}", []),
        ("region: eu", "setups: {s: {unplugged: [B1]}}", []),
    ],
)  # fmt: skip
def test_what_a_change_does_to_focus(change: str, to: str, claims: list[object]) -> None:
    text = KIT.replace("EXTRA", "") + WIRED

    assert change in text
    assert list_claims(study(text.replace(change, to, 1)), "lens.focus") == claims


def test_a_bus_goes_on_through_motors_both_ways() -> None:
    extra = ", mi: {part: house/motor, set: {axis: iris}}"
    text = KIT.replace("EXTRA", extra) + WIRED
    text = text.replace("fitted: {mf: lens.focus}", "fitted: {mf: lens.focus, mi: lens.iris}")
    chained = text.replace("to: mf.bus_1}", "to: mi.bus_2}, B2: {part: house/bus-lead, from: mi.bus_1, to: mf.bus_2}")
    hands = study(chained)

    assert (list_claims(hands, "lens.focus"), list_claims(hands, "lens.iris")) == (
        [KNOB],
        [("hand.slider", "ac", "absolute", {})],
    )


def test_peers_of_a_hub_are_counted() -> None:
    extra = ", second: house/hand"
    linked = WIRED.replace("hand.radio]", "hand.radio, second.radio]")
    hands = study(KIT.replace("EXTRA", extra) + linked)

    assert list_claims(hands, "lens.focus") == [KNOB]
    assert [(s.control, s.by, s.says) for s in hands.axes["lens.focus"].stopped if s.control == "second.knob"] == [
        ("second.knob", "link:air", "driver.radio holds 1 peers, and second.radio is one more")
    ]


def test_an_unknown_setting_is_an_assumption() -> None:
    extra = ", desk: house/desk"
    linked = WIRED.replace("hand.radio]", "desk.radio]")
    hands = study(KIT.replace("EXTRA", extra) + linked)

    assert list_claims(hands, "lens.focus") == [
        ("desk.assist", None, "absolute", {("desk", "lens_control"): "on"}),
        ("desk.wheel", None, "rate", {("desk", "lens_control"): "on"}),
    ]
    assert [(c.automatic, c.takes_over) for c in hands.axes["lens.focus"].claims] == [(True, "never"), (False, "touch")]
    assert hands.axes["lens.focus"].certain == ()


HEAD = "kit: {head: house/head}\ncrew: {carrier: [head], op: []}\n"


@pytest.mark.parametrize(
    ("settings", "claims"),
    [
        ("{}", []),
        ("{head.mode: pan_follow}", [("head", "carrier", "follow", {})]),
        ("{head.mode: custom, head.pan_switch: off}", []),
        ("{head.mode: custom, head.pan_switch: on}", [("head", "carrier", "follow", {})]),
        ("{head.mode: custom}", [("head", "carrier", "follow", {("head", "pan_switch"): "on"})]),
    ],
)
def test_follow_is_a_hand(settings: str, claims: list[object]) -> None:
    hands = study(f"{HEAD}settings: {settings}")
    followed = [claim for claim in list_claims(hands, "head.pan") if claim[2] == "follow"]

    assert followed == claims
    assert ("head.stick", "carrier", "rate", {}) in list_claims(hands, "head.pan")


@pytest.mark.parametrize(
    ("crew", "person"),
    [("{carrier: []}", "carrier"), ("{op: [head]}", "op"), ("{op: []}", None), ("{carrier: [], op: [head]}", "op")],
)
def test_follow_is_in_the_hand_of_who_carries(crew: str, person: str | None) -> None:
    hands = study(f"kit: {{head: house/head}}\ncrew: {crew}\nsettings: {{head.mode: custom, head.pan_switch: off}}")

    assert [claim for claim in list_claims(hands, "head.tilt") if claim[2] == "follow"] == [
        ("head", person, "follow", {})
    ]


def test_a_head_that_is_off_follows_nobody() -> None:
    hands = study(f"{HEAD}settings: {{head.mode: pan_follow}}\nsetups: {{s: {{off: [head]}}}}")

    assert list_claims(hands, "head.pan") == []


@pytest.mark.parametrize(
    ("settings", "set_mode", "in_cycle", "after"),
    [
        ("{}", [], [("pan", "pan_follow")], []),
        ("{head.mode: pan_follow}", [("pan", "pan_follow")], [], []),
        ("{head.mode: custom, head.pan_switch: off}", [("tilt", "custom")], [("pan", "pan_follow")], []),
        (
            "{head.mode: custom, head.pan_switch: on}",
            [("pan", "custom"), ("tilt", "custom")],
            [("pan", "pan_follow")],
            [],
        ),
    ],
)
def test_following(settings: str, set_mode: list[object], in_cycle: list[object], after: list[object]) -> None:
    studies, setup = make_studies(f"{HEAD}settings: {settings}", PARTS)
    found = find_following(studies.rig.items["head"], setup)

    assert [[(state.axis, state.mode) for state in states] for states in
            (found.set_mode, found.in_cycle, found.after_power_cycle)] == [set_mode, in_cycle, after]  # fmt: skip


def test_following_after_a_power_cycle() -> None:
    parts = PARTS.replace("default: lock, forgets: true", "default: pan_follow, forgets: true")
    studies, setup = make_studies(f"{HEAD}settings: {{head.mode: lock}}", parts)
    found = find_following(studies.rig.items["head"], setup)

    assert (found.set_mode, [(s.axis, s.mode) for s in found.after_power_cycle]) == ((), [("pan", "pan_follow")])


def test_following_in_a_mode_that_nobody_states() -> None:
    parts = PARTS.replace("default: lock, forgets: true", "forgets: false")
    studies, setup = make_studies(f"{HEAD}settings: {{head.pan_switch: off}}", parts)
    found = find_following(studies.rig.items["head"], setup)

    assert [(s.axis, s.mode, dict(s.assumes)) for s in found.set_mode] == [
        ("pan", "pan_follow", {("head", "mode"): "pan_follow"}),
        ("tilt", "custom", {("head", "mode"): "custom"}),
    ]


@pytest.mark.parametrize(
    ("change", "to", "by", "says"),
    [
        ("fitted:", "settings: {hand.link: off}\nfitted:", "hand.set.link", "hand.link is off, not on"),
        ("house/bus-lead", "house/power-lead", "B1", "no conductor of B1 joins d_plus or d_minus"),
        ("house/bus-lead", "house/other-lead", "B1", "B1 does not carry Lens motor bus"),
        ("set: {axis: focus}", "set: {axis: zoom}", "mf.set.axis", "mf is set to zoom, not focus"),
        ("house/motor", "house/slow-motor", "mf", "mf takes rate control, and this arrives as absolute"),
        ("region: eu", "setups: {s: {off: [driver]}}", "driver", "driver is off"),
        ("region: eu", "setups: {s: {off: [mf]}}", "mf", "mf is off"),
        ("region: eu", "setups: {s: {off: [hand]}}", "hand", "hand is off"),
        ("region: eu", "setups: {s: {unplugged: [B1]}}", "mf.bus_1", "no lead joins driver.bus and mf.bus_1"),
    ],
)
def test_what_stops_a_control(change: str, to: str, by: str, says: str) -> None:
    text = (KIT.replace("EXTRA", "") + WIRED).replace(change, to, 1)
    stopped = {s.control: (s.by, s.says) for s in study(text).axes["lens.focus"].stopped}

    assert stopped["hand.knob"] == (by, says)


def test_a_dial_that_is_set_to_nothing_is_stopped_by_its_setting() -> None:
    stopped = {s.control: (s.by, s.says) for s in study(KIT.replace("EXTRA", "") + WIRED).axes["lens.focus"].stopped}

    assert stopped == {"driver.dial": ("driver.set.axis", "driver.dial is set to none, not focus")}


def test_settings_that_free_an_axis() -> None:
    text = KIT.replace("EXTRA", "") + WIRED + "settings: {driver.axis: focus}\n"
    studies, setup = make_studies(text, PARTS)

    # The dial leaves with the axis that it is set to, and moves nothing else here; the knob only with its link.
    assert studies.find_freeing_settings(setup, "lens.focus", "driver.dial") == (
        ("driver", "axis", "none"),
        ("driver", "axis", "iris"),
    )
    assert studies.find_freeing_settings(setup, "lens.focus", "hand.knob") == (("hand", "link", "off"),)


def test_a_setting_that_brings_a_hand_elsewhere_frees_nothing() -> None:
    text = KIT.replace("EXTRA", ", mi: {part: house/motor, set: {axis: iris}}") + WIRED
    text = text.replace(
        "fitted: {mf: lens.focus}", "fitted: {mf: lens.focus, mi: lens.iris}\nsettings: {driver.axis: focus}"
    )
    text = text.replace("mf.bus_1}", "mf.bus_1}, B2: {part: house/bus-lead, from: driver.spare, to: mi.bus_1}")
    studies, setup = make_studies(text, PARTS)

    assert studies.find_freeing_settings(setup, "lens.focus", "driver.dial") == (("driver", "axis", "none"),)


def test_short_names_where_one_item_has_an_axis() -> None:
    one = study("kit: {lens: house/lens}")
    two = study("kit: {lens: house/lens, other: house/lens}")

    assert [axis.name for axis in one.axes.values()] == ["focus", "iris"]
    assert [axis.name for axis in two.axes.values()] == ["lens.focus", "lens.iris", "other.focus", "other.iris"]
