"""The states of diodes and regulators that agree with the simulator's own answer.

Behavioural sources with kinks for them do not always converge, so the states are held here and the simulator solves
what is left: sources, resistances, and constant powers with their windows. Each answer is read for states that it
contradicts, and these are changed until none is. Which regulators are on is the outer search: of the patterns that
agree with their own inputs the one with most of them on.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tests.power.netlist import HELD_UP, HOLDING, LIMITED, OFF, STIFF_OHMS, Moment, Netlist, Readings, States

_NOTHING_AMPS = 1e-6
_IDLE_AMPS = 1e-5
_SAGS = (0.8, 0.5, 0.25, 0.1)
_ROUNDS = 60
_MOST_PATTERNS = 64


class NoAnswer(Exception):
    """The simulator found no operating point, or no states agree with one."""


class Search:
    """Operating points of one netlist."""

    def __init__(self, netlist: Netlist) -> None:
        self._netlist = netlist
        self._settled: dict[tuple[Moment, frozenset[int]], dict[str, float] | None] = {}

    def simulate(self, moment: Moment) -> Readings:
        """The operating point. Raises NoAnswer."""
        for on in self._list_patterns(moment):
            values = self._settle(moment, on)
            if values is not None and not self._complaints(values, on):
                return self._netlist.read(moment, values)
        msg = "no pattern of regulators agrees with its own inputs"
        raise NoAnswer(msg)

    def _list_patterns(self, moment: Moment) -> Iterator[frozenset[int]]:
        """All on first that a source reaches; then without those that complain; then every other, most on first."""
        tried: list[frozenset[int]] = []
        on, contested = self._netlist.fed, frozenset[int]()
        while on not in tried:
            tried.append(on)
            yield on
            values = self._settle(moment, on)
            if values is None:
                contested = self._netlist.fed
                break
            wrong = self._complaints(values, on)
            contested |= wrong
            on = on - wrong if wrong & on else on | wrong
        settled = tried[-1] - contested
        count = 0
        for size in range(len(contested), -1, -1):
            for some in combinations(sorted(contested), size):
                count += 1
                if count > _MOST_PATTERNS:
                    return
                yield settled | frozenset(some)

    def _complaints(self, values: dict[str, float], on: frozenset[int]) -> frozenset[int]:
        """Regulators that are on outside their window, or off inside it."""
        wrong = set()
        for index, one in enumerate(self._netlist.wiring.regulators):
            volts = self._netlist.across(values, one.input, one.ground)
            low, high = one.takes
            is_inside = low * (1 - 1e-9) <= volts <= high * (1 + 1e-9)
            if is_inside != (index in on):
                wrong.add(index)
        return frozenset(wrong)

    def _settle(self, moment: Moment, on: frozenset[int]) -> dict[str, float] | None:
        """The simulator's answer with states that agree with it; None where there is none."""
        if (moment, on) not in self._settled:
            self._settled[moment, on] = self._find_states(moment, on)
        return self._settled[moment, on]

    def _find_states(self, moment: Moment, on: frozenset[int]) -> dict[str, float] | None:
        regulators = tuple(HOLDING if index in on else OFF for index in range(len(self._netlist.wiring.regulators)))
        states = States(tuple(True for _ in self._netlist.wiring.diodes), regulators)
        seen: set[States] = set()
        forward: set[int] = set()
        is_settled = False
        for _ in range(_ROUNDS):
            values = self._run_sagging(moment, states)
            if values is None:
                return None
            changes = self._find_changes(values, states, forward)
            if not changes and not is_settled:
                # What stood forward on the way here need not do so now.
                is_settled = True
                forward.clear()
                changes = self._find_changes(values, states, forward)
            if not changes:
                return values
            one_only = states in seen
            seen.add(states)
            states = _change(states, changes[:1] if one_only else changes)
        return None

    def _find_changes(
        self, values: dict[str, float], states: States, forward: set[int]
    ) -> list[tuple[str, int, str | bool]]:
        """States that the values contradict. A diode that carries nothing is opened, to see whether it stands forward
        when open (it feeds a rail that draws nothing); those that do are gathered in `forward` and then stay."""
        changes: list[tuple[str, int, str | bool]] = []
        for index, diode in enumerate(self._netlist.wiring.diodes):
            if states.diodes[index]:
                amps = (self._netlist.across(values, diode.anode, diode.cathode) - diode.drop) / STIFF_OHMS
                if amps < (-_NOTHING_AMPS if index in forward else _IDLE_AMPS):
                    changes.append(("diode", index, False))
            elif self._netlist.across(values, diode.anode, diode.cathode) > diode.drop + 1e-6:
                forward.add(index)
                changes.append(("diode", index, True))
        for index, one in enumerate(self._netlist.wiring.regulators):
            state = states.regulators[index]
            volts = self._netlist.across(values, one.output, one.ground)
            if state == HOLDING:
                amps = (one.out - volts) / STIFF_OHMS
                if amps < -_NOTHING_AMPS:
                    changes.append(("regulator", index, HELD_UP))
                elif one.limit is not None and amps > one.limit * (1 + 1e-9):
                    changes.append(("regulator", index, LIMITED))
            elif (state == LIMITED and volts > one.out + 1e-6) or (state == HELD_UP and volts < one.out - 1e-6):
                changes.append(("regulator", index, HOLDING))
        return changes

    def _run_sagging(self, moment: Moment, states: States) -> dict[str, float] | None:
        """One operating point, from the highest guess at which regulators at their limit stay under their volts: with
        constant powers behind them there may be a solution above those too, which is none."""
        values = None
        for share in _SAGS:
            found = self._netlist.run(moment, states, share)
            values = found or values
            if found is not None and not any(
                state == LIMITED and self._netlist.across(found, one.output, one.ground) > one.out
                for one, state in zip(self._netlist.wiring.regulators, states.regulators, strict=True)
            ):
                return found
            if LIMITED not in states.regulators:
                break
        return values


def _change(states: States, changes: list[tuple[str, int, str | bool]]) -> States:
    diodes, regulators = list(states.diodes), list(states.regulators)
    for what, index, value in changes:
        if what == "diode":
            diodes[index] = bool(value)
        else:
            regulators[index] = str(value)
    return States(tuple(diodes), tuple(regulators))
