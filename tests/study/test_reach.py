"""How far links reach: what is stated for the region, what the place leaves, and the budget where nothing is stated."""

from __future__ import annotations

import pytest

from rigmint.physics.radio import compute_free_space_loss
from rigmint.rig.house import House
from rigmint.rig.rig import Rig, Setup
from rigmint.study.reach import LEAVES, MARGIN_DB, LinkReach, find_reach, find_reaches
from tests.builders import make_library, make_studies

PARTS = """
house/hub:
  kind: motor_driver
  radios: {radio: {speaks: [lens-air], reach: {eu: 300 m, us: 600 m}}}
house/hand:
  kind: hand_unit
  radios: {radio: {speaks: [lens-air], reach: {eu: 200 m, us: 900 m}}}
house/hand-eu:
  kind: hand_unit
  radios: {radio: {speaks: [lens-air], reach: {eu: 200 m}}}
house/quiet:
  kind: hand_unit
  radios: {radio: {speaks: [lens-air]}}
house/budget:
  kind: motor_driver
  radios:
    radio:
      speaks: [lens-air]
      band: 2400 to 2480 MHz
      power: {eu: 20 dBm, us: 26 dBm}
      hears: -90 dBm
      gain: 2 dBi
      channels: {1: {centre: 2410 MHz, width: 2 MHz}}
house/budget-weak: {like: house/budget, kind: hand_unit, radios: {radio: {power: {eu: 10 dBm, us: 10 dBm}, gain: 0 dBi}}}
"""
REACH = "kit: {hub: house/hub, hand: house/hand}\nlinks: {air: {between: [hub.radio, hand.radio]}}\n"
BUDGET = (
    "kit: {hub: house/budget, hand: house/budget-weak}\nlinks: {air: {between: [hub.radio, hand.radio], channel: 1}}\n"
)


def reach(rig: str, house: House | None = None) -> LinkReach | None:
    built, setup = build(rig)
    link = built.links["air"]
    return find_reach(built, setup, link.radios[0], link.radios[1], link, (house or House()).leaves)


def build(rig: str) -> tuple[Rig, Setup]:
    studies, setup = make_studies(rig, PARTS)
    return studies.rig, setup


@pytest.mark.parametrize(
    ("where", "share"),
    # Common practice: what is left of a maker's figure among people and trees, in a street, between steel.
    [("open", 0.5), ("street", 0.3), ("vehicle", 0.25), ("steel", 0.25)],
)
def test_the_shorter_of_the_two_counts_and_the_place_leaves_a_share(where: str, share: float) -> None:
    found = reach(f"{REACH}region: eu\nwhere: {where}\n")

    assert found == LinkReach(200.0, 200.0 * share, False)


def test_the_region_decides() -> None:
    assert reach(REACH + "region: us\nwhere: open\n") == LinkReach(600.0, 300.0, False)


def test_a_library_sets_its_own_shares() -> None:
    assert reach(REACH + "region: eu\nwhere: open\n", House(leaves={"open": 0.8})) == LinkReach(200.0, 160.0, False)


def test_one_radio_that_states_a_reach_is_enough() -> None:
    rig = REACH.replace("hand: house/hand}", "hand: house/quiet}")

    assert reach(rig + "region: eu\nwhere: open\n") == LinkReach(300.0, 150.0, False)


def test_a_region_that_one_radio_does_not_know_is_judged_by_the_other() -> None:
    rig = REACH.replace("hand: house/hand}", "hand: house/hand-eu}")

    assert reach(rig + "region: us\nwhere: open\n") == LinkReach(600.0, 300.0, False)


def test_nothing_follows_where_nothing_is_stated() -> None:
    rig = REACH.replace("house/hub", "house/quiet").replace("hand: house/hand}", "hand: house/quiet}")

    assert reach(rig + "region: eu\nwhere: open\n") is None


@pytest.mark.parametrize("region", ["eu", "us"])
def test_a_budget_keeps_20_db_back(region: str) -> None:
    """The weaker way decides: hand to hub, 10 dBm radiated, 2 dBi at the hub, heard from -90 dBm, 20 dB in reserve.
    At the distance that follows, free space (ITU-R P.525, at 2.41 GHz) takes exactly the 82 dB that are left."""
    found = reach(f"{BUDGET}region: {region}\nwhere: open\n")

    assert found is not None
    assert found.assumed
    assert compute_free_space_loss(found.stated, 2.41e9) == pytest.approx(10 + 2 + 90 - MARGIN_DB)
    assert found.stated == pytest.approx(124.6, abs=0.1)
    assert found.derated == pytest.approx(found.stated / 2)


def test_a_budget_without_a_channel_uses_the_middle_of_the_band() -> None:
    found = reach(BUDGET.replace(", channel: 1", "") + "region: eu\nwhere: open\n")

    assert found is not None
    assert compute_free_space_loss(found.stated, 2.44e9) == pytest.approx(82.0)


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        ("region: eu\nwhere: open\n", {(200.0, 100.0)}),
        ("region: eu\n", {(200.0, 200.0 * share) for share in LEAVES.values()}),
        ("where: open\n", {(200.0, 100.0), (600.0, 300.0)}),
        ("", {(metres, metres * share) for metres in (200.0, 600.0) for share in LEAVES.values()}),
    ],
)
def test_what_is_not_stated_is_tried_in_every_way(stated: str, expected: set[tuple[float, float]]) -> None:
    rig, setup = build(REACH + stated)
    link = rig.links["air"]

    found = find_reaches(rig, setup, link.radios[0], link.radios[1], link, {})

    assert {(one.stated, one.derated) for one in found if one is not None} == expected
    assert None not in found


def test_a_setup_may_lie_elsewhere() -> None:
    rig, setup = build(REACH + "region: eu\nwhere: open\nsetups: {boat: {where: steel, region: us}}\n")
    link = rig.links["air"]

    assert find_reach(rig, setup, link.radios[0], link.radios[1], link, {}) == LinkReach(600.0, 150.0, False)


def test_a_claim_carries_the_reach_of_its_way() -> None:
    """The best over ways of the worst hop: here one way of one hop, as the place leaves it."""
    rig = """
kit: {hub: house/driver, hand: house/knob, lens: house/lens}
links: {air: {between: [hub.radio, hand.radio]}}
fitted: {hub: lens.focus}
region: eu
where: street
"""
    parts = f"""{PARTS}
house/driver: {{like: house/hub, moves: {{shaft: {{axis: focus}}}}, passes: [{{from: radio, to: shaft}}]}}
house/knob: {{like: house/hand, controls: {{knob: {{sends: absolute, axis: focus}}}}, passes: [{{from: knob, to: radio}}]}}
house/lens: {{kind: lens, rings: {{focus: {{}}}}}}
"""
    studies, setup = make_studies(rig, parts)

    (claim,) = studies.hands(setup).axes["lens.focus"].claims

    assert claim.reach == pytest.approx(200 * 0.3)


def test_the_catalogue_has_the_5_ghz_channels_of_802_11() -> None:
    """IEEE 802.11, 17.3.8.3.2 and Annex J: a radio channel's centre is 5000 MHz + 5 MHz times its number; DFS channels
    (52 to 144) listen for 60 s before they send (ETSI EN 301 893)."""
    sender = make_library().catalogue.part("generic/sender-5ghz-long")
    assert sender is not None
    radio = sender.radios["radio"]
    assert radio.band is not None

    assert len(radio.channels) == 16
    for name, channel in radio.channels.items():
        assert channel.centre == 5e9 + 5e6 * int(name)
        assert channel.listens == (60.0 if 52 <= int(name) <= 144 else 0.0)
        assert radio.band.holds(channel.centre - channel.width / 2)
        assert radio.band.holds(channel.centre + channel.width / 2)
