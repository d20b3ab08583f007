"""`radio:same-slot`: two receivers on one slot of a sender."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Link, PortRef, Rule, Unknown, say_list, setting_place
from rigmint_signals.hops import list_live_others
from rigmint_signals.setting_fixes import fix_setting


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each slot that is taken twice."""
    for name in sorted(case.setup.links):
        link = case.rig.links[name]
        slotted = [ref for ref in list_live_others(case, link) if _radio_slot(case, ref) is not None]
        slots: dict[str, list[PortRef]] = defaultdict(list)
        for ref in slotted:
            value = _find_slot(case, ref)
            if value is not None:
                slots[value].append(ref)
            elif len(slotted) > 1:
                setting = setting_place(ref.item, _radio_slot(case, ref) or "")
                yield Unknown("radio:same-slot", "slot", setting, f"nobody states the slot of {ref.item}")
        for value, refs in slots.items():
            if len(refs) > 1 and value not in case.rig.items[refs[0].item].part.radios[refs[0].port].shared_slots:
                yield _report(case, link, value, refs, set(slots))


def _radio_slot(case: Case, ref: PortRef) -> str | None:
    """The setting that holds the slot, empty where it is fixed; None for a radio without slots."""
    slot = case.rig.items[ref.item].part.radios[ref.port].slot
    return None if slot is None else slot.setting or ""


def _find_slot(case: Case, ref: PortRef) -> str | None:
    slot = case.rig.items[ref.item].part.radios[ref.port].slot
    if slot is None:
        return None
    words = slot.resolve(case.setup.setting(ref.item, slot.setting) if slot.setting is not None else None)
    return words[0] if words else None


def _report(case: Case, link: Link, value: str, refs: list[PortRef], taken: set[str]) -> Finding:
    last = refs[-1]
    setting = _radio_slot(case, last)
    fixes = [Fix(f"Give {last.item} a slot of its own.")]
    if setting:
        values = case.rig.items[last.item].part.settings[setting].values
        free = [value for value in values if value not in taken and value != "none"]
        fixes = [fix_setting(case, last.item, setting, value) for value in free[:1]] or fixes
    names = say_list([ref.item for ref in refs])
    return Finding(
        code="radio:same-slot",
        grade=Grade.DEAD,
        says=f"{names} sit on slot {value} of {link.place}, which answers one: they shut each other out.",
        at=link.place,
        cause=setting_place(last.item, setting) if setting else last.item,
        also=tuple(ref.place for ref in refs),
        fixes=tuple(fixes),
    )


RULE = Rule(
    code="radio:same-slot",
    grades=(Grade.DEAD,),
    title="Two receivers on one slot",
    looks_for=(
        "Two receivers of one link set to the same slot, unless the part says that the slot is shared by any number."
    ),
    why="The sender answers one receiver a slot. The other stays black, or the two take turns.",
    put_right="Give each receiver a slot of its own; put those that only watch on a shared one.",
    source="common practice",
    check=check,
)
