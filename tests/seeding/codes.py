"""Which codes tell which harm, and which may speak in their place."""

from __future__ import annotations

from dataclasses import dataclass

from tests.seeding.judge.harm import UNSOLVED


@dataclass(frozen=True, slots=True)
class Told:
    """`own`: codes that name the harm; `instead`: codes of worse or nearer findings that silence them by the table of
    precedence. A name that ends in `:` stands for the family. `concern`: for the table."""

    concern: str
    own: tuple[str, ...]
    instead: tuple[str, ...] = ()


_FIT = ("fit:no-mate", "fit:port-taken", "fit:wrong-way-round", "fit:wrong-port", "fit:no-wire")
_POLARITY = ("polarity:shorted", "polarity:reversed", "polarity:signal", "polarity:no-return")
CODES = {
    "shorted": Told("electrical", ("polarity:shorted",)),
    "reversed": Told("electrical", ("polarity:reversed",), ("polarity:shorted",)),
    "signal": Told("electrical", ("polarity:signal",), ("polarity:shorted", "polarity:reversed")),
    "no-return": Told("electrical", ("polarity:no-return",), (*_POLARITY, *_FIT)),
    "over": Told("electrical", ("voltage:over",), _POLARITY),
    "above": Told("electrical", ("voltage:above-window",), (*_POLARITY, "voltage:")),
    "shock": Told("electrical", ("voltage:shock",)),
    "unpowered": Told("electrical", ("voltage:unpowered",), (*_POLARITY, *_FIT, "voltage:over", "voltage:collapse")),
    "under": Told("electrical", ("voltage:under", "voltage:collapse"), ("voltage:", *_POLARITY)),
    UNSOLVED: Told("electrical", ("voltage:collapse", "voltage:under", "current:over", "ground:through-shield")),
    "amps": Told("electrical", ("current:over",), ("current:", "voltage:", "ground:through-shield", *_POLARITY)),
    "backfeed": Told("electrical", ("backfeed:into-output",), (*_POLARITY, "voltage:over", "backfeed:")),
    "tied": Told("electrical", ("backfeed:tied-sources",), (*_POLARITY, "voltage:over")),
    "shield": Told("electrical", ("ground:through-shield",), (*_POLARITY, "ground:", "voltage:collapse")),
    "two": Told("ownership", ("owner:two",), ("owner:", "follow:on")),
    "mixed": Told("ownership", ("owner:mixed",), ("owner:", "follow:on")),
    "unintended": Told("ownership", ("owner:unintended",), ("owner:", "follow:on")),
    "wrong-ring": Told("ownership", ("owner:wrong-ring",), ("owner:",)),
    "nobody": Told("ownership", ("owner:nobody",), ("owner:", "radio:too-many", "record:kind", "signal:level", *_FIT)),
    "follow": Told("ownership", ("follow:on",), ("owner:",)),
    "no-stop": Told("ownership", ("owner:no-stop",)),
    "picture": Told("picture", ("picture:nobody",), ("radio:too-many", *_FIT)),
    "format": Told("picture", ("picture:not-accepted", "picture:too-fast"), ("picture:", *_FIT)),
    "flow": Told("picture", ("signal:nobody",), _FIT),
    "no-mate": Told("plugging", ("fit:no-mate",)),
    "taken": Told("plugging", ("fit:port-taken",)),
    "wrong-port": Told("plugging", ("fit:wrong-port", "fit:wrong-way-round"), ("fit:", "signal:level")),
    "no-wire": Told("plugging", ("fit:no-wire",), ("fit:",)),
    "level": Told("plugging", ("signal:level",)),
    "record-kind": Told("plugging", ("record:kind",), ("fit:wrong-way-round", "fit:wrong-port", "signal:level")),
    "too-far": Told("radio", ("radio:out-of-reach",)),
    "peers": Told("radio", ("radio:too-many",)),
    "slot": Told("radio", ("radio:same-slot",), ("radio:too-many",)),
    "loss": Told("radio", ("radio:loss",)),
    "mesh": Told("mechanics", ("drive:no-mesh",)),
    "weak": Told("mechanics", ("drive:weak",)),
    "stops": Told("mechanics", ("drive:no-stops",)),
    "strong": Told("mechanics", ("drive:too-strong",)),
    "payload": Told("mechanics", ("payload:over",)),
    "bond": Told("mechanics", ("payload:no-bond",)),
    "next-to": Told("settings", ("fit:chain-order",), _FIT),
    "firmware": Told("settings", ("fit:firmware",)),
    "required": Told("settings", ("fit:required",)),
}
UNJUDGED = {
    "current:short": "prospective short currents and what melts or blows are not judged here",
    "runtime:swap-drops": "no sound rig names what must stay up",
    "ground:two-earths": "earth loops are not judged here",
}
"""Codes at `fight` or worse whose findings are neither confirmed nor refuted."""


def stands_for(what: str, code: str) -> bool:
    """Whether a finding of the code may speak in the place of one that names the harm."""
    told = CODES[what]
    return any(code.startswith(one) if one.endswith(":") else code == one for one in told.instead)
