"""What radio does: reach for the region, peers of a hub, slots."""

from __future__ import annotations

from collections.abc import Iterator

from tests.power.amounts import read_amount
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.scene import Scene, as_list
from tests.seeding.judge.signals import find_radio, split

_HIGH = frozenset({"crane", "overhead", "cable", "vehicle"})


def judge_air(scene: Scene) -> Iterator[Harm]:
    """Links that are too far, hubs with too many radios, slots of two receivers."""
    held: dict[str, int] = {}
    region = scene.rig.get("region")
    for name, body in sorted(scene.links.items()):
        hub = body["hub"]
        radios = [radio for radio in body["between"] if split(radio)[0] not in scene.off]
        if hub not in radios or len(radios) < 2:
            continue
        held[hub] = held.get(hub, 0) + len(radios) - 1
        peers = find_radio(scene, hub).get("peers")
        if peers is not None and held[hub] > int(peers):
            yield Harm("peers", name)
        # Both ends must hear each other, so the shorter reach counts.
        reaches = [read_amount(text) for text in _list_reaches(scene, radios, region)]
        if "distance" in body and reaches and read_amount(body["distance"]) > min(reaches):
            yield Harm("too-far", name)
        yield from _judge_slots(scene, name, radios[1:] if radios[0] == hub else radios)
    yield from _judge_loss(scene)


def _list_reaches(scene: Scene, radios: list[str], region: str | None) -> list[str]:
    found = [find_radio(scene, radio).get("reach", {}) for radio in radios]
    return [reach[region] for reach in found if region in reach]


def _judge_slots(scene: Scene, name: str, radios: list[str]) -> Iterator[Harm]:
    seen: dict[str, str] = {}
    for radio in radios:
        slot = find_radio(scene, radio).get("slot")
        if slot is None:
            continue
        value = scene.settings.get(f"{split(radio)[0]}.{slot['setting']}")
        if value is None or value in as_list(slot.get("shared")):
            continue
        if value in seen:
            yield Harm("slot", name)
        seen[value] = radio


def _judge_loss(scene: Scene) -> Iterator[Harm]:
    """Heads that are driven by radio where they can hit people, and go on moving when the link drops."""
    if (scene.setup.get("on") or scene.rig.get("on")) not in _HIGH:
        return
    for body in scene.links.values():
        for radio in body["between"]:
            item = split(radio)[0]
            part = scene.parts[item]
            if part["kind"] == "head" and part.get("on_loss", "continue") == "continue":
                yield Harm("loss", item)
