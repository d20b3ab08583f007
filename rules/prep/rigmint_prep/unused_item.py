"""`tidy:unused-item`: something in the kit that is joined to nothing."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Item, PortRef, Rig, Rule

_CLAMPED_ANYWHERE = ("counterweight",)


def check(case: Case) -> Iterator[Finding]:
    """One finding for each item that nothing is joined to in any setup, or lens that is mounted on nothing."""
    joined = _list_joined(case.rig)
    mates = _list_mechanical_mates(case.rig)
    for item in case.items:
        if item.part.kind == "lens" and mates and _is_off_its_mount(case.rig, item, mates):
            yield _report(item, f"{item.name} is mounted on nothing.", "Write its mate under `docks:`")
        elif item.name not in joined and _could_be_joined(item, bool(mates)):
            yield _report(
                item,
                f"{item.name} is in the kit, and no lead, dock or link joins it to anything in any setup.",
                "Write down what it is joined to",
            )


def _list_joined(rig: Rig) -> set[str]:
    """The items that a lead, a dock, a link, a lens ring or a hand has in some setup."""
    found = set(rig.fitted) | {fitting.lens for fitting in rig.fitted.values()}
    for setup in rig.setups.values():
        refs = {ref for label in setup.leads for ref in rig.leads[label].plugged.values()}
        refs |= {ref for index in setup.docks for ref in (rig.docks[index].first, rig.docks[index].second)}
        refs |= {ref for name in setup.links for ref in rig.links[name].radios if ref.item in setup.items}
        found |= {ref.item for ref in refs} | {name for items in setup.crew.values() for name in items}
    return found


def _list_mechanical_mates(rig: Rig) -> set[PortRef]:
    """The ports without contacts that something is docked to: empty where the rig does not write down what is screwed
    to what."""
    refs = {ref for dock in rig.docks for ref in (dock.first, dock.second)}
    return {ref for ref in refs if rig.port(ref).connector.is_mechanical}


def _is_off_its_mount(rig: Rig, item: Item, mates: set[PortRef]) -> bool:
    mounts = {PortRef(item.name, port.name) for port in item.part.ports.values() if port.connector.is_mechanical}
    bodies = [ref for ref in mates if ref.item != item.name and rig.items[ref.item].part.kind != "lens"]
    return bool(mounts) and bool(bodies) and not mounts & mates


def _could_be_joined(item: Item, writes_mates: bool) -> bool:
    """Whether it has something to be joined by; what is only screwed on counts where the rig writes down such mates."""
    ports = item.part.ports.values()
    if item.part.radios or any(not port.connector.is_mechanical for port in ports):
        return True
    return bool(ports) and writes_mates and item.part.kind not in _CLAMPED_ANYWHERE


def _report(item: Item, says: str, remedy: str) -> Finding:
    return Finding(
        code="tidy:unused-item",
        grade=Grade.TIDY,
        says=says,
        at=item.name,
        cause=item.name,
        fixes=(Fix(f"{remedy}, or move it to `also:` if it only travels, or leave it out of the kit."),),
    )


RULE = Rule(
    code="tidy:unused-item",
    grades=(Grade.TIDY,),
    title="An item that nothing is joined to",
    looks_for=(
        "An item with ports or radios that no lead, dock, link or lens ring joins to anything in any setup and that"
        " nobody in the crew holds; and a lens that is mounted on nothing, where the rig writes down its mechanical"
        " mates."
    ),
    why="Either a lead is missing from the file, and from the case too, or something is carried about for nothing.",
    put_right="Write down what it is joined to, or take it out of the kit.",
    source="common practice",
    check=check,
)
