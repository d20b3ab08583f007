"""What limits current: each limit with the amps against it, worked out by hand on loads of constant current."""

from __future__ import annotations

import pytest

from rigmint.study.current_limits import CurrentLimit, Limiter, list_current_limits
from rigmint.study.power import Point
from tests.builders import make_studies

PORT = "connector: 0b-2, pins: {1: plus, 2: minus}"
PARTS = f"""
house/pack:
  kind: battery
  cells: {{pack: {{volts: 12.0 to 16.8 V, nominal: 14.4 V, max: 10 A}}}}
  ports: {{out: {{{PORT}, max: 8 A}}, mount: {{{PORT}, max: 6 A}}}}
house/two-amps: {{kind: monitor, rails: {{main: {{load: 2 A}}}}, ports: {{dc: {{{PORT}}}}}}}
house/three-amps: {{kind: monitor, rails: {{main: {{load: 3 A}}}}, ports: {{dc: {{{PORT}}}}}}}
house/fork:
  kind: lead
  ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}, c: {{connector: 0b-2}}}}
  conductors:
    - {{from: a.1, to: b.1, gauge: 20 AWG, fuse: 4 A}}
    - {{from: a.1, to: c.1, gauge: 20 AWG}}
    - {{from: b.2, to: a.2, gauge: 20 AWG}}
    - {{from: c.2, to: a.2, gauge: 20 AWG}}
"""
FORK = "leads: {P1: {part: house/fork, ends: {a: pack.out, b: two.dc, c: three.dc}}}\n"
RIG = f"kit: {{pack: house/pack, two: house/two-amps, three: house/three-amps}}\n{FORK}"


def list_limits(rig: str) -> list[CurrentLimit]:
    """The limits of a rig in its only setup."""
    studies, setup = make_studies(rig, PARTS)
    return list(list_current_limits(studies.rig, setup, studies.network(setup).sources, studies.power(setup)))


@pytest.mark.parametrize(
    ("limiter", "at", "amps"),
    [
        (Limiter.CONDUCTOR, "P1", [2.0, 2.0, 3.0, 3.0]),
        (Limiter.FUSE, "P1", [2.0]),
        # both conductors of a pole meet in one contact at the battery: 2 + 3
        (Limiter.CONTACT, "pack.out", [5.0, 5.0]),
        (Limiter.CONTACT, "two.dc", [2.0, 2.0]),
        (Limiter.PORT, "pack.out", [5.0]),
        (Limiter.SOURCE, "pack.pack", [5.0]),
    ],
)
def test_amps_against_each_limit(limiter: Limiter, at: str, amps: list[float]) -> None:
    found = [limit.amps[Point.TYPICAL] for limit in list_limits(RIG) if (limit.limiter, limit.at) == (limiter, at)]

    assert sorted(found) == pytest.approx(amps, abs=1e-6)


def test_a_docked_port_has_its_limit() -> None:
    docked = "kit: {pack: house/pack, two: house/two-amps}\ndocks: [pack.mount > two.dc]\n"

    found = {limit.at: limit for limit in list_limits(docked) if limit.limiter is Limiter.PORT}

    assert found["pack.mount"].find_share(Point.TYPICAL) == pytest.approx(2.0 / 6.0)


def test_a_source_that_is_off_limits_nothing() -> None:
    setup = "setups: {dark: {off: [pack]}}\n"

    assert not [limit for limit in list_limits(RIG + setup) if limit.limiter is Limiter.SOURCE]
