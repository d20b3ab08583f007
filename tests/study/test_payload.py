"""Who rides on what, and what each head and each carrier carries."""

from __future__ import annotations

import pytest

from rigmint.study.payload import Burden, Payloads, study_payloads
from rigmint.study.riding import Riding, study_riding
from tests.builders import make_studies

PARTS = """
house/head:
  kind: head
  mass: 3 kg
  ports:
    plate: {connector: quick-plate, sex: socket, stage: tilt}
    base: {connector: flat-keyed, sex: plug, stage: base}
    data: {connector: usb-c, sex: socket, pins: data, stage: base}
    top: {connector: usb-c, sex: socket, pins: data, stage: tilt}
  payload: {min: 1 kg, max: 4 kg}
house/camera:
  kind: camera
  mass: 2 kg
  ports:
    base: {connector: quick-plate, sex: plug}
    data: {connector: usb-c, sex: socket, pins: data}
    more: {connector: usb-c, sex: socket, pins: data}
house/box:
  kind: accessory
  mass: 500 g
  ports: {data: {connector: usb-c, sex: socket, pins: data}, more: {connector: usb-c, sex: socket, pins: data}}
house/arm:
  kind: carrier
  mass: 6 kg
  ports: {head: {connector: flat-keyed, sex: socket}, base: {connector: bowl-150, sex: plug}}
  payload: {min: 2 kg, max: 12 kg}
house/adaptor:
  kind: accessory
  mass: 300 g
  rides: base
  ports: {top: {connector: flat-keyed, sex: socket}, under: {connector: flat-keyed, sex: plug}}
house/car:
  kind: carrier
  mass: 10 kg
  ports:
    bowl: {connector: bowl-150, sex: socket}
    second: {connector: flat-keyed, sex: socket}
  payload: {max: 60 kg}
house/cage: {kind: cage}
house/head-of-old: {kind: head, mass: 2 kg}
house/grip: {kind: carrier, mass: 400 g}
house/lead:
  kind: lead
  mass: 100 g
  ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}
  conductors: straight
"""
ONE = """
kit:
  head: house/head
  camera: house/camera
  box: {part: house/box, rides: base}
  arm: house/arm
docks: [camera.base > head.plate, head.base > arm.head]
"""
TWO = """
kit:
  head_a: house/head
  head_b: house/head
  cam_a: house/camera
  cam_b: house/camera
  box_a: house/box
  box_b: house/box
  lost: {part: house/box}
  between: {part: house/box}
  car: house/car
  arm: house/arm
docks: [cam_a.base > head_a.plate, cam_b.base > head_b.plate, head_a.base > arm.head, arm.base > car.bowl, head_b.base > car.second]
leads:
  A1: {part: house/lead, from: cam_a.data, to: box_a.data}
  B1: {part: house/lead, from: head_b.top, to: box_b.data}
  AB1: {part: house/lead, from: cam_a.more, to: between.data}
  AB2: {part: house/lead, from: cam_b.data, to: between.more}
"""


def study(rig: str) -> tuple[Riding, Payloads]:
    """Both studies of the first setup."""
    studies, setup = make_studies(rig, PARTS)
    riding = study_riding(studies.rig, setup)
    return riding, study_payloads(studies.rig, setup, riding)


def find(payloads: Payloads, carrier: str) -> Burden:
    """What one of them carries."""
    return next(load for load in payloads.loads if load.carrier == carrier)


def list_names(load: Burden) -> list[str]:
    """What is carried, by name."""
    return sorted(one.name for one in load.carried)


def test_a_head_carries_what_rides_on_its_moving_stages() -> None:
    _, payloads = study(ONE)
    head = find(payloads, "head")

    assert (list_names(head), head.mass) == (["camera"], 2.0)


def test_an_arm_carries_the_head_and_all_that_rides_on_it() -> None:
    _, payloads = study(ONE)
    arm = find(payloads, "arm")

    assert (list_names(arm), arm.mass) == (["box", "camera", "head"], 5.5)


@pytest.mark.parametrize(
    ("rides", "stages"),
    [
        ("pan", (2.5, 2.0, 2.0)),
        ("roll", (2.5, 2.5, 2.0)),
        ("tilt", (2.5, 2.5, 2.5)),
        ("base", (2.0, 2.0, 2.0)),
        ("away", (2.0, 2.0, 2.0)),
    ],
)
def test_a_stage_carries_what_sits_on_it_and_above(rides: str, stages: tuple[float, ...]) -> None:
    _, payloads = study(ONE.replace("rides: base", f"rides: {rides}"))
    head = find(payloads, "head")

    assert tuple(head.at_stage(stage) for stage in ("pan", "roll", "tilt")) == stages
    assert (head.mass, head.on_platform) == (stages[0], stages[2])


def test_docks_say_what_carries_what_over_an_adaptor_too() -> None:
    rig = """
kit: {head: house/head, camera: house/camera, adaptor: house/adaptor, arm: house/arm, car: house/car, grip: house/grip}
docks: [camera.base > head.plate, head.base > adaptor.top, adaptor.under > arm.head, arm.base > car.bowl]
"""
    riding, payloads = study(rig)

    assert riding.carriers == {"head": ("arm", "car")}
    assert find(payloads, "arm").mass == pytest.approx(3 + 2 + 0.3 + 0.4)
    assert find(payloads, "car").mass == pytest.approx(6 + 3 + 2 + 0.3 + 0.4)


def test_the_only_carrier_is_taken_to_carry_the_only_head() -> None:
    riding, payloads = study("kit: {head: house/head, camera: house/camera, arm: house/arm}")

    assert (riding.carriers, riding.is_order_known) == ({"head": ("arm",)}, True)
    assert find(payloads, "arm").mass == 5.0


def test_of_two_carriers_without_docks_the_order_is_not_known() -> None:
    riding, payloads = study("kit: {head: house/head, camera: house/camera, arm: house/arm, car: house/car}")

    assert (riding.carriers, riding.is_order_known) == ({"head": ()}, False)
    assert [load.carrier for load in payloads.loads] == ["head"]


def test_of_two_heads_each_has_what_docks_and_the_shortest_leads_bring() -> None:
    riding, payloads = study(TWO)

    assert riding.on_head == {"head_a": {"cam_a", "box_a"}, "head_b": {"cam_b", "box_b"}}
    assert riding.unsure == {"lost", "between"}
    assert find(payloads, "head_a").mass == pytest.approx(2.0 + 0.5 + 0.1)
    assert find(payloads, "head_a").unweighed == ("between", "lost")


def test_a_carrier_of_both_heads_carries_what_may_sit_on_either() -> None:
    """Of the leads, those that go from one head's items to what has no place hang from elsewhere."""
    _, payloads = study(TWO)
    car = find(payloads, "car")

    assert car.mass == pytest.approx(6 + 2 * (3 + 2 + 0.5 + 0.1) + 2 * 0.5)
    assert car.unweighed == ()
    assert find(payloads, "arm").unweighed == ("between", "lost")


def test_a_lead_hangs_from_the_lower_of_its_ends() -> None:
    rig = """
kit: {head: house/head, camera: house/camera, box: {part: house/box, rides: base}, away: {part: house/box, rides: away}}
leads:
  UP: {part: house/lead, from: head.top, to: camera.data}
  ACROSS: {part: house/lead, from: camera.more, to: box.data}
  OFF: {part: house/lead, from: head.data, to: away.data}
"""
    _, payloads = study(rig)

    assert list_names(find(payloads, "head")) == ["UP", "camera"]


def test_a_lead_described_on_the_spot_has_its_mass() -> None:
    rig = """
kit: {head: house/head, camera: house/camera}
leads:
  UP:
    from: head.top
    to: camera.data
    lead: {ends: {a: {connector: usb-c, sex: plug}, b: {connector: usb-c, sex: plug}}, mass: 250 g}
"""
    _, payloads = study(rig)

    assert find(payloads, "head").mass == pytest.approx(2.25)


def test_what_has_no_mass_is_named() -> None:
    _, payloads = study("kit: {head: house/head, camera: house/camera, cage: house/cage}")
    head = find(payloads, "head")

    assert (head.mass, head.unweighed) == (2.0, ("cage",))


def test_a_head_or_a_carrier_that_states_no_payload_is_named_where_it_carries_something() -> None:
    _, payloads = study("kit: {head: house/head, camera: house/camera, grip: house/grip}")
    _, empty = study("kit: {head: house/head-of-old, grip: {part: house/grip, rides: away}}")

    assert (payloads.unstated, empty.unstated) == (("grip",), ())


def test_a_head_away_from_the_rig_carries_nothing() -> None:
    riding, payloads = study("kit: {head: {part: house/head, rides: away}, camera: house/camera}")

    assert (riding.on_head, payloads.loads) == ({}, ())
