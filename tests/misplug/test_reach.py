"""What lies within reach of what."""

from __future__ import annotations

import pytest

from rigmint.rig.rig import PortRef
from rigmint.study.misplug.places import Places
from tests.builders import make_rig
from tests.misplug.rigs import PARTS

RIG = """
kit:
  cam: house/camera
  plate: house/plate
  plate_base: {part: house/plate, rides: base}
  plate_away: {part: house/plate, rides: away}
  lamp_away: {part: house/camera, rides: away}
  cam_b: house/camera
  plate_b: house/plate
  shelf: house/plate
leads:
  P1: {part: house/lead-2pin, from: plate.out_1, to: cam.dc_in}
  P2: {part: house/lead-2pin, from: plate_b.out_1, to: cam_b.dc_in}
  P3: {part: house/lead-2pin, from: plate_away.out_1, to: lamp_away.dc_in}
"""


@pytest.mark.parametrize(
    ("one", "other", "is_near"),
    [
        ("plate.out_2", "cam.dc_in", True),
        ("plate_base.out_1", "cam.dc_in", False),
        ("plate_away.out_2", "lamp_away.dc_in", True),
        ("plate_away.out_2", "cam.dc_in", False),
        ("plate.out_2", "cam_b.dc_in", False),  # another camera's rig
        ("shelf.out_1", "cam_b.dc_in", True),  # joined to nothing: on either
    ],
)
def test_near(one: str, other: str, is_near: bool) -> None:
    rig = make_rig(RIG, PARTS)
    refs = [PortRef(*place.split(".")) for place in (one, other)]
    places = Places(rig, next(iter(rig.setups.values())))

    assert places.are_near(*refs) is is_near
    assert places.are_near(*reversed(refs)) is is_near
