"""Where on a head each item rides, and on which of several."""

from __future__ import annotations

from rigmint.rig.rig import PortRef, Rig
from rigmint.study.riding import study_riding
from rigmint.study.stages import StagePlaces
from rigmint.study.tails import find_tails
from tests.builders import make_rig

PARTS = """
house/head: {kind: head, joints: {pan: {endless: true}, roll: {travel: -30 to 30 deg}, tilt: {travel: -90 to 90 deg}}, ports: {top: {connector: bnc, sex: socket, stage: tilt}, mid: {connector: bnc, sex: socket, stage: pan}, low: {connector: bnc, sex: socket}, plate: {connector: quick-plate, sex: socket, stage: tilt}, base: {connector: flat-keyed, sex: plug, stage: base}}}
house/bar: {kind: accessory, ports: {head: {connector: flat-keyed, sex: socket}, shoe: {connector: quick-plate, sex: socket}}}
house/box: {kind: sender, ports: {sdi: {connector: bnc, sex: socket}, sdi_2: {connector: bnc, sex: socket}, foot: {connector: quick-plate, sex: plug}, shoe: {connector: quick-plate, sex: socket}}}
house/far: {kind: monitor, ports: {sdi: {connector: bnc, sex: socket}}}
house/coax: {kind: lead, ends: {a: {connector: bnc, sex: plug}, b: {connector: bnc, sex: plug}, c: {connector: bnc, sex: plug}}, conductors: straight}
"""


def find_crossings(rig: str) -> dict[str, tuple[str, ...]]:
    """Joint to the leads that cross it, in the rig's only setup."""
    made = make_rig(rig, PARTS)
    setup = next(iter(made.setups.values()))
    return {tails.place: tails.leads for tails in find_tails(made, setup, study_riding(made, setup))}


def _place(rig: Rig) -> StagePlaces:
    setup = next(iter(rig.setups.values()))
    return StagePlaces(rig, setup, study_riding(rig, setup))


def test_a_lead_crosses_every_joint_between_its_ends() -> None:
    rig = """
kit: {head: house/head, far: house/far, on_pan: {part: house/box, rides: pan}, on_roll: {part: house/box, rides: roll}, on_tilt: {part: house/box, rides: tilt}}
leads:
  A: {part: house/coax, ends: {a: far.sdi, b: on_tilt.sdi}}
  B: {part: house/coax, ends: {a: head.low, b: on_pan.sdi}}
  C: {part: house/coax, ends: {a: on_pan.sdi_2, b: on_roll.sdi}}
  D: {part: house/coax, ends: {a: head.mid, b: head.top}}
  E: {part: house/coax, ends: {a: on_tilt.sdi_2, b: on_tilt.sdi_2}}
"""

    assert find_crossings(rig) == {
        "head.pan": ("A", "B"),
        "head.roll": ("A", "C", "D"),
        "head.tilt": ("A", "D"),
    }


def test_a_loom_crosses_by_its_outermost_ends_and_a_loose_one_does_not_count() -> None:
    rig = """
kit: {head: house/head, box: {part: house/box, rides: tilt}}
leads:
  Y: {part: house/coax, ends: {a: box.sdi, b: head.top, c: head.low}}
  Z: {part: house/coax, ends: {a: box.sdi_2, b: loose, c: loose}}
"""

    assert find_crossings(rig) == {"head.pan": ("Y",), "head.roll": ("Y",), "head.tilt": ("Y",)}


def test_what_is_docked_rides_where_its_mate_does_unless_the_rig_says_where() -> None:
    text = """
kit: {head: house/head, bar: house/bar, box: BOX, top: house/box}
docks: [head.base > bar.head, box.foot > bar.shoe, top.foot > head.plate]
"""
    for box, stage, is_assumed in (("house/box", "base", False), ("{part: house/box, rides: roll}", "roll", False)):
        rig = make_rig(text.replace("BOX", box), PARTS)
        riding = _place(rig)
        ref = PortRef("box", "sdi")

        assert (riding.find_stage(ref, "head"), riding.is_assumed(ref)) == (stage, is_assumed)
        assert riding.find_stage(PortRef("top", "sdi"), "head") == "tilt"


def test_an_item_that_nothing_places_rides_by_its_kind_and_that_is_assumed() -> None:
    rig = make_rig("kit: {head: house/head, box: house/box}\n", PARTS)
    riding = _place(rig)

    assert riding.find_stage(PortRef("box", "sdi"), "head") == "tilt"
    assert riding.is_assumed(PortRef("box", "sdi"))


def test_with_two_heads_an_item_is_on_the_one_that_it_hangs_on() -> None:
    rig = """
kit: {head_a: house/head, head_b: house/head, a: house/box, b: house/box, low: {part: house/box, rides: base}}
docks: [a.foot > head_a.plate, b.foot > head_b.plate]
leads:
  SA: {part: house/coax, ends: {a: a.sdi, b: low.sdi}}
  SB: {part: house/coax, ends: {a: b.sdi, b: head_b.top}}
"""

    assert {place: leads for place, leads in find_crossings(rig).items() if place.endswith("pan")} == {
        "head_a.pan": ("SA",)
    }
