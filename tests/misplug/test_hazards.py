"""Hazards that every rental house knows are found without being described."""

from __future__ import annotations

from rigmint.rig.house import House
from rigmint.study.misplug.burns import HarmKind
from rigmint.study.misplug.outcome import Misplug, Outcome
from rigmint.study.misplug.study import MisplugStudy, study_misplugs
from rigmint.study.studies import Studies
from tests.builders import make_rig
from tests.misplug.rigs import PARTS, RAW_LEAD, TWO_PINOUTS, TWO_VOLTAGES, WORN_TAP


def study(rig: str, parts: str = PARTS) -> MisplugStudy:
    found = make_rig(rig, parts)
    return study_misplugs(Studies(found, House()), list(found.setups), ())


def find(found: MisplugStudy, how: str, lead: str, end: str, into: str) -> Misplug:
    """The only misplug of that kind."""
    named = [
        one
        for one in found.misplugs
        if (one.mistake.how, one.mistake.lead, one.mistake.end, one.mistake.into.place) == (how, lead, end, into)
    ]
    assert len(named) == 1

    return named[0]


def tell(misplug: Misplug) -> tuple[Outcome, HarmKind, str, float | None]:
    return misplug.outcome, misplug.harms[0].kind, misplug.port.place, misplug.volts


def test_raw_tap_lead_beside_a_5_v_socket() -> None:
    """finder.usb states neither what it works on nor what it survives: 5.5 V stands in (USB, vSafe5V)."""
    parts = PARTS.replace("rail: main, works: 4.5 to 5.5 V}", "rail: main}")
    misplug = find(study(RAW_LEAD, parts), "moved", "P2", "b", "finder.usb")

    assert tell(misplug) == (Outcome.BURN, HarmKind.OVER, "finder.usb", 16.8)
    assert misplug.harms[0].limit == 5.5
    assert misplug.mistake.meant == "motor.bus"


def test_regulated_lead_on_the_motor_only_fails() -> None:
    misplug = find(study(RAW_LEAD), "moved", "P3", "b", "motor.bus")

    assert (misplug.outcome, misplug.port.place, misplug.volts) == (Outcome.DEAD, "finder.usb", None)
    assert {loss.place for loss in misplug.losses} == {"finder", "motor"}


def test_two_pinouts_in_one_bag() -> None:
    found = study(TWO_PINOUTS)

    assert tell(find(found, "moved", "P2", "b", "camera.dc_in")) == (
        Outcome.BURN,
        HarmKind.REVERSED,
        "camera.dc_in",
        -16.8,
    )
    assert tell(find(found, "swapped", "P2", "b", "camera.dc_in"))[:3] == (
        Outcome.BURN,
        HarmKind.REVERSED,
        "camera.dc_in",
    )


def test_12_v_and_24_v_on_one_connector() -> None:
    found = study(TWO_VOLTAGES)

    assert tell(find(found, "moved", "P2", "b", "camera.dc_in")) == (
        Outcome.BURN,
        HarmKind.OVER,
        "camera.dc_in",
        29.4,
    )
    assert find(found, "moved", "P1", "b", "light.dc_in").outcome is Outcome.DEAD


def test_feeding_end_in_the_other_voltage_burns_what_is_at_the_far_end() -> None:
    misplug = find(study(TWO_VOLTAGES), "moved", "P1", "a", "plate_26.out_1")

    assert tell(misplug) == (Outcome.BURN, HarmKind.OVER, "camera.dc_in", 29.4)


def test_worn_tap_pushed_in_turned_round() -> None:
    misplug = find(study(WORN_TAP), "forced", "P1", "a", "plate.tap_1")

    assert tell(misplug) == (Outcome.BURN, HarmKind.REVERSED, "camera.dc_in", -16.8)


def test_usb_c_goes_in_either_way_and_is_never_forced() -> None:
    """`reversible: true`: though a connector file may say that it can be forced, there is no wrong way round."""
    found = study(RAW_LEAD)
    forced = {one.mistake.into.place for one in found.misplugs if one.mistake.how == "forced"}

    assert forced == {"plate.tap_1", "plate.tap_2"}


def test_a_plug_that_almost_fits_goes_in() -> None:
    """5.5/2.1 and 5.5/2.5 mm coaxial power: `almost`."""
    parts = """
house/brick:
  kind: supply
  cells: {mains: {volts: 24 to 24.1 V}}
  ports: {out: {connector: barrel-5.5-2.5, sex: socket, pins: centre-plus}}
house/brick-12:
  kind: supply
  cells: {mains: {volts: 12 to 12.1 V}}
  ports: {out: {connector: barrel-5.5-2.1, sex: socket, pins: centre-plus}}
house/lamp:
  kind: light
  rails: {main: {load: 20 W}}
  ports: {dc_in: {connector: barrel-5.5-2.5, sex: socket, pins: centre-plus, rail: main, works: 20 to 26 V}}
house/monitor:
  kind: monitor
  rails: {main: {load: 20 W}}
  ports: {dc_in: {connector: barrel-5.5-2.1, sex: socket, pins: centre-plus, rail: main, works: 7 to 17 V}}
house/lead-25: {kind: lead, ends: {a: {connector: barrel-5.5-2.5, sex: plug}, b: {connector: barrel-5.5-2.5, sex: plug}}, conductors: straight}
house/lead-21: {kind: lead, ends: {a: {connector: barrel-5.5-2.1, sex: plug}, b: {connector: barrel-5.5-2.1, sex: plug}}, conductors: straight}
"""
    rig = """
kit: {brick: house/brick, brick_12: house/brick-12, lamp: house/lamp, monitor: house/monitor}
leads:
  P1: {part: house/lead-25, from: brick.out, to: lamp.dc_in}
  P2: {part: house/lead-21, from: brick_12.out, to: monitor.dc_in}
"""
    misplug = find(study(rig, parts), "moved", "P1", "b", "monitor.dc_in")

    assert tell(misplug) == (Outcome.BURN, HarmKind.OVER, "monitor.dc_in", 24.1)


def test_lead_turned_round() -> None:
    """A lead with a diode in it brings nothing the other way round; one that is alike both ways is not turned."""
    parts = PARTS + (
        "house/lead-diode: {kind: lead, ends: {a: {connector: 0b-2, sex: plug, tag: in}, b: {connector: 0b-2, sex: plug, tag: out}},"
        " conductors: [{from: a.2, to: b.2, gauge: 20 AWG, diode: 0.4 V}, {from: a.1, to: b.1, gauge: 20 AWG}]}\n"
    )
    rig = WORN_TAP + "  P2: {part: house/lead-diode, from: plate.out_1, to: light.dc_in}\n"
    rig = rig.replace("camera: house/camera", "camera: house/camera, light: house/camera")
    found = study(rig, parts)
    turned = [one for one in found.misplugs if one.mistake.how == "turned"]

    assert [(one.mistake.lead, one.outcome) for one in turned] == [("P2", Outcome.DEAD)]
    assert [(loss.kind, loss.place) for loss in turned[0].losses] == [("power", "light")]


def test_two_plugs_do_not_share_a_socket() -> None:
    """What was in the wrong socket hangs loose then: the camera's battery does not meet the other one there."""
    rig = """
kit: {battery: house/pack, plate: house/plate, camera: house/camera, battery_b: house/pack, plate_b: house/plate, lamp: house/camera}
docks: [battery.mount > plate.battery, battery_b.mount > plate_b.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
  P2: {part: house/lead-2pin, from: plate_b.out_1, to: lamp.dc_in}
"""
    misplug = find(study(rig), "moved", "P2", "b", "camera.dc_in")

    assert misplug.outcome is Outcome.DEAD
    assert [loss.place for loss in misplug.losses] == ["lamp"]
    assert dict(misplug.mistake.leads["P1"].plugged).keys() == {"a"}


def test_two_batteries_that_a_plug_joins() -> None:
    rig = """
kit: {battery: house/pack, plate: house/plate, camera: house/camera, battery_b: house/pack, plate_b: house/plate}
docks: [battery.mount > plate.battery, battery_b.mount > plate_b.battery]
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: camera.dc_in}
"""
    misplug = find(study(rig), "moved", "P1", "b", "plate_b.out_1")

    assert tell(misplug)[:3] == (Outcome.BURN, HarmKind.TIED, "plate_b.out_1")


def test_what_the_rig_has_without_the_mistake_is_not_the_mistakes() -> None:
    """The finder is fed raw as it stands: no misplug is blamed for that, nor for a second raw plug in its socket."""
    rig = RAW_LEAD.replace("house/lead-5v", "house/lead-raw")
    found = study(rig)
    burning = [
        one.mistake.key
        for one in found.misplugs
        if any(harm.kind is HarmKind.OVER and harm.ref and harm.ref.item == "finder" for harm in one.harms)
    ]

    assert burning == []


def test_an_unstated_regulator_is_no_burn_and_is_told_apart() -> None:
    """P2 in the camera's 5 V output: its regulator would have to let current back to the 12 V rail, which it does not
    state."""
    parts = (
        PARTS
        + """
house/camera-usb:
  kind: camera
  rails: {main: {load: 20 W}, five: {}}
  bridges: [{from: main, to: five, by: regulator, out: 5 V, takes: 8 to 18 V}]
  ports:
    dc_in: {connector: 0b-2, sex: socket, pins: minus-first, rail: main, works: 11 to 14 V, survives: -0.3 to 15 V}
    usb: {connector: usb-c, sex: socket, pins: power, rail: five, role: out, survives: 0 to 20 V}
"""
    )
    rig = """
kit: {battery: house/pack, plate: house/plate, camera: house/camera-usb, motor: house/motor}
docks: [battery.mount > plate.battery]
leads: {P2: {part: house/lead-raw, from: plate.tap_1, to: motor.bus}}
"""
    misplug = find(study(rig, parts), "moved", "P2", "b", "camera.usb")

    assert misplug.outcome is Outcome.DEAD
    assert [(harm.kind, harm.ref.place) for harm in misplug.perhaps if harm.ref] == [(HarmKind.OVER, "camera.dc_in")]


def test_many_alike_ends_are_tried_once() -> None:
    """A fan of nine like plugs in the place of a lead: which of the nine it is makes no difference."""
    ends = ", ".join(f"{end}: {{connector: 0b-2, sex: plug}}" for end in "abcdefghij")
    wires = ", ".join(
        f"{{from: a.{contact}, to: {end}.{contact}, gauge: 20 AWG}}" for end in "bcdefghij" for contact in "12"
    )
    parts = PARTS + f"house/fan: {{kind: lead, ends: {{{ends}}}, conductors: [{wires}]}}\n"
    rig = TWO_PINOUTS + "also: [{part: house/fan, count: 1}]\n"
    found = study(rig, parts)
    swapped = [one for one in found.misplugs if one.mistake.lead == "house/fan" and one.mistake.meant == "P1"]

    assert [one.mistake.same_place for one in swapped] == [True] * 3
