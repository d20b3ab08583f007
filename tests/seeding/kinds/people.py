"""Mistakes of planning: who holds what, what is paired with what, how far, where, and what is left in the case."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tests.power.files import Tree
from tests.seeding.base import Base
from tests.seeding.judge.scene import as_list
from tests.seeding.kinds.kind import Kind, Site, set_item


def _second_controller(base: Base) -> Iterator[Site]:
    """Another device of a controller's make, paired with the same hub and held by somebody else."""
    for name, body in base.tree.get("links", {}).items():
        for radio in body["between"]:
            item, _, own = radio.partition(".")
            if base.parts[item]["kind"] not in ("hand_unit", "desk"):
                continue

            def change(tree: Tree, name: str = name, item: str = item, own: str = own) -> None:
                tree["kit"]["twin_z"] = tree["kit"][item]
                if isinstance(tree["kit"]["twin_z"], dict):
                    tree["kit"]["twin_z"].pop("asset", None)
                tree["links"][name]["between"] = [*tree["links"][name]["between"], f"twin_z.{own}"]
                tree.setdefault("crew", {})["visitor"] = ["twin_z"]

            yield f"a second {item} is paired over {name}", change


def _second_screen(base: Base) -> Iterator[Site]:
    for name, body in base.tree.get("links", {}).items():
        for radio in body["between"][1:]:
            item, _, own = radio.partition(".")
            if (
                base.parts[item]["kind"] not in ("monitor", "receiver")
                or base.parts[item].get("ports", {}).get("dc_in", {}).get("role") == "in"
            ):
                continue
            for count in (1, 4):

                def change(tree: Tree, name: str = name, item: str = item, own: str = own, count: int = count) -> None:
                    for number in range(count):
                        tree["kit"][f"twin_{number}"] = base.part_id(item)
                        tree["kit"][f"twin_{number}"] = {
                            "part": base.part_id(item),
                            "set": {**base.entry(item).get("set", {})},
                        }
                        if not tree["kit"][f"twin_{number}"]["set"]:
                            del tree["kit"][f"twin_{number}"]["set"]
                        tree["links"][name]["between"] = [*tree["links"][name]["between"], f"twin_{number}.{own}"]

                yield f"{count} more like {item} are paired over {name}", change


def _setups(tree: Tree) -> list[Tree]:
    return [body for body in (tree.get("setups") or {}).values() if body]


def _leave_out(kinds: tuple[str, ...], name: str, concern: str) -> Kind:
    def sites(base: Base) -> Iterator[Site]:
        for item in base.of_kind(*kinds):
            for number, _ in enumerate(_setups(base.tree)):

                def change(tree: Tree, item: str = item, number: int = number) -> None:
                    setup = _setups(tree)[number]
                    setup["out"] = sorted({*as_list(setup.get("out")), item})

                yield f"{item} is left in the case in setup {number + 1}", change

    return Kind(name, concern, sites)


def _switch_off(base: Base) -> Iterator[Site]:
    for item in base.parts:
        if not base.parts[item].get("rails") and not base.parts[item].get("cells"):
            continue
        for number, _ in enumerate(_setups(base.tree)):

            def change(tree: Tree, item: str = item, number: int = number) -> None:
                setup = _setups(tree)[number]
                setup["off"] = sorted({*as_list(setup.get("off")), item})

            yield f"{item} is off in setup {number + 1}", change


def _exchange_who(base: Base) -> Iterator[Site]:
    for number, setup in enumerate(_setups(base.tree)):
        who = setup.get("who", {})
        for one, other in combinations(who, 2):
            if who[one] != who[other]:

                def change(tree: Tree, number: int = number, one: str = one, other: str = other) -> None:
                    then = _setups(tree)[number]["who"]
                    then[one], then[other] = then[other], then[one]

                yield f"{one} and {other} change hands in setup {number + 1}", change


def _fixed_axis(base: Base) -> Iterator[Site]:
    """An axis that is meant for nobody now, and is driven all the same."""
    for number, setup in enumerate(_setups(base.tree)):
        for axis, persons in setup.get("who", {}).items():
            if persons != "nobody":

                def change(tree: Tree, number: int = number, axis: str = axis) -> None:
                    _setups(tree)[number]["who"][axis] = "nobody"

                yield f"{axis} is meant for nobody in setup {number + 1}", change


def _exchange_crew(base: Base) -> Iterator[Site]:
    crew = base.tree.get("crew", {})
    for one, other in combinations(crew, 2):
        for item in as_list(crew[one]):

            def change(tree: Tree, one: str = one, other: str = other, item: str = item) -> None:
                tree["crew"][one] = [held for held in as_list(tree["crew"][one]) if held != item]
                tree["crew"][other] = [*as_list(tree["crew"][other]), item]
                if not tree["crew"][one]:
                    tree["crew"][one] = []

            if len(as_list(crew[one])) > 1:
                yield f"{item} is held by {other}", change


def _exchange_rings(base: Base) -> Iterator[Site]:
    fitted = base.tree.get("fitted", {})
    for one, other in combinations(fitted, 2):

        def change(tree: Tree, one: str = one, other: str = other) -> None:
            then = tree["fitted"]
            then[one], then[other] = then[other], then[one]

        yield f"{one} and {other} sit on each other's ring", change


def _turn_direction(base: Base) -> Iterator[Site]:
    for motor, ring in base.tree.get("fitted", {}).items():
        place = ring["ring"] if isinstance(ring, dict) else ring

        def change(tree: Tree, motor: str = motor, place: str = place) -> None:
            tree["fitted"][motor] = {"ring": place, "direction": "reversed", "marked": "normal"}

        yield f"{motor} turns the other way since its marks", change


def _set_link(key: str, values: tuple[str, ...], name: str) -> Kind:
    def sites(base: Base) -> Iterator[Site]:
        for link in base.tree.get("links", {}):
            for value in values:

                def change(tree: Tree, link: str = link, value: str = value) -> None:
                    tree["links"][link][key] = value

                yield f"{link}: {key} {value}", change

    return Kind(name, "radio", sites)


def _drop_link(base: Base) -> Iterator[Site]:
    for link in base.tree.get("links", {}):

        def change(tree: Tree, link: str = link) -> None:
            del tree["links"][link]

        yield f"{link} is not paired", change


def _other_hub(base: Base) -> Iterator[Site]:
    for link, body in base.tree.get("links", {}).items():
        for number in range(1, len(body["between"])):

            def change(tree: Tree, link: str = link, number: int = number) -> None:
                radios = tree["links"][link]["between"]
                tree["links"][link]["between"] = [radios[number], *radios[:number], *radios[number + 1 :]]

            yield f"{body['between'][number]} is the hub of {link}", change


def _unpair(base: Base) -> Iterator[Site]:
    for link, body in base.tree.get("links", {}).items():
        for number in range(1, len(body["between"])):
            if len(body["between"]) < 3:
                continue

            def change(tree: Tree, link: str = link, number: int = number) -> None:
                del tree["links"][link]["between"][number]

            yield f"{body['between'][number]} is not paired over {link}", change


def _collide(base: Base) -> Iterator[Site]:
    links = base.tree.get("links", {})
    for one, other in combinations(links, 2):
        if "channel" in links[one] and "channel" in links[other] and links[one]["channel"] != links[other]["channel"]:
            hubs = [links[name]["between"][0].partition(".") for name in (one, other)]
            radio = base.parts[hubs[1][0]]["radios"][hubs[1][2]]
            if links[one]["channel"] not in radio.get("channels", {}):
                continue

            def change(tree: Tree, one: str = one, other: str = other) -> None:
                tree["links"][other]["channel"] = tree["links"][one]["channel"]

            yield f"{other} is on the radio channel of {one}", change


def _set_rig(key: str, values: tuple[str, ...], name: str, concern: str) -> Kind:
    def sites(base: Base) -> Iterator[Site]:
        for value in values:
            if base.tree.get(key) != value:

                def change(tree: Tree, value: str = value) -> None:
                    tree[key] = value

                yield f"{key}: {value}", change

    return Kind(name, concern, sites)


def _drop_bond(base: Base) -> Iterator[Site]:
    for item in base.parts:
        if "bond" in base.entry(item):
            yield f"{item} has no bond", set_item(item, bond=None)


def _ride_elsewhere(base: Base) -> Iterator[Site]:
    for item, part in base.parts.items():
        if part["kind"] in ("sender", "monitor", "motor_driver", "plate", "battery", "breakout"):
            for stage in ("base", "tilt"):
                if base.entry(item).get("rides", part.get("rides")) != stage:
                    yield f"{item} rides on {stage}", set_item(item, rides=stage)


KINDS = (
    Kind("a second controller is paired", "ownership", _second_controller),
    Kind("more screens are paired", "radio", _second_screen),
    _leave_out(("hand_unit", "desk"), "a controller left in the case", "ownership"),
    _leave_out(("battery", "supply", "plate", "breakout"), "a source left in the case", "electrical"),
    _leave_out(
        ("sender", "monitor", "receiver", "motor_driver", "lens_motor", "camera"),
        "a device left in the case",
        "ownership",
    ),
    Kind("a device switched off", "ownership", _switch_off),
    Kind("two axes change hands", "ownership", _exchange_who),
    Kind("an axis meant for nobody", "ownership", _fixed_axis),
    Kind("a device in other hands", "ownership", _exchange_crew),
    Kind("motors on each other's ring", "ownership", _exchange_rings),
    Kind("a motor turned round", "mechanics", _turn_direction),
    _set_link("distance", ("2500 m", "5 km"), "too far"),
    Kind("a link not paired", "ownership", _drop_link),
    Kind("a radio not paired", "radio", _unpair),
    Kind("another hub", "ownership", _other_hub),
    Kind("a radio channel used twice", "radio", _collide),
    _set_rig("region", ("eu", "us", "uk"), "another region", "radio"),
    _set_rig("where", ("street", "vehicle", "steel"), "another place", "radio"),
    _set_rig("on", ("hand", "crane", "vehicle", "cable"), "flown another way", "mechanics"),
    _set_rig("stance", ("upright", "underslung"), "hung the other way", "settings"),
    Kind("a bond forgotten", "mechanics", _drop_bond),
    Kind("riding on another stage", "mechanics", _ride_elsewhere),
)
