"""The studies of one rig, each computed once, on first use. What depends only on what is there is shared by setups."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import attrgetter
from typing import TYPE_CHECKING, TypeVar, cast

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.islands import find_islands
from rigmint.graph.joined_contacts import JoinedContacts, list_joined_contacts
from rigmint.graph.pins import PinNetwork, Source, take_out_lead
from rigmint.graph.presence import Presence
from rigmint.graph.signals import Connection, connect_ports
from rigmint.physics.circuit import BadCircuit, SolveFailed
from rigmint.rig.house import House
from rigmint.rig.rig import PortRef, Rig, Setup
from rigmint.study.backfeed import Backfeed, TiedSources, find_backfeeds, find_tied_sources
from rigmint.study.day import Day, DayPacks, find_own_seconds, is_short, study_day
from rigmint.study.dial_speed import DialSpeed, study_dial_speeds
from rigmint.study.drive import RingDrive, study_drives
from rigmint.study.earths import EarthLoop, find_earth_loop
from rigmint.study.faults import Faults, study_faults
from rigmint.study.flows import FlowArrival, find_flow_arrivals
from rigmint.study.freeing import change_setting, find_freeing_settings, find_parting_leads
from rigmint.study.hands import Hands, Stopped
from rigmint.study.lead_cuts import LeadCuts
from rigmint.study.lead_worth import Missing, find_missing_behind, make_whole
from rigmint.study.metering import Expected, find_expected_volts
from rigmint.study.payload import Payloads, study_payloads
from rigmint.study.plugging import PluggingOrder, find_plugging_order
from rigmint.study.power import Power, study_power
from rigmint.study.powering import Powering, find_drops, study_powering
from rigmint.study.returns import DeviceReturn, measure_own_return
from rigmint.study.riding import Riding, study_riding
from rigmint.study.runtime import Runtime, study_runtime
from rigmint.study.signal_map import SignalMap
from rigmint.study.study_hands import find_axis_stops, tie_hands
from rigmint.study.surge import Surge, find_surge, list_feeding
from rigmint.study.switching import SwitchStep, find_switching_order
from rigmint.study.tails import JointTails, Windup, find_tails, find_windups
from rigmint.study.worst_volts import WorstVolts, study_worst_volts

if TYPE_CHECKING:
    import networkx

    from rigmint.study.misplug.bench import Bench
    from rigmint.study.misplug.burns import Harm, HarmKey
    from rigmint.study.misplug.hazards import Hazard

T = TypeVar("T")


class NotKnown(Exception):
    """A study lacks a figure: the place and the key that the file would have to state."""

    def __init__(self, place: str, key: str) -> None:
        super().__init__(f"{place} does not state {key}")
        self.place = place
        self.key = key


class Studies:
    """Lazily computed studies of a rig."""

    def __init__(self, rig: Rig, house: House, others: tuple[Rig, ...] = ()) -> None:
        """`others`: the other rigs of the job that are checked with this one."""
        self.rig = rig
        self.house = house
        self.others = others
        self._found: dict[tuple[object, ...], object] = {}

    def network(self, setup: Setup) -> PinNetwork:
        """The pin-level network of a setup."""
        presence = Presence.of(setup)
        return self._once(("network", presence), lambda: build_pin_network(self.rig, presence))

    def worst_volts(self, setup: Setup) -> WorstVolts:
        """The worst volts of a setup."""
        key = ("worst", Presence.of(setup))
        return self._once(key, lambda: study_worst_volts(self.rig, self.network(setup), setup.off))

    def certain_volts(self, setup: Setup) -> WorstVolts:
        """The worst volts that rest on no guess: a regulator that does not state whether it blocks does."""
        if self.states_blocking(setup):
            return self.worst_volts(setup)
        key = ("certain", Presence.of(setup))
        return self._once(key, lambda: study_worst_volts(self.rig, self.network(setup), setup.off, guesses=False))

    def nominal_volts(self, setup: Setup) -> WorstVolts:
        """The same search with every source at its nominal volts: what lasts."""
        key = ("nominal", Presence.of(setup))
        return self._once(key, lambda: self._search_volts(setup, attrgetter("nominal")))

    def flat_volts(self, setup: Setup) -> WorstVolts:
        """The same search with every battery empty: the least that a meter shows."""
        return self._once(("flat", Presence.of(setup)), lambda: self._search_volts(setup, attrgetter("lowest")))

    def worst_volts_without(self, setup: Setup, label: str) -> WorstVolts:
        """The worst volts with a lead taken out."""
        key = ("worst", Presence.of(setup), label)
        return self._once(
            key,
            lambda: study_worst_volts(self.rig, take_out_lead(self.network(setup), label), setup.off),
        )

    def powering(self, setup: Setup) -> Powering:
        """Which rails are powered with the switches as they are set."""
        return self._once(("powering", setup.name), lambda: study_powering(self.rig, setup, self.network(setup)))

    def powering_without(self, setup: Setup, label: str) -> Powering:
        """The same with a lead taken out."""
        return self._once(
            ("powering", setup.name, label),
            lambda: study_powering(self.rig, setup, take_out_lead(self.network(setup), label)),
        )

    def backfeeds(self, setup: Setup) -> tuple[Backfeed, ...]:
        """Outputs that a foreign source raises."""
        key = ("backfeeds", Presence.of(setup))
        return self._once(key, lambda: find_backfeeds(self.rig, self.worst_volts(setup)))

    def certain_harms(self, setup: Setup) -> Mapping[HarmKey, Harm]:
        """What can be destroyed as the rig stands, resting on no guess."""
        return self._once(("harms", Presence.of(setup)), lambda: self._list_harms(setup, guesses=False))

    def states_blocking(self, setup: Setup) -> bool:
        """Whether every regulator states whether it lets current back, so that nothing rests on a guess."""
        return all(regulator.spec.blocks is not None for regulator in self.network(setup).regulators)

    def misplug_bench(self, setup: Setup, *, guesses: bool = False) -> Bench:
        """The bench on which misplugs are tried. With `guesses` a regulator that says nothing lets current back."""
        from rigmint.study.misplug.bench import Bench

        def build() -> Bench:
            known = self._list_harms(setup, guesses=True) if guesses else self.certain_harms(setup)
            return Bench(self.rig, setup, self.network(setup), known, self.house.power, guesses=guesses)

        return self._once(("bench", Presence.of(setup), guesses), build)

    def hazards(self, setup: Setup) -> tuple[Hazard, ...]:
        """The misplugs within reach that destroy something, by the mark that would answer them."""
        from rigmint.study.misplug.hazards import find_hazards

        return self._once(("hazards", Presence.of(setup)), lambda: find_hazards(self, setup))

    def tied_sources(self, setup: Setup) -> tuple[TiedSources, ...]:
        """Sources that meet with nothing that blocks."""
        key = ("tied", Presence.of(setup))
        return self._once(key, lambda: find_tied_sources(self.rig, self.worst_volts(setup), self.house.power))

    def power(self, setup: Setup) -> Power:
        """The circuit at full, typical and change, without the loads that are fed reversed: these are destroyed, and
        what they draw on the way says nothing of the rest."""
        return self._once(
            ("power", setup.name),
            lambda: study_power(
                self.rig,
                setup,
                self.network(setup),
                self.house,
                self._list_unsound_loads(setup),
            ),
        )

    def islands(self, setup: Setup) -> dict[str, int]:
        """Item or lead label to the number of the island of everything that current can join."""
        return self._once(("islands", Presence.of(setup)), lambda: find_islands(self.network(setup)))

    def whole_power(self, setup: Setup) -> Power:
        """The same with every load, those that are fed reversed among them: what a simulator would say."""
        if not self._list_unsound_loads(setup):
            return self.power(setup)
        key = ("whole power", setup.name)
        return self._once(key, lambda: study_power(self.rig, setup, self.network(setup), self.house))

    def runtime(self, setup: Setup) -> Runtime:
        """How long each battery lasts."""
        key = ("runtime", setup.name)
        return self._once(key, lambda: study_runtime(self.rig, setup, self.power(setup), self.house))

    def own_seconds(self, setup: Setup, item: str) -> float | None:
        """s until a battery's own change; None for one that gives no current."""
        runtime = self.runtime(setup)
        return find_own_seconds(runtime, self.worst_volts(setup), self.house.power.change_at, item)

    def own_runtimes(self, setup: Setup) -> dict[str, float | None]:
        """Item of a battery to s until its own change; None for one that gives no current."""
        return {item: self.own_seconds(setup, item) for item in self.runtime(setup).seconds}

    def day(self, setup: Setup) -> Day | None:
        """The packs that the day takes; None where no day is stated."""
        return self._once(("day", setup.name), lambda: study_day(self.rig, setup, self._list_lasting(setup)))

    def short_packs(self, setup: Setup) -> tuple[DayPacks, ...]:
        """The packs of which neither this rig nor the job's others bring enough for the day."""
        day = self.day(setup)
        wanting = [packs for packs in day.packs if not packs.is_enough] if day is not None else []
        others = [self._list_packs_of(other) for other in self._list_flown_others()] if wanting else []
        return tuple(packs for packs in wanting if is_short(packs, others))

    def surge(self, setup: Setup, label: str) -> Surge | None:
        """What a lead draws from its source in the moment of plugging."""
        network, power = self.network(setup), self.power(setup)
        feeding = self._once(("feeding", setup.name), lambda: list_feeding(power, setup))
        cuts = self._once(("cuts", setup.name), lambda: LeadCuts(self.rig, setup, network))
        return find_surge(power, feeding, label, self.powering(setup), cuts.list_unpowered(label))

    def drops_without(self, setup: Setup, item: str) -> tuple[str, ...]:
        """The items that lose power when an item is taken out, itself apart."""
        key = ("drops", setup.name, item)
        network = self.network(setup)
        return self._once(key, lambda: find_drops(self.rig, setup, network, self.powering(setup), item))

    def own_return(self, setup: Setup, item: str) -> DeviceReturn | None:
        """Which way a device's own current returns when it alone draws."""
        key = ("own return", setup.name, item)
        return self._once(key, lambda: measure_own_return(self.rig, self.power(setup), item))

    def earth_loop(self, setup: Setup) -> EarthLoop | None:
        """The loop of earthed items that other leads join too, if there is one."""
        network = self.network(setup)
        return self._once(("earths", setup.name), lambda: find_earth_loop(self.rig, setup, network, self.house))

    def signals(self, setup: Setup) -> SignalMap:
        """How signals go on in a setup."""
        return self._once(("signals", setup.name), lambda: SignalMap(self.rig, setup, self.house.leaves))

    def connections(self, setup: Setup) -> tuple[Connection, ...]:
        """The pairs of ports that leads and docks join."""
        presence = Presence.of(setup)
        return self._once(("connections", presence), lambda: connect_ports(self.rig, presence))

    def joined_contacts(self, setup: Setup) -> tuple[JoinedContacts, ...]:
        """The signal contacts that leads and docks join end to end."""
        presence = Presence.of(setup)
        return self._once(("joined", presence), lambda: list_joined_contacts(self.rig, presence))

    def flows(self, setup: Setup, flow: str) -> tuple[FlowArrival, ...]:
        """Where a flow arrives."""
        return self._once(("flow", setup.name, flow), lambda: find_flow_arrivals(self.signals(setup), flow))

    def hands(self, setup: Setup) -> Hands:
        """Who has what in a setup."""
        return self._once(("hands", setup.name), lambda: tie_hands(self.signals(setup), with_stops=False))

    def nearest_misses(self, setup: Setup, place: str) -> tuple[Stopped, ...]:
        """What stops each control that does not reach the axis at `place`."""
        return self._once(("stops", setup.name, place), lambda: self._find_stops(setup, place))

    def find_freeing_settings(self, setup: Setup, place: str, unwanted: str) -> tuple[tuple[str, str, str], ...]:
        """Settings that take an unwanted control off an axis, as (item, setting, value)."""
        return find_freeing_settings(self.rig, setup, self.hands(setup), place, unwanted)

    def find_parting_leads(self, setup: Setup, place: str, unwanted: str) -> tuple[str, ...]:
        """Leads that, taken out, part an unwanted control from an axis and leave the hands that are meant."""
        return find_parting_leads(self.rig, setup, self.hands(setup), place, unwanted)

    def hands_with(self, setup: Setup, values: Mapping[tuple[str, str], str]) -> Hands:
        """Who would have what with other values of (item, setting)."""
        for (item, name), value in sorted(values.items()):
            setup = change_setting(setup, item, name, value)
        return tie_hands(SignalMap(self.rig, setup, self.house.leaves), with_stops=False)

    def drives(self, setup: Setup) -> tuple[RingDrive, ...]:
        """Every motor on its ring."""
        return self._once(("drives", setup.name), lambda: study_drives(self.rig, setup, self.connections(setup)))

    def dial_speeds(self, setup: Setup) -> tuple[DialSpeed, ...]:
        """Every wheel with hard stops that drives a ring by speed."""
        return self._once(("dials", setup.name), lambda: study_dial_speeds(self.rig, setup, self.hands(setup)))

    def riding(self, setup: Setup) -> Riding:
        """Which head each item sits on, and what carries the heads."""
        return self._once(("riding", Presence.of(setup)), lambda: study_riding(self.rig, setup))

    def payloads(self, setup: Setup) -> Payloads:
        """What each head and each carrier carries."""
        key = ("payloads", Presence.of(setup))
        return self._once(key, lambda: study_payloads(self.rig, setup, self.riding(setup)))

    def missing_behind(self, setup: Setup, label: str) -> tuple[Missing, ...]:
        """What arrives by no way and would if a lead were whole."""
        key = ("missing", setup.name, label)
        return self._once(
            key, lambda: find_missing_behind(self.rig, setup, make_whole(self.rig, self.rig.leads[label]))
        )

    def tails(self, setup: Setup) -> tuple[JointTails, ...]:
        """The joints of heads that leads cross."""
        return self._once(("tails", Presence.of(setup)), lambda: find_tails(self.rig, setup, self.riding(setup)))

    def windups(self, setup: Setup) -> tuple[Windup, ...]:
        """The joints on which tails wind up."""
        key = ("windups", setup.name)
        return self._once(key, lambda: find_windups(self.rig, setup, self.tails(setup), self.hands(setup)))

    def expected_volts(self, setup: Setup) -> Mapping[PortRef, Expected]:
        """What a meter shows at each port before it is plugged."""
        key = ("expected", Presence.of(setup))
        return self._once(key, lambda: find_expected_volts(self.worst_volts(setup), self.flat_volts(setup)))

    def plugging_order(self, setup: Setup) -> PluggingOrder:
        """The order of mating in which nothing breaks a limit on the way."""
        return self._once(("plugging", Presence.of(setup)), lambda: find_plugging_order(self.rig, setup))

    def switching_order(self, setup: Setup) -> tuple[SwitchStep, ...]:
        """The order in which devices are switched on."""
        return self._once(("switching", Presence.of(setup)), lambda: find_switching_order(self.rig, setup))

    def faults(self, setup: Setup) -> Faults:
        """What each single fault does."""
        hands, network = self.hands(setup), self.network(setup)
        return self._once(("faults", setup.name), lambda: study_faults(self.rig, setup, network, self.house, hands))

    def graph(self, setup: Setup) -> networkx.MultiDiGraph[str]:
        """The connection graph; importing networkx takes half a second, so only who asks pays."""
        from rigmint.graph.connection import build_connection_graph

        return self._once(("graph", setup.name), lambda: build_connection_graph(self.rig, setup))

    def _search_volts(self, setup: Setup, volts_of: Callable[[Source], float]) -> WorstVolts:
        return study_worst_volts(self.rig, self.network(setup), setup.off, volts_of=volts_of)

    def _list_lasting(self, setup: Setup) -> dict[str, float]:
        return {item: seconds for item, seconds in self.own_runtimes(setup).items() if seconds}

    def _list_flown_others(self) -> list[Rig]:
        """The job's other rigs, one of those that are one rig flown in several ways: that from which the rest start."""
        flown: dict[str | None, Rig] = {}
        for other in self.others:
            if other.job_file not in flown or other.file == other.job_file:
                flown[other.job_file] = other
        return list(flown.values())

    def _list_packs_of(self, other: Rig) -> tuple[DayPacks, ...]:
        """The packs of another rig of the job, in the setup that needs most of them."""
        studies = Studies(other, self.house)
        try:
            days = [day for setup in other.setups.values() if (day := studies.day(setup)) is not None]
        except (SolveFailed, BadCircuit):  # told where that rig is checked
            return ()
        return max((day.packs for day in days), key=lambda packs: sum(one.joules_needed for one in packs), default=())

    def _list_harms(self, setup: Setup, *, guesses: bool) -> Mapping[HarmKey, Harm]:
        from rigmint.study.misplug.burns import list_harms

        if guesses or self.states_blocking(setup):
            return list_harms(self.rig, self.worst_volts(setup), self.tied_sources(setup), self.backfeeds(setup))
        certain = self.certain_volts(setup)
        tied = find_tied_sources(self.rig, certain, self.house.power)
        return list_harms(self.rig, certain, tied, find_backfeeds(self.rig, certain))

    def _list_unsound_loads(self, setup: Setup) -> list[tuple[str, str]]:
        """(item, rail) of the loads that are fed reversed or without a return of their own."""
        return [*self.worst_volts(setup).list_reversed_loads(), *self.powering(setup).list_without_return()]

    def _find_stops(self, setup: Setup, place: str) -> tuple[Stopped, ...]:
        axis = self.hands(setup).axes.get(place)
        reaching = {claim.control for claim in axis.claims} if axis is not None else set()
        return find_axis_stops(self.signals(setup), place, reaching)

    def _once(self, key: tuple[object, ...], compute: Callable[[], T]) -> T:
        if key not in self._found:
            self._found[key] = compute()
        return cast(T, self._found[key])
