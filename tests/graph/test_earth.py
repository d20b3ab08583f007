"""The earth is a node of its own, whatever items are called."""

from __future__ import annotations

import pytest

from rigmint.graph.nets import find_nets
from tests.builders import make_studies

PARTS = """
house/earthed-pack:
  kind: supply
  chassis: earth
  cells: {pack: {volts: 12 V}}
  ports: {out: {connector: 0b-2, pins: {1: plus, 2: minus}}}
house/box: {kind: accessory, ports: {a: {connector: 0b-2, pins: {1: plus, 2: minus}}}}
"""


@pytest.mark.parametrize("name", ["earth", "ground", "box"])
def test_an_item_of_any_name_is_apart_from_the_earth(name: str) -> None:
    studies, setup = make_studies(f"kit: {{mains: house/earthed-pack, {name}: house/box}}", PARTS)
    network = studies.network(setup)
    nets = find_nets(network)

    assert nets[network.ground(name)] != nets[network.ground("mains")]
