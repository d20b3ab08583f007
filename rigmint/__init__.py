"""rigmint: a rule-based linter for camera rig files.

The house, ground floor first; nothing imports upwards:

- `words`: grades and other shared vocabulary
- `rig`: what a rig is, frozen dataclasses and quantities; knows nothing of files
- `physics`: plain numbers in, plain numbers out; knows nothing of rigs
- `library`: reads files, checks them against the schemas, assembles a rig
- `graph`: the pin-level network, signal connections, the connection graph
- `study`: physics and search applied to a rig in a setup
- `lint`: finding, rule, packs, engine
- `report`: results to text
- `editor`: the language server; `start`: skeletons
- `commands`: the command line

What is imported from this package itself is the public contract: packs use these names and no others. They are loaded
when they are first asked for, so that `--version` imports nothing.
"""

from __future__ import annotations

TYPE_CHECKING = False
"""As of `typing`, whose import would be the longest part of an unchanged run."""

_HOMES = {
    "rigmint.words": (
        "Grade",
        "HEAD_AXES",
        "LENS_AXES",
        "NOBODY",
        "AUTOMATIC",
        "TRIGGER_AXES",
    ),
    "rigmint.physics.air_travel": (
        "AIR_EDITION",
        "APPROVED_WATT_HOURS",
        "FREE_WATT_HOURS",
        "MOST_APPROVED_SPARES",
        "MOST_FREE_SPARES",
        "BatteryClass",
        "classify_battery",
    ),
    "rigmint.rig.electric": ("Cell", "Port", "Role", "Window"),
    "rigmint.rig.device": (
        "Control",
        "Drive",
        "LensRing",
        "Mover",
        "PartNeed",
        "Pass",
        "Radio",
        "RadioChannel",
        "Requirement",
        "Setting",
        "SignalKind",
    ),
    "rigmint.rig.part": ("Part",),
    "rigmint.rig.place": ("end_place", "setting_place"),
    "rigmint.rig.rig": ("Item", "Lead", "Link", "PortRef", "Rig", "Setup"),
    "rigmint.study.blame": ("Blame", "Victim"),
    "rigmint.study.day": ("Day", "DayPacks"),
    "rigmint.study.dead_end": ("DeadEnd",),
    "rigmint.study.dial_speed": ("DialSpeed", "Speed"),
    "rigmint.study.drive": (
        "LEAST_TEETH",
        "MOST_TEETH",
        "Calibrates",
        "Calibration",
        "Direction",
        "RingDrive",
    ),
    "rigmint.study.following": ("Following", "FollowState"),
    "rigmint.study.tails": ("JointTails", "Windup"),
    "rigmint.study.hands": ("AxisHands", "Claim", "Hands", "Stopped"),
    "rigmint.study.paths": ("Way",),
    "rigmint.study.payload": ("Burden", "Carried", "Payloads"),
    "rigmint.study.riding": ("Riding",),
    "rigmint.rig.lead": ("Conductor", "LeadBody", "LeadEnd"),
    "rigmint.rig.choice": ("Choice", "When"),
    "rigmint.graph.pins": ("Mate",),
    "rigmint.study.conditions": ("Barred",),
    "rigmint.study.current_limits": ("CurrentLimit", "Limiter"),
    "rigmint.study.lead_worth": ("Missing",),
    "rigmint.study.lead_ohms": ("rate_conductor",),
    "rigmint.study.power": (
        "Point",
        "PointPower",
    ),
    "rigmint.study.remedies": ("LeadRemedy", "TapRemedy", "Trial"),
    "rigmint.study.returns": (
        "DeviceReturn",
        "SignalReturn",
    ),
    "rigmint.study.short_current": ("ShortCurrent",),
    "rigmint.study.surge": (
        "InnerFuse",
        "Surge",
    ),
    "rigmint.graph.signals": (
        "Connection",
        "Stop",
    ),
    "rigmint.physics.coax": ("compute_coax_loss",),
    "rigmint.physics.compare": ("exceeds",),
    "rigmint.physics.radio": ("compute_overlap",),
    "rigmint.graph.joined_contacts": (
        "JoinedContacts",
        "SignalContact",
    ),
    "rigmint.physics.rasters": ("find_bit_rate",),
    "rigmint.study.flow_stops": ("FlowStop",),
    "rigmint.study.flows": (
        "FlowArrival",
        "Problem",
        "Run",
        "Trouble",
    ),
    "rigmint.study.reach": ("LinkReach",),
    "rigmint.rig.connector": (
        "Connector",
        "Protocol",
        "Sex",
    ),
    "rigmint.study.misplug.burns": ("Harm", "HarmKind"),
    "rigmint.study.misplug.hazards": ("Hazard",),
    "rigmint.study.misplug.outcome": ("Misplug",),
    "rigmint.study.powering": ("Feed", "Powering", "RailFeed"),
    "rigmint.study.studies": ("NotKnown",),
    "rigmint.study.verdict": ("Judgement", "Verdict", "is_meant", "is_operated_remotely", "judge_axis"),
    "rigmint.study.worst_volts": ("PortVolts", "Reach", "SignalVolts", "WorstVolts"),
    "rigmint.lint.case": ("Case",),
    "rigmint.lint.changes": (
        "AddLead",
        "ChangePart",
        "FitRing",
        "JoinLink",
        "LeaveLink",
        "Mark",
        "MeetDistance",
        "MoveEnd",
        "NameWho",
        "PackSpares",
        "SetChannel",
        "SetFitting",
        "SetSetting",
        "SwapEnds",
        "SwitchOn",
        "TakeOutLead",
    ),
    "rigmint.lint.finding": ("Finding", "Fix", "Measured", "Unknown"),
    "rigmint.lint.packs": ("PACK_API", "hookimpl"),
    "rigmint.lint.rule": ("Parameter", "Rule"),
    "rigmint.lint.wording": (
        "say_amps",
        "say_degrees",
        "say_gauge",
        "say_kilograms",
        "say_list",
        "say_metres",
        "say_minutes",
        "say_seconds",
        "say_torque",
        "say_volts",
    ),
}
_HOME_OF = {name: home for home, names in _HOMES.items() for name in names}

__all__ = sorted(_HOME_OF)


def __getattr__(name: str) -> object:
    home = _HOME_OF.get(name)
    if home is None:
        msg = f"module 'rigmint' has no attribute {name!r}"
        raise AttributeError(msg)
    from importlib import import_module

    return getattr(import_module(home), name)


def __dir__() -> list[str]:
    return sorted([*globals(), *_HOME_OF])


if TYPE_CHECKING:
    from rigmint.graph.joined_contacts import JoinedContacts as JoinedContacts
    from rigmint.graph.joined_contacts import SignalContact as SignalContact
    from rigmint.graph.pins import Mate as Mate
    from rigmint.graph.signals import Connection as Connection
    from rigmint.graph.signals import Stop as Stop
    from rigmint.lint.case import Case as Case
    from rigmint.lint.changes import AddLead as AddLead
    from rigmint.lint.changes import ChangePart as ChangePart
    from rigmint.lint.changes import FitRing as FitRing
    from rigmint.lint.changes import JoinLink as JoinLink
    from rigmint.lint.changes import LeaveLink as LeaveLink
    from rigmint.lint.changes import Mark as Mark
    from rigmint.lint.changes import MeetDistance as MeetDistance
    from rigmint.lint.changes import MoveEnd as MoveEnd
    from rigmint.lint.changes import NameWho as NameWho
    from rigmint.lint.changes import PackSpares as PackSpares
    from rigmint.lint.changes import SetChannel as SetChannel
    from rigmint.lint.changes import SetFitting as SetFitting
    from rigmint.lint.changes import SetSetting as SetSetting
    from rigmint.lint.changes import SwapEnds as SwapEnds
    from rigmint.lint.changes import SwitchOn as SwitchOn
    from rigmint.lint.changes import TakeOutLead as TakeOutLead
    from rigmint.lint.finding import Finding as Finding
    from rigmint.lint.finding import Fix as Fix
    from rigmint.lint.finding import Measured as Measured
    from rigmint.lint.finding import Unknown as Unknown
    from rigmint.lint.packs import PACK_API as PACK_API
    from rigmint.lint.packs import hookimpl as hookimpl
    from rigmint.lint.rule import Parameter as Parameter
    from rigmint.lint.rule import Rule as Rule
    from rigmint.lint.wording import say_amps as say_amps
    from rigmint.lint.wording import say_degrees as say_degrees
    from rigmint.lint.wording import say_gauge as say_gauge
    from rigmint.lint.wording import say_kilograms as say_kilograms
    from rigmint.lint.wording import say_list as say_list
    from rigmint.lint.wording import say_metres as say_metres
    from rigmint.lint.wording import say_minutes as say_minutes
    from rigmint.lint.wording import say_seconds as say_seconds
    from rigmint.lint.wording import say_torque as say_torque
    from rigmint.lint.wording import say_volts as say_volts
    from rigmint.physics.air_travel import AIR_EDITION as AIR_EDITION
    from rigmint.physics.air_travel import APPROVED_WATT_HOURS as APPROVED_WATT_HOURS
    from rigmint.physics.air_travel import FREE_WATT_HOURS as FREE_WATT_HOURS
    from rigmint.physics.air_travel import MOST_APPROVED_SPARES as MOST_APPROVED_SPARES
    from rigmint.physics.air_travel import MOST_FREE_SPARES as MOST_FREE_SPARES
    from rigmint.physics.air_travel import BatteryClass as BatteryClass
    from rigmint.physics.air_travel import classify_battery as classify_battery
    from rigmint.physics.coax import compute_coax_loss as compute_coax_loss
    from rigmint.physics.compare import exceeds as exceeds
    from rigmint.physics.radio import compute_overlap as compute_overlap
    from rigmint.physics.rasters import find_bit_rate as find_bit_rate
    from rigmint.rig.choice import Choice as Choice
    from rigmint.rig.choice import When as When
    from rigmint.rig.connector import Connector as Connector
    from rigmint.rig.connector import Protocol as Protocol
    from rigmint.rig.connector import Sex as Sex
    from rigmint.rig.device import Control as Control
    from rigmint.rig.device import Drive as Drive
    from rigmint.rig.device import LensRing as LensRing
    from rigmint.rig.device import Mover as Mover
    from rigmint.rig.device import PartNeed as PartNeed
    from rigmint.rig.device import Pass as Pass
    from rigmint.rig.device import Radio as Radio
    from rigmint.rig.device import RadioChannel as RadioChannel
    from rigmint.rig.device import Requirement as Requirement
    from rigmint.rig.device import Setting as Setting
    from rigmint.rig.device import SignalKind as SignalKind
    from rigmint.rig.electric import Cell as Cell
    from rigmint.rig.electric import Port as Port
    from rigmint.rig.electric import Role as Role
    from rigmint.rig.electric import Window as Window
    from rigmint.rig.lead import Conductor as Conductor
    from rigmint.rig.lead import LeadBody as LeadBody
    from rigmint.rig.lead import LeadEnd as LeadEnd
    from rigmint.rig.part import Part as Part
    from rigmint.rig.place import end_place as end_place
    from rigmint.rig.place import setting_place as setting_place
    from rigmint.rig.rig import Item as Item
    from rigmint.rig.rig import Lead as Lead
    from rigmint.rig.rig import Link as Link
    from rigmint.rig.rig import PortRef as PortRef
    from rigmint.rig.rig import Rig as Rig
    from rigmint.rig.rig import Setup as Setup
    from rigmint.study.blame import Blame as Blame
    from rigmint.study.blame import Victim as Victim
    from rigmint.study.conditions import Barred as Barred
    from rigmint.study.current_limits import CurrentLimit as CurrentLimit
    from rigmint.study.current_limits import Limiter as Limiter
    from rigmint.study.day import Day as Day
    from rigmint.study.day import DayPacks as DayPacks
    from rigmint.study.dead_end import DeadEnd as DeadEnd
    from rigmint.study.dial_speed import DialSpeed as DialSpeed
    from rigmint.study.dial_speed import Speed as Speed
    from rigmint.study.drive import LEAST_TEETH as LEAST_TEETH
    from rigmint.study.drive import MOST_TEETH as MOST_TEETH
    from rigmint.study.drive import Calibrates as Calibrates
    from rigmint.study.drive import Calibration as Calibration
    from rigmint.study.drive import Direction as Direction
    from rigmint.study.drive import RingDrive as RingDrive
    from rigmint.study.flow_stops import FlowStop as FlowStop
    from rigmint.study.flows import FlowArrival as FlowArrival
    from rigmint.study.flows import Problem as Problem
    from rigmint.study.flows import Run as Run
    from rigmint.study.flows import Trouble as Trouble
    from rigmint.study.following import Following as Following
    from rigmint.study.following import FollowState as FollowState
    from rigmint.study.hands import AxisHands as AxisHands
    from rigmint.study.hands import Claim as Claim
    from rigmint.study.hands import Hands as Hands
    from rigmint.study.hands import Stopped as Stopped
    from rigmint.study.lead_ohms import rate_conductor as rate_conductor
    from rigmint.study.lead_worth import Missing as Missing
    from rigmint.study.misplug.burns import Harm as Harm
    from rigmint.study.misplug.burns import HarmKind as HarmKind
    from rigmint.study.misplug.hazards import Hazard as Hazard
    from rigmint.study.misplug.outcome import Misplug as Misplug
    from rigmint.study.paths import Way as Way
    from rigmint.study.payload import Burden as Burden
    from rigmint.study.payload import Carried as Carried
    from rigmint.study.payload import Payloads as Payloads
    from rigmint.study.power import Point as Point
    from rigmint.study.power import PointPower as PointPower
    from rigmint.study.powering import Feed as Feed
    from rigmint.study.powering import Powering as Powering
    from rigmint.study.powering import RailFeed as RailFeed
    from rigmint.study.reach import LinkReach as LinkReach
    from rigmint.study.remedies import LeadRemedy as LeadRemedy
    from rigmint.study.remedies import TapRemedy as TapRemedy
    from rigmint.study.remedies import Trial as Trial
    from rigmint.study.returns import DeviceReturn as DeviceReturn
    from rigmint.study.returns import SignalReturn as SignalReturn
    from rigmint.study.riding import Riding as Riding
    from rigmint.study.short_current import ShortCurrent as ShortCurrent
    from rigmint.study.studies import NotKnown as NotKnown
    from rigmint.study.surge import InnerFuse as InnerFuse
    from rigmint.study.surge import Surge as Surge
    from rigmint.study.tails import JointTails as JointTails
    from rigmint.study.tails import Windup as Windup
    from rigmint.study.verdict import Judgement as Judgement
    from rigmint.study.verdict import Verdict as Verdict
    from rigmint.study.verdict import is_meant as is_meant
    from rigmint.study.verdict import is_operated_remotely as is_operated_remotely
    from rigmint.study.verdict import judge_axis as judge_axis
    from rigmint.study.worst_volts import PortVolts as PortVolts
    from rigmint.study.worst_volts import Reach as Reach
    from rigmint.study.worst_volts import SignalVolts as SignalVolts
    from rigmint.study.worst_volts import WorstVolts as WorstVolts
    from rigmint.words import AUTOMATIC as AUTOMATIC
    from rigmint.words import HEAD_AXES as HEAD_AXES
    from rigmint.words import LENS_AXES as LENS_AXES
    from rigmint.words import NOBODY as NOBODY
    from rigmint.words import TRIGGER_AXES as TRIGGER_AXES
    from rigmint.words import Grade as Grade
