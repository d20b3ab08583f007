"""What a rule may ask about volts, current and runtime."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from rigmint.lint.case_base import CaseBase
from rigmint.rig.electric import Window
from rigmint.rig.rig import PortRef
from rigmint.study.backfeed import Backfeed, TiedSources
from rigmint.study.blame import (
    Blame,
    Victim,
    blame_last_lead,
    blame_over,
    blame_reversed,
    trace_short,
)
from rigmint.study.current_limits import CurrentLimit, list_current_limits
from rigmint.study.day import Day, DayPacks, ends_runtime
from rigmint.study.dead_end import DeadEnd, find_dead_end, find_return_end
from rigmint.study.earths import EarthLoop
from rigmint.study.electronics import has_electronics
from rigmint.study.feeding import carries_power, find_feeding_lead, find_way_through, is_drawn_from
from rigmint.study.limited import LimitedRegulator, find_limiting
from rigmint.study.loose_ends import find_loose_volts
from rigmint.study.outlets import find_outlets
from rigmint.study.paths import Way
from rigmint.study.potentials import Potentials
from rigmint.study.power import Point, Power
from rigmint.study.powering import Powering, RailFeed
from rigmint.study.remedies import LeadRemedy, TapRemedy, Trial, find_lead_remedies, find_tap_remedy
from rigmint.study.returns import DeviceReturn, measure_returns
from rigmint.study.runtime import Runtime
from rigmint.study.short_current import ShortCurrent, find_short_currents
from rigmint.study.spare import find_only_returns, find_spare_feed, is_spare
from rigmint.study.surge import InnerFuse, Surge, list_inner_fuses, may_trip, trips
from rigmint.study.worst_volts import Reach, WorstVolts

if TYPE_CHECKING:
    from rigmint.study.misplug.hazards import Hazard
    from rigmint.study.misplug.outcome import Misplug


class CircuitCase(CaseBase):
    """The questions of a case that concern the circuit; each is answered by a study."""

    @property
    def worst_volts(self) -> WorstVolts:
        """The highest and lowest volts that any live source can put on each port."""
        return self._studies.worst_volts(self.setup)

    @property
    def certain_volts(self) -> WorstVolts:
        """The same, resting on no guess: a regulator that does not state whether it blocks counts as blocking."""
        return self._studies.certain_volts(self.setup)

    @property
    def nominal_volts(self) -> WorstVolts:
        """The same with every source at its nominal."""
        return self._studies.nominal_volts(self.setup)

    @property
    def powering(self) -> Powering:
        """Which rails are fed."""
        return self._studies.powering(self.setup)

    @property
    def backfeeds(self) -> tuple[Backfeed, ...]:
        """Outputs that a foreign source raises."""
        return self._studies.backfeeds(self.setup)

    @property
    def tied_sources(self) -> tuple[TiedSources, ...]:
        """Sources that meet with nothing that blocks."""
        return self._studies.tied_sources(self.setup)

    @property
    def hazards(self) -> tuple[Hazard, ...]:
        """The misplugs within reach that destroy something and that no mark answers, by the mark that would."""
        return self._studies.hazards(self.setup)

    def trace_misplug(self, misplug: Misplug) -> tuple[str, ...]:
        """The chain of places by which a misplug destroys a port; nothing where no single port dies."""
        from rigmint.study.misplug.victims import trace_harm

        return trace_harm(self.rig, self.setup, misplug.mistake, misplug.harms[0])

    @property
    def power(self) -> Power:
        """The circuit at full, typical and change."""
        return self._studies.power(self.setup)

    @property
    def runtime(self) -> Runtime:
        """How long each battery lasts."""
        return self._studies.runtime(self.setup)

    def own_seconds(self, item: str) -> float | None:
        """s until a battery's own change; None for one that gives no current."""
        return self._studies.own_seconds(self.setup, item)

    def ends_runtime(self, item: str) -> bool:
        """Whether a port that a battery feeds leaves its window before the battery's change."""
        return ends_runtime(self.runtime, self.worst_volts, item)

    @property
    def day(self) -> Day | None:
        """The packs that the day takes; None where no day is stated."""
        return self._studies.day(self.setup)

    @property
    def short_packs(self) -> tuple[DayPacks, ...]:
        """The packs of which neither this rig nor the job's others bring enough for the day."""
        return self._studies.short_packs(self.setup)

    @property
    def short_currents(self) -> tuple[ShortCurrent, ...]:
        """What a short at the far end of each lead would draw."""
        return find_short_currents(self.power.circuit)

    def returns(self, point: Point) -> tuple[DeviceReturn, ...]:
        """Which way each device's return goes at an operating point; nothing where there is no solution."""
        solution = self.power.points[point].solution
        return measure_returns(self.rig, self.power.circuit, solution) if solution is not None else ()

    def own_return(self, item: str) -> DeviceReturn | None:
        """Which way a device's own current returns, with every other load switched off, so that nothing of theirs
        passes through it; None where there is no such point."""
        return self._studies.own_return(self.setup, item)

    def earth_loop(self) -> EarthLoop | None:
        """The loop of earthed items that other leads join too, if there is one."""
        return self._studies.earth_loop(self.setup)

    def blame_over(
        self, hurt: Sequence[tuple[PortRef, Reach]], is_hurt_at: Callable[[PortRef, float], bool]
    ) -> tuple[Blame, ...]:
        """The leads or items to which volts above a limit are put down, each with its victims."""
        return blame_over(self._studies, self.setup, hurt, is_hurt_at)

    def blame_reversed(self, hurt: Sequence[tuple[PortRef, Reach]]) -> tuple[Blame, ...]:
        """The leads in which polarity turns, each with its victims."""
        return blame_reversed(self._studies, self.setup, hurt)

    def blame_last_lead(self, ref: PortRef, reach: Reach) -> Victim:
        """The lead that is plugged into a port itself."""
        return blame_last_lead(self._studies, self.setup, ref, reach)

    def trace_short(self, shorted: Potentials) -> tuple[Way, str]:
        """The ring of a short and the lead that closes it."""
        return trace_short(self._studies, self.setup, shorted)

    def find_loose_volts(self, label: str, end: str) -> float | None:
        """The highest V on a contact of a lead's loose end; None where no source reaches it."""
        return find_loose_volts(self.worst_volts, self.rig.leads[label], end)

    def find_spare_feed(self, way: Way, victim: str) -> str | None:
        """A lead on a way to an item without which everything is still powered, one that carries no signal first."""
        return find_spare_feed(self._studies, self.setup, way, way.leads, victim)

    def is_spare(self, label: str) -> bool:
        """Whether everything is still powered without a lead."""
        return is_spare(self._studies, self.setup, label)

    def find_only_returns(self, rail: RailFeed) -> tuple[str, ...]:
        """The leads on a rail's own item without any one of which it has plus and no return."""
        return find_only_returns(self._studies, self.setup, rail)

    def dead_end(self, rail: RailFeed) -> DeadEnd:
        """Where the supply of a dead rail stops."""
        return find_dead_end(self.rig, self.setup, self.network, self.worst_volts, rail.load)

    def return_end(self, rail: RailFeed) -> DeadEnd:
        """Where the return of a rail that gets plus stops."""
        return find_return_end(self.rig, self.setup, self.network, rail.load)

    def say_change(self) -> str:
        """The operating point `change` in words: a rig on the mains has peaks, but no battery to change."""
        has_battery = any(source.cell.is_battery for source in self.network.sources)
        return "at the battery change, with peaks" if has_battery else "with peaks"

    def find_limiting(self, ref: PortRef, point: Point) -> LimitedRegulator | None:
        """The regulator at its current limit that feeds a port at an operating point."""
        return find_limiting(self.rig, self.power, ref, point)

    def find_lead_remedies(self, label: str, cures: Callable[[Trial], bool]) -> list[LeadRemedy]:
        """The next thicker and the longest shorter lead that each cure alone."""
        return find_lead_remedies(self.rig, self.setup, self.house, label, cures)

    def find_tap_remedy(self, way: Way, point: Point, cures: Callable[[Trial], bool]) -> TapRemedy | None:
        """The heaviest load on a way, by its current at a point, moved to a free output upstream, where that cures."""
        return find_tap_remedy(self.rig, self.setup, self.house, self.power, way, point, cures)

    def find_outlets(self, label: str, window: Window) -> tuple[tuple[str, PortRef], ...]:
        """(end of a lead, free output that takes it and gives volts in a window)."""
        return find_outlets(self.rig, self.setup, self.worst_volts, self.nominal_volts, label, window)

    def find_way_through(self, label: str) -> Way | None:
        """The way to the port that draws most at typical, of those that are fed through a lead."""
        return find_way_through(self.rig, self.setup, self.network, self.worst_volts, self.power, label)

    def find_feeding_lead(self, item: str) -> str | None:
        """The lead with the largest drop on the way to an item, at typical; None where no lead feeds it."""
        return find_feeding_lead(self.rig, self.worst_volts, self.power, item)

    def drops_without(self, source: str) -> tuple[str, ...]:
        """The items that lose power when the item of a source is taken out."""
        return self._studies.drops_without(self.setup, source)

    def list_surges(self) -> list[Surge]:
        """What each power lead draws from its source in the moment of plugging."""
        labels = [label for label in sorted(self.setup.leads) if self.carries_power(label)]
        surges = [self._studies.surge(self.setup, label) for label in labels]
        return [surge for surge in surges if surge is not None]

    def list_tripping_surges(self) -> list[Surge]:
        """The surges that trip their source. Where no lead can do that, none is worked out."""
        if not may_trip(self.power, self.setup, self._studies.islands(self.setup)):
            return []
        return [surge for surge in self.list_surges() if trips(surge)]

    def list_inner_fuses(self, point: Point) -> list[InnerFuse]:
        """The fuses inside items, with what they carry at an operating point."""
        return list(list_inner_fuses(self.power, self.power.points[point].solution))

    def list_current_limits(self) -> list[CurrentLimit]:
        """What limits current in every lead that carries power, at every docked port and at every source."""
        return list(list_current_limits(self.rig, self.setup, self.network.sources, self.power))

    def is_drawn_from(self, ref: PortRef) -> bool:
        """Whether a port is plugged and what is behind it draws: its own load, or a regulator that feeds one."""
        return is_drawn_from(self.rig, self.setup, self.network, ref)

    def states_survival(self, ref: PortRef) -> bool:
        """Whether the part itself says what a port survives, so that a bare plate or breakout is judged by it too."""
        port = self.rig.port(ref)
        return port.survives is not None and "survives" not in port.assumed

    def has_electronics(self, ref: PortRef) -> bool:
        """Whether there is something behind a port that a wrong voltage can hurt: not in a bare plate or breakout."""
        return has_electronics(self.rig.items[ref.item].part)

    def carries_power(self, label: str) -> bool:
        """Whether a conductor of a lead meets a feed of a port that it is plugged into."""
        return carries_power(self.rig, self.rig.leads[label])
