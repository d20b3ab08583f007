"""What `power` shows of a rig: its studies in each setup asked for, and the figures that they assume."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from rigmint.library.faults import Fault
from rigmint.physics.circuit import BadCircuit, SolveFailed
from rigmint.rig.house import House
from rigmint.rig.rig import Item, Lead, Rig, Setup
from rigmint.study.day import Day
from rigmint.study.faults import Faults
from rigmint.study.power import Power
from rigmint.study.runtime import Runtime
from rigmint.study.studies import Studies

_OF_CELLS = frozenset({"nominal", "resistance"})
_OF_RAILS = frozenset({"peak"})
_OF_PORTS = frozenset({"pins", "works"})
_OF_REGULATORS = frozenset({"efficiency", "takes"})


@dataclass(frozen=True, slots=True)
class SetupPower:
    """One setup."""

    setup: Setup
    power: Power
    runtime: Runtime
    day: Day | None
    burns: bool
    """Whether this wiring destroys something, so that its figures are not to be worked by."""
    faults: Faults | None
    """What single faults do, where that was asked for."""


@dataclass(frozen=True, slots=True)
class PowerReport:
    """All of it. `setups` is empty where a study failed."""

    rig: Rig
    house: House
    setups: Mapping[str, SetupPower]
    assumed: tuple[str, ...]
    """Figures for which a default stands in and on which a number here rests, as `place figure`."""
    failed: tuple[Fault, ...]


def _gather_setup(studies: Studies, setup: Setup, *, with_faults: bool) -> SetupPower:
    return SetupPower(
        setup,
        studies.whole_power(setup),
        studies.runtime(setup),
        studies.day(setup),
        studies.worst_volts(setup).burns(),
        studies.faults(setup) if with_faults else None,
    )


def gather_power(rig: Rig, house: House, names: Sequence[str], *, with_faults: bool = False) -> PowerReport:
    """The studies of the setups named, with those of single faults where asked for. A circuit that could not be solved
    though it has a solution is a fault of rigmint's own, and then no number is given at all."""
    studies = Studies(rig, house)
    setups: dict[str, SetupPower] = {}
    failed: list[Fault] = []
    for name in names:
        setup = rig.setups[name]
        try:
            setups[name] = _gather_setup(studies, setup, with_faults=with_faults)
        except (SolveFailed, BadCircuit) as error:
            says = f"the circuit of setup {name} could not be solved, which is a fault of rigmint: {error}"
            failed.append(Fault(rig.file, 1, 1, "study:failed", says))
    if failed:
        return PowerReport(rig, house, {}, (), tuple(failed))
    return PowerReport(rig, house, setups, _list_assumed(rig, [rig.setups[name] for name in names]), ())


def _list_assumed(rig: Rig, setups: Sequence[Setup]) -> tuple[str, ...]:
    """The assumed figures of what is there in these setups that enter the circuit or the windows it is judged by."""
    found: list[str] = []
    for name, item in rig.items.items():
        if any(name in setup.items for setup in setups):
            found += _list_of_item(item)
    for label, lead in rig.leads.items():
        if any(label in setup.leads for setup in setups):
            found += _list_of_lead(lead)
    return tuple(dict.fromkeys(found))


def _list_of_item(item: Item) -> Iterator[str]:
    part = item.part
    for port in part.ports.values():
        if port.carries_power:
            yield from _name(f"{item.name}.{port.name}", port.assumed & _OF_PORTS)
    for cell in part.cells.values():
        yield from _name(f"{item.name}.{cell.name}", cell.assumed & _OF_CELLS)
    for rail in part.rails.values():
        if rail.load is not None:
            yield from _name(f"{item.name} {rail.name}", rail.assumed & _OF_RAILS)
    for bridge in part.bridges:
        if bridge.regulator is not None:
            yield from _name(f"{item.name} {bridge.target}", bridge.regulator.assumed & _OF_REGULATORS)


def _list_of_lead(lead: Lead) -> Iterator[str]:
    yield from _name(lead.label, lead.assumed)
    if not lead.body.straight and any(conductor.assumed for conductor in lead.body.conductors):
        yield f"{lead.label} gauge"
    for conductor in lead.body.conductors:
        if conductor.regulator is not None:
            yield from _name(lead.label, conductor.regulator.assumed & _OF_REGULATORS)


def _name(place: str, figures: frozenset[str]) -> Iterator[str]:
    return (f"{place} {figure}" for figure in sorted(figures))
