"""`travel:battery`: what passengers may not simply carry, of a rig that flies."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import (
    AIR_EDITION,
    APPROVED_WATT_HOURS,
    FREE_WATT_HOURS,
    MOST_APPROVED_SPARES,
    MOST_FREE_SPARES,
    BatteryClass,
    Case,
    Cell,
    Finding,
    Fix,
    Grade,
    Measured,
    Parameter,
    Part,
    Rule,
    classify_battery,
    say_list,
)

_JOULES = 3600.0
_LITHIUM = "li-ion"
_LEFT_BEHIND = "supply"


@dataclass(frozen=True, slots=True)
class _Lot:
    """Batteries of one rating at one place of the file. `spares`: how many of them are in no device."""

    place: str
    says: str
    joules: float
    count: int
    spares: int
    assumed: tuple[str, ...]


def check(case: Case) -> Iterator[Finding]:
    """One finding for what cannot be baggage, one for what needs approval, one for too many of the rest."""
    if not case.setup.needs.flies:
        return
    lots: dict[BatteryClass, list[_Lot]] = defaultdict(list)
    for lot in (*_list_flown(case), *_list_spare(case)):
        lots[classify_battery(lot.joules)].append(lot)
    people = int(case.parameters["people"]) or max(1, len(case.setup.crew))
    if lots[BatteryClass.FORBIDDEN]:
        yield _report_forbidden(lots[BatteryClass.FORBIDDEN])
    if lots[BatteryClass.APPROVED]:
        yield _report_approved(lots[BatteryClass.APPROVED], people)
    if _count_spares(lots[BatteryClass.FREE]) > MOST_FREE_SPARES * people:
        yield _report_many(lots[BatteryClass.FREE], people)


def _list_cells(part: Part) -> Iterator[tuple[Cell, tuple[str, ...]]]:
    """The lithium batteries of a part that goes with the crew; one whose part does not state its chemistry counts."""
    for cell in part.cells.values():
        is_assumed = "chemistry" in cell.assumed
        is_lithium = is_assumed or cell.chemistry.startswith(_LITHIUM)
        if is_lithium and cell.energy is not None and part.kind != _LEFT_BEHIND:
            yield cell, (f"{cell.name} chemistry",) if is_assumed else ()


def _list_flown(case: Case) -> Iterator[_Lot]:
    """What is on the rig in any setup: in a device, or a loose pack, which is a spare as is a power bank."""
    docked = {ref.item for dock in case.rig.docks for ref in (dock.first, dock.second)}
    for name, item in case.rig.items.items():
        is_spare = item.part.kind == "battery" and name not in docked
        for cell, assumed in _list_cells(item.part):
            energy = cell.energy or 0.0
            figures = tuple(f"{name}.{figure}" for figure in assumed)
            yield _Lot(name, f"{name} ({_say_energy(energy)})", energy, 1, int(is_spare), figures)


def _list_spare(case: Case) -> Iterator[_Lot]:
    for index, spare in enumerate(case.rig.spares):
        for cell, assumed in _list_cells(spare.part):
            energy = cell.energy or 0.0
            loose = spare.count if spare.part.kind == "battery" else 0
            figures = tuple(f"{spare.part.id} {figure}" for figure in assumed)
            says = f"{spare.count} × {spare.part.name} in the case ({_say_energy(energy)})"
            yield _Lot(f"also.{index}", says, energy, spare.count, loose, figures)


def _say_energy(joules: float) -> str:
    """To 0.1 Wh: the limits are met to less than a watt-hour."""
    return f"{round(joules / _JOULES, 1):g} Wh"


def _count_spares(lots: list[_Lot]) -> int:
    return sum(lot.spares for lot in lots)


def _say_people(people: int) -> str:
    return "one person" if people == 1 else f"{people} people"


def _report(lots: list[_Lot], says: str, measured: Measured, remedies: tuple[str, ...]) -> Finding:
    return Finding(
        code="travel:battery",
        grade=Grade.THIN,
        says=f"{says} By {AIR_EDITION}: ask the airline for the edition in force.",
        at=lots[0].place,
        cause=lots[0].place,
        also=tuple(dict.fromkeys(lot.place for lot in lots if lot.place != lots[0].place)),
        measured=measured,
        assumed=tuple(dict.fromkeys(figure for lot in lots for figure in lot.assumed)),
        fixes=tuple(Fix(remedy) for remedy in remedies),
    )


def _report_forbidden(lots: list[_Lot]) -> Finding:
    worst = max(lot.joules for lot in lots)
    says = (
        f"{say_list([lot.says for lot in lots])}: over {APPROVED_WATT_HOURS:.0f} Wh no lithium battery flies with a"
        " passenger, in hand or checked."
    )
    remedies = (
        "Send them as cargo by somebody who may ship dangerous goods, hire them on the spot, or take smaller ones.",
    )
    return _report(lots, says, Measured(worst, APPROVED_WATT_HOURS * _JOULES, "J"), remedies)


def _report_approved(lots: list[_Lot], people: int) -> Finding:
    spares, most = _count_spares(lots), MOST_APPROVED_SPARES * people
    says = (
        f"{say_list([lot.says for lot in lots])}: over {FREE_WATT_HOURS:.0f} Wh each needs the airline's approval"
        " before travel."
    )
    if spares:
        count = "1 of them is a spare" if spares == 1 else f"{spares} of them are spares"
        says += (
            f" {count}: in hand baggage, terminals covered, and at most {MOST_APPROVED_SPARES} a person, {most} for"
            f" {_say_people(people)}."
        )
    measured = Measured(max(lot.joules for lot in lots), FREE_WATT_HOURS * _JOULES, "J")
    remedies = ["Ask the airline in writing, or take packs of up to 100 Wh."]
    if spares > most:
        measured = Measured(float(spares), float(most), "spares")
        left = f"Leave {spares - most} of the spares, share them out over more people, or hire them on the spot."
        remedies.insert(0, left)
    return _report(lots, says, measured, tuple(remedies))


def _report_many(lots: list[_Lot], people: int) -> Finding:
    spares, most = _count_spares(lots), MOST_FREE_SPARES * people
    loose = [lot for lot in lots if lot.spares]
    says = (
        f"{spares} spare batteries of up to {FREE_WATT_HOURS:.0f} Wh ({say_list([lot.says for lot in loose])}): at most"
        f" {MOST_FREE_SPARES} a person in hand baggage, {most} for {_say_people(people)}."
    )
    remedies = ("Share them out over more people, or ask the airline to approve more.",)
    return _report(loose, says, Measured(float(spares), float(most), "spares"), remedies)


RULE = Rule(
    code="travel:battery",
    grades=(Grade.THIN,),
    title="Batteries that need more than a ticket",
    looks_for=(
        "Only where `needs: flies` says so: lithium-ion batteries of the kit and of `also:` over 160 Wh, which are no"
        " baggage; those over 100 and up to 160 Wh, which need approval, with at most 2 spares a person; and more than"
        " 20 spares a person of up to 100 Wh. A pack in its plate counts as installed, a loose one and a power bank as"
        " a spare. People are those whom the crew names."
    ),
    why="They are taken away at the security check, and the rig arrives without power.",
    put_right="Ask the airline in writing before travel; take packs of up to 100 Wh, or hire batteries on the spot.",
    source=AIR_EDITION,
    caution=(
        "Lithium batteries are dangerous goods: carry spares in hand baggage, each protected against short circuit,"
        " and follow the airline and the rules in force on the day."
    ),
    parameters={"people": Parameter(0.0, None, "people who travel with the rig; 0: as many as the crew names")},
    check=check,
)
