"""What one signal contact gives and another takes, where a lead or a dock joins them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Fix, MoveEnd, PortRef, SignalContact

CLOSURE = "closure"
_RECORD = "record"


@dataclass(frozen=True, slots=True)
class SignalPair:
    """A contact that gives, and the other one, in one direction. `lead`: None where the ports are docked."""

    giver: SignalContact
    taker: SignalContact
    lead: str | None

    @property
    def gives(self) -> str | float:
        """`closure`, or V."""
        gives = self.giver.level.gives if self.giver.level is not None else None
        assert gives is not None
        return gives

    @property
    def cause(self) -> str:
        """The lead; the item that is docked where there is none."""
        return self.lead if self.lead is not None else self.taker.ref.item

    @property
    def is_burnt(self) -> bool:
        """Whether the other contact is destroyed by what this one gives."""
        return not isinstance(self.gives, str) and self.gives > self.taker.survives

    @property
    def path(self) -> tuple[str, ...]:
        """Port, lead, port."""
        over = (self.lead,) if self.lead is not None else ()
        return (self.giver.ref.place, *over, self.taker.ref.place)


def list_pairs(case: Case) -> Iterator[SignalPair]:
    """Every joined pair of signal contacts of which the first gives something."""
    for joined in case.joined_contacts():
        for giver, taker in ((joined.first, joined.second), (joined.second, joined.first)):
            if giver.level is not None and giver.level.gives is not None:
                yield SignalPair(giver, taker, joined.lead)


def is_trigger(case: Case, pair: SignalPair) -> bool:
    """Whether one of the two contacts carries a protocol of its port that carries record."""
    return any(
        contact.signal in protocol.wires and _RECORD in protocol.carries
        for contact in (pair.giver, pair.taker)
        for protocol in (case.rig.protocols[name] for name in case.port(contact.ref).speaks)
    )


def list_wrong_triggers(case: Case) -> Iterator[SignalPair]:
    """The record triggers that give another kind than the input takes, those that destroy it left out."""
    for pair in list_pairs(case):
        gives, takes = pair.giver.level, pair.taker.level
        if gives is None or takes is None or takes.takes is None or pair.is_burnt or not is_trigger(case, pair):
            continue
        is_other_kind = None not in (gives.kind, takes.kind) and gives.kind != takes.kind
        if is_other_kind or (gives.gives == CLOSURE) != (takes.takes == CLOSURE):
            yield pair


def list_records(case: Case, pair: SignalPair) -> tuple[str, ...]:
    """The record of the item that takes the trigger."""
    axis = f"{pair.taker.ref.item}.{_RECORD}"
    return (axis,) if axis in case.hands.axes else ()


def say_level(amount: str | float | None, kind: str | None) -> str:
    """`a 5 V pulse`, `a held closure`, `a closure pulse`, `serial data at 3.3 V`."""
    what = "closure" if amount == CLOSURE else f"{amount:g} V" if isinstance(amount, float | int) else "signal"
    if kind == "serial":
        return f"serial data at {what}" if what not in (CLOSURE, "signal") else "serial data"
    if kind == "hold":
        return f"a held {what}"
    return f"a {what} pulse" if kind == "pulse" else f"a {what}"


def find_move(case: Case, pair: SignalPair) -> Fix | None:
    """The free port of the giver's item that gives what the taker takes: move the lead there, or, where the plug does
    not go in, take another lead from there."""
    if pair.lead is None or pair.taker.level is None:
        return None
    lead = case.rig.leads[pair.lead]
    end = next(end for end, ref in lead.plugged.items() if ref == pair.giver.ref)
    here = case.port(pair.giver.ref)
    others = None
    for ref, gives in _list_givers(case, pair.giver.ref.item, pair.taker):
        port = case.port(ref)
        if port.connector.id == here.connector.id and port.sex is here.sex:
            change = MoveEnd(lead.label, end, ref.place)
            return Fix(f"Plug {lead.label} into {ref.place}, which gives {gives}.", (change,))
        others = others or Fix(f"Take it from {ref.place}, which gives {gives}, by a lead that fits there.")
    return others


def _list_givers(case: Case, item: str, taker: SignalContact) -> Iterator[tuple[PortRef, str]]:
    """The free ports of an item that give what a contact takes and survives, and what they give, in words."""
    takes = taker.level
    assert takes is not None
    used = {ref for label in case.setup.leads for ref in case.rig.leads[label].plugged.values()}
    for name, port in case.rig.items[item].part.ports.items():
        ref = PortRef(item, name)
        if ref in used:
            continue
        for level in port.levels.values():
            gives = level.gives
            if gives is None or level.kind != takes.kind or (gives == CLOSURE) != (takes.takes == CLOSURE):
                continue
            if isinstance(gives, str) or gives <= taker.survives:
                yield ref, say_level(level.gives, level.kind)
