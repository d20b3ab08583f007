"""What a rule is given: one rig in one setup, with studies that are computed when they are first asked for."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from rigmint.graph.joined_contacts import JoinedContacts, list_joined_contacts
from rigmint.graph.pins import PinNetwork
from rigmint.graph.presence import Presence
from rigmint.graph.signals import Connection, find_missing_wires
from rigmint.rig.choice import When
from rigmint.rig.electric import Port
from rigmint.rig.house import House
from rigmint.rig.rig import Item, Link, PortRef, Rig, Setup
from rigmint.study.backfeed import Backfeed, TiedSources
from rigmint.study.blame import (
    Blame,
    Victim,
    blame_last_lead,
    blame_over,
    blame_reversed,
    trace_short,
)
from rigmint.study.conditions import Assumption, Barred, judge_when
from rigmint.study.dead_end import DeadEnd, find_dead_end
from rigmint.study.earths import EarthLoop
from rigmint.study.flow_settings import find_flow_settings, gating_flow_settings
from rigmint.study.flow_stops import FlowStop, find_flow_stop
from rigmint.study.flows import FlowArrival, list_ends, list_makers
from rigmint.study.following import Following, find_following
from rigmint.study.hands import Hands, Stopped
from rigmint.study.lead_worth import Missing, find_missing_behind
from rigmint.study.loose_ends import find_loose_volts
from rigmint.study.paths import Way
from rigmint.study.potentials import Potentials
from rigmint.study.power import Point, Power
from rigmint.study.powering import Powering, RailFeed, feeding_ports
from rigmint.study.reach import LinkReach, find_reaches
from rigmint.study.remedies import LeadRemedy, TapRemedy, find_lead_remedies, find_tap_remedy
from rigmint.study.returns import DeviceReturn, measure_returns
from rigmint.study.runtime import Runtime
from rigmint.study.short_current import ShortCurrent, find_short_currents
from rigmint.study.signal_map import SignalMap
from rigmint.study.spare import find_only_returns, find_spare_feed, has_electronics, is_spare
from rigmint.study.studies import Studies
from rigmint.study.surge import InnerFuse, Surge, list_inner_fuses
from rigmint.study.worst_volts import Reach, WorstVolts

if TYPE_CHECKING:
    import networkx


class Case:
    """One rig in one setup, for one rule. `parameters` are the rule's own, as the library sets them."""

    def __init__(self, studies: Studies, setup: Setup, parameters: Mapping[str, float]) -> None:
        self._studies = studies
        self.setup = setup
        self.parameters = parameters

    @property
    def rig(self) -> Rig:
        """The rig."""
        return self._studies.rig

    @property
    def house(self) -> House:
        """What the library says."""
        return self._studies.house

    @property
    def items(self) -> tuple[Item, ...]:
        """The items that are there, by name."""
        return tuple(self.rig.items[name] for name in sorted(self.setup.items))

    @property
    def network(self) -> PinNetwork:
        """The pin-level network."""
        return self._studies.network(self.setup)

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
    def hands(self) -> Hands:
        """Who has what. Its axes carry no `stopped`: ask `nearest_misses`."""
        return self._studies.hands(self.setup)

    @property
    def signals(self) -> SignalMap:
        """How signals go on from place to place."""
        return self._studies.signals(self.setup)

    @property
    def connections(self) -> tuple[Connection, ...]:
        """The pairs of ports that leads and docks join, with the protocols that pass and why others do not."""
        return self._studies.connections(self.setup)

    def flows(self, flow: str) -> tuple[FlowArrival, ...]:
        """Where a flow arrives, from each of its makers."""
        return self._studies.flows(self.setup, flow)

    def flow_makers(self, flow: str) -> list[tuple[str, str]]:
        """(item, maker) of a flow, of the items that are there, off or on."""
        return list_makers(self.signals, flow)

    def flow_ends(self, item: str, flow: str) -> list[str]:
        """The screens and other ends of an item at which its passes of a flow end."""
        return list_ends(self.signals, item, flow)

    def find_flow_stop(self, flow: str, goals: Collection[tuple[str, str]]) -> FlowStop | None:
        """The first thing in the way of a flow to any of `goals` (item, place)."""
        return find_flow_stop(self.signals, flow, goals)

    def find_flow_settings(
        self, flow: str, place: str, candidates: Iterable[tuple[str, str]] | None = None
    ) -> tuple[tuple[str, str, str], ...]:
        """(item, setting, value) that alone bring a flow to a place and spoil it nowhere: of `candidates`, else of
        all settings that gate the flow."""
        tried = gating_flow_settings(self.signals, flow) if candidates is None else candidates
        return find_flow_settings(self.signals, flow, place, tried)

    def joined_contacts(self) -> tuple[JoinedContacts, ...]:
        """The signal contacts that leads and docks join end to end."""
        return list_joined_contacts(self.rig, Presence.of(self.setup))

    def reaches(self, link: Link, other: PortRef) -> tuple[LinkReach | None, ...]:
        """m that a link reaches between its hub and another of its radios, in every region and place in which the rig
        may be: one where both are stated."""
        return find_reaches(self.rig, self.setup, link.radios[0], other, link, self.house.leaves)

    def following(self, item: Item) -> Following:
        """The follow of a head."""
        return find_following(item, self.setup)

    def nearest_misses(self, place: str) -> tuple[Stopped, ...]:
        """What stops each control that does not reach an axis."""
        return self._studies.nearest_misses(self.setup, place)

    def find_freeing_settings(self, place: str, unwanted: str) -> tuple[tuple[str, str, str], ...]:
        """(item, setting, value) that each alone take an unwanted control off an axis and leave the other hands."""
        return self._studies.find_freeing_settings(self.setup, place, unwanted)

    def find_parting_leads(self, place: str, unwanted: str) -> tuple[str, ...]:
        """Leads that, taken out, part an unwanted control from an axis and leave the hands that are meant."""
        return self._studies.find_parting_leads(self.setup, place, unwanted)

    def hands_with(self, values: Mapping[tuple[str, str], str]) -> Hands:
        """Who would have what with other values of (item, setting)."""
        return self._studies.hands_with(self.setup, values)

    def missing_behind(self, label: str) -> tuple[Missing, ...]:
        """What arrives by no way and would if a lead were whole."""
        return self._studies.missing_behind(self.setup, label)

    def missing_if_plugged(self, label: str, plugged: Mapping[str, PortRef]) -> tuple[Missing, ...]:
        """What arrives by no way and would if a lead's ends were plugged so."""
        mended = replace(self.rig.leads[label], plugged=plugged)
        return find_missing_behind(self.rig, self.setup, mended)

    def missing_wires(self, label: str, ends: tuple[str, str], protocol: str) -> tuple[str, ...]:
        """The wires of a protocol that no conductor joins between two plugged ends of a lead."""
        lead = self.rig.leads[label]
        ports = self.port(lead.plugged[ends[0]]), self.port(lead.plugged[ends[1]])
        return find_missing_wires(lead.body, ends, ports, self.rig.protocols[protocol])

    def find_loose_volts(self, label: str, end: str) -> float | None:
        """The highest V on a contact of a lead's loose end; None where no source reaches it."""
        return find_loose_volts(self.worst_volts, self.rig.leads[label], end)

    def judge_when(self, item: Item, when: When) -> list[Assumption] | Barred:
        """The assumptions under which a condition on an item's settings holds, or what bars it."""
        return judge_when(item, when, self.setup)

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

    @property
    def backfeeds(self) -> tuple[Backfeed, ...]:
        """Outputs that a foreign source raises."""
        return self._studies.backfeeds(self.setup)

    @property
    def tied_sources(self) -> tuple[TiedSources, ...]:
        """Sources that meet with nothing that blocks."""
        return self._studies.tied_sources(self.setup)

    @property
    def power(self) -> Power:
        """The circuit at full, typical and change."""
        return self._studies.power(self.setup)

    @property
    def runtime(self) -> Runtime:
        """How long each battery lasts."""
        return self._studies.runtime(self.setup)

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

    def is_gauge_assumed(self, label: str) -> bool:
        """Whether a default stands in for the gauge of a lead."""
        return any(conductor.assumed for conductor in self.rig.leads[label].body.conductors)

    def find_lead_remedies(self, label: str, ref: PortRef, point: Point) -> list[LeadRemedy]:
        """A thicker and a shorter lead, with the volts that each gives at a port."""
        return find_lead_remedies(self.rig, self.setup, self.house, label, ref, point)

    def find_tap_remedy(self, way: Way, ref: PortRef, point: Point) -> TapRemedy | None:
        """The heaviest load on a way, moved to a free output upstream, with the volts that it gives at a port."""
        return find_tap_remedy(self.rig, self.setup, self.house, self.power, way, ref, point)

    def drops_without(self, source: str) -> tuple[str, ...]:
        """The items that lose power when the item of a source is taken out."""
        return self._studies.drops_without(self.setup, source)

    def list_surges(self) -> list[Surge]:
        """What each power lead draws from its source in the moment of plugging."""
        labels = [label for label in sorted(self.setup.leads) if self.carries_power(label)]
        surges = [self._studies.surge(self.setup, label) for label in labels]
        return [surge for surge in surges if surge is not None]

    def list_inner_fuses(self, point: Point) -> list[InnerFuse]:
        """The fuses inside items, with what they carry at an operating point."""
        return list(list_inner_fuses(self.power, self.power.points[point].solution))

    def is_drawn_from(self, ref: PortRef) -> bool:
        """Whether a port is plugged and what is behind it draws: its own load, or a regulator that feeds one."""
        part = self.rig.items[ref.item].part
        is_plugged = any(ref in (mate.port, mate.other) for mate in self.network.mates)
        is_on = ref.item not in self.setup.off
        draws = any(rail.load is not None for rail in part.rails.values())
        rails = set(self.port(ref).feeds.values())
        return is_plugged and is_on and draws and not any(part.has_cell_on(rail) for rail in rails)

    def find_feeding_lead(self, item: str) -> str | None:
        """The lead with the largest drop on the way to an item, at typical; None where no lead feeds it."""
        for ref in feeding_ports(self.rig, item):
            reach = self.worst_volts.ports[ref].high
            if reach is not None and reach.source.item != item:
                leads = self.worst_volts.way_to(ref, reach).leads
                drops = self.power.points[Point.TYPICAL].leads
                return max(leads, key=lambda label: drops[label].drop if label in drops else 0.0, default=None)
        return None

    def earth_loop(self) -> EarthLoop | None:
        """The loop of earthed items that other leads join too, if there is one."""
        return self._studies.earth_loop(self.setup)

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

    def port(self, ref: PortRef) -> Port:
        """The port at a place."""
        return self.rig.items[ref.item].part.ports[ref.port]

    def has_electronics(self, ref: PortRef) -> bool:
        """Whether there is something behind a port that a wrong voltage can hurt: not in a bare plate or breakout."""
        return has_electronics(self.rig.items[ref.item].part)

    def carries_power(self, label: str) -> bool:
        """Whether a conductor of a lead meets a feed of a port that it is plugged into."""
        lead = self.rig.leads[label]
        feeds = {(end, contact) for end, ref in lead.plugged.items() for contact in self.port(ref).feeds}
        return any(
            (side.end, side.contact) in feeds
            for conductor in lead.body.conductors
            for side in (conductor.source, conductor.target)
        )

    def carries_signals(self, label: str) -> bool:
        """Whether a protocol passes over a lead."""
        return bool(self._studies.signals(self.setup).protocols_over(label))

    def assumed_of(self, ref: PortRef, *figures: str) -> tuple[str, ...]:
        """Those of a port's figures for which a default stands in, as `place figure`."""
        port = self.port(ref)
        return tuple(f"{ref.place} {figure}" for figure in figures if figure in port.assumed)

    def assumed_of_lead(self, label: str) -> tuple[str, ...]:
        """`label conductors` for a lead that nobody described."""
        lead = self.rig.leads.get(label)
        return (f"{label} conductors",) if lead is not None and lead.body.straight else ()

    @property
    def graph(self) -> networkx.MultiDiGraph[str]:
        """The connection graph of what is there."""
        return self._studies.graph(self.setup)
