"""What a rule may ask about hands, picture and other signals."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from rigmint.graph.joined_contacts import JoinedContacts
from rigmint.graph.signals import Connection, find_missing_wires
from rigmint.lint.case_base import CaseBase
from rigmint.rig.rig import Item, Link, PortRef
from rigmint.study.flow_settings import find_flow_settings, gating_flow_settings
from rigmint.study.flow_stops import FlowStop, find_flow_stop
from rigmint.study.flows import FlowArrival, list_ends, list_makers
from rigmint.study.following import Following, find_following
from rigmint.study.granting import find_granting_settings
from rigmint.study.hands import Hands, Stopped
from rigmint.study.lead_worth import Missing, find_missing_behind
from rigmint.study.reach import LinkReach, find_reaches
from rigmint.study.signal_map import SignalMap


class SignalCase(CaseBase):
    """The questions of a case that concern signals; each is answered by a study."""

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
        return self._studies.joined_contacts(self.setup)

    def reaches(self, link: Link, other: PortRef) -> tuple[LinkReach | None, ...]:
        """m that a link reaches between its hub and another of its radios, in every region and place in which the rig
        may be: one where both are stated."""
        return find_reaches(self.rig, self.setup, link.radios[0], other, link, self.house.leaves)

    def could_join(self, link: Link, ref: PortRef) -> bool:
        """Whether a radio that is in no link speaks with the hub of one."""
        if ref in link.radios:
            return False
        return bool(set(self.rig.radio(ref).speaks) & set(self.rig.radio(link.radios[0]).speaks))

    def following(self, item: Item) -> Following:
        """The follow of a head."""
        return find_following(item, self.setup)

    def nearest_misses(self, place: str) -> tuple[Stopped, ...]:
        """What stops each control that does not reach an axis."""
        return self._studies.nearest_misses(self.setup, place)

    def find_freeing_settings(self, place: str, unwanted: str) -> tuple[tuple[str, str, str], ...]:
        """(item, setting, value) that each alone take an unwanted control off an axis and leave the other hands."""
        return self._studies.find_freeing_settings(self.setup, place, unwanted)

    def find_granting_settings(self, place: str) -> tuple[tuple[str, str, str], ...]:
        """(item, setting, value) that each alone give an axis to who is meant to have it, and spoil nothing."""
        return find_granting_settings(self.rig, self.setup, self.hands, place)

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

    def carries_signals(self, label: str) -> bool:
        """Whether a protocol passes over a lead."""
        return bool(self.signals.protocols_over(label))
