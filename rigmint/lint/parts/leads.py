"""Leads: a conductor between contacts that are never on the same side."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint.lint.parts.hint import Hint, PartView
from rigmint.lint.parts.pinouts import find_side
from rigmint.rig.connector import Connector
from rigmint.rig.electric import MINUS, PLUS
from rigmint.rig.lead import EndContact


def check_short(view: PartView) -> Iterator[Hint]:
    """No bare conductor joins plus to minus in every pin-out with which both of its connectors are met."""
    lead = view.part.lead
    if lead is None:
        return
    for conductor in lead.conductors:
        ends = (conductor.source, conductor.target)
        sides = [_list_sides(lead.ends[one.end].connector, one) for one in ends]
        if conductor.regulator is None and sorted(map(sorted, sides)) == [[MINUS], [PLUS]]:
            plus, minus = ends if sides[0] == {PLUS} else ends[::-1]
            yield Hint(
                "part:lead-short",
                f"A conductor joins {plus.end}.{plus.contact}, which is plus on every usual"
                f" {lead.ends[plus.end].connector.name}, to {minus.end}.{minus.contact}, which is minus on every usual"
                f" {lead.ends[minus.end].connector.name}.",
                "Meter the lead, and write each conductor as it is soldered.",
                ("conductors", conductor.index),
                f"{conductor.source.end}.{conductor.source.contact}",
            )


def _list_sides(connector: Connector, one: EndContact) -> set[str]:
    """What the contact is in the pin-outs of the trade; a contact that one of them leaves out is none of both there."""
    return {find_side(pins.get(one.contact, "")) for pins in connector.usual.values()}
