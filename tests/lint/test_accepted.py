"""Acceptances: what they match, when they end, and what is said of those that match nothing."""

from __future__ import annotations

import datetime

import pytest

from rigmint.lint.accepted import Signing, sign_findings
from rigmint.lint.finding import Measured, MergedFinding
from rigmint.rig.house import House
from rigmint.rig.quantity import UNITS, Quantity
from rigmint.rig.rig import Acceptance, Rig
from rigmint.words import Grade
from tests.builders import make_rig
from tests.lint.rules import make_finding

TODAY = datetime.date(2026, 5, 2)
PARTS = """
house/motor: {kind: lens_motor, ports: {bus_1: {connector: 0b-4, sex: socket}, bus_2: {connector: 0b-4, sex: socket}}}
house/cord: {kind: lead, ends: {a: {connector: 0b-4}, b: {connector: 0b-4}}, conductors: straight}
"""


def make_acceptance(
    at: str,
    code: str = "house:a",
    *,
    setup: str | None = None,
    until: str | None = None,
    up_to: Quantity | None = None,
    place: str = "accepted.0",
) -> Acceptance:
    """An entry signed by the prep lead."""
    return Acceptance(code, at, setup, "spare is swapped", "prep lead", until, up_to, place)


@pytest.fixture
def rig() -> Rig:
    """A motor on a lead, in two setups."""
    return make_rig(
        "kit: {motor_f: house/motor}\nleads: {P1: {part: house/cord, from: motor_f.bus_1, to: loose}}\n"
        "setups: {two_up: {}, solo: {}}",
        PARTS,
    )


def is_signed(rig: Rig, entry: Acceptance, merged: MergedFinding, *, by_house: bool = False) -> bool:
    """Whether an entry of the rig or of the house signs for a finding."""
    own = () if by_house else (entry,)
    house = House(accepted=(entry,) if by_house else ())
    (signed,) = sign_findings([merged], replace_accepted(rig, own), house, TODAY, {"house:a"}).signed
    return signed.accepted is not None


def replace_accepted(rig: Rig, entries: tuple[Acceptance, ...]) -> Rig:
    """The rig with these entries."""
    from dataclasses import replace

    return replace(rig, accepted=entries)


FINDING = MergedFinding(make_finding("house:a", "motor_f.bus_1", "P1", Grade.DEAD), ("two_up", "solo"))


@pytest.mark.parametrize(
    ("at", "code", "setup", "matches"),
    [
        ("motor_f.bus_1", "house:a", None, True),
        ("P1", "house:a", None, True),
        ("motor_f.bus_2", "house:a", None, False),
        ("motor_f.*", "house:a", None, True),
        ("*", "house:a", None, True),
        ("motor_F.bus_1", "house:a", None, False),
        ("motor_f.bus_1", "house:b", None, False),
        ("house/motor.bus_1", "house:a", None, False),
    ],
)
def test_what_an_entry_of_a_rig_matches(rig: Rig, at: str, code: str, setup: str | None, matches: bool) -> None:
    assert is_signed(rig, make_acceptance(at, code, setup=setup), FINDING) is matches


def test_an_entry_for_one_of_several_setups_leaves_the_others_open(rig: Rig) -> None:
    entry = make_acceptance("P1", setup="solo")
    signing = sign_findings([FINDING], replace_accepted(rig, (entry,)), House(), TODAY, {"house:a"})

    assert [(one.merged.setups, one.accepted is not None) for one in signing.signed] == [
        (("two_up",), False),
        (("solo",), True),
    ]
    assert signing.own == ()


def test_an_entry_for_one_setup(rig: Rig) -> None:
    only = MergedFinding(FINDING.finding, ("solo",))

    assert is_signed(rig, make_acceptance("P1", setup="solo"), only)
    assert not is_signed(rig, make_acceptance("P1", setup="two_up"), only)


@pytest.mark.parametrize(
    ("at", "matches"),
    [
        ("house/motor.bus_1", True),
        ("house/motor.bus_*", True),
        ("house/*.bus_1", True),
        ("house/motor.bus_2", False),
        ("house/motor", False),
        ("house/cord", True),
        ("motor_f.bus_1", True),
    ],
)
def test_an_entry_of_a_house_matches_by_part_and_pattern(rig: Rig, at: str, matches: bool) -> None:
    assert is_signed(rig, make_acceptance(at, place="library"), FINDING, by_house=True) is matches


@pytest.mark.parametrize(
    ("grade", "until", "holds"),
    [
        (Grade.DEAD, None, True),
        (Grade.DEAD, "2026-05-02", True),
        (Grade.DEAD, "2026-05-01", False),
        (Grade.DEAD, "2027-01-01", True),
        # what burns or hurts is signed for only with an expiry
        (Grade.BURN, None, False),
        (Grade.HURT, None, False),
        (Grade.BURN, "2027-01-01", True),
    ],
)
def test_how_long_an_entry_holds(rig: Rig, grade: Grade, until: str | None, holds: bool) -> None:
    merged = MergedFinding(make_finding("house:a", "motor_f", grade=grade), ("two_up", "solo"))

    assert is_signed(rig, make_acceptance("motor_f", until=until), merged) is holds


@pytest.mark.parametrize(
    ("value", "limit", "up_to", "holds"),
    [
        # 50 min where 60 are due, signed for down to 45
        (3000.0, 3600.0, 2700.0, True),
        (2600.0, 3600.0, 2700.0, False),
        # 19 V where 18 are survived, signed for up to 19.5
        (19.0, 18.0, 19.5, True),
        (20.0, 18.0, 19.5, False),
        (18.5, (11.0, 17.0), 19.0, True),
        (19.5, (11.0, 17.0), 19.0, False),
        (10.5, (11.0, 17.0), 10.0, True),
        (9.5, (11.0, 17.0), 10.0, False),
        (9.5, None, 10.0, True),
    ],
)
def test_a_finding_that_has_grown_is_open_again(
    rig: Rig, value: float, limit: float | tuple[float, float] | None, up_to: float, holds: bool
) -> None:
    finding = make_finding("house:a", "motor_f", measured=Measured(value, limit, "V"))
    entry = make_acceptance("motor_f", up_to=Quantity("voltage", up_to))

    assert is_signed(rig, entry, MergedFinding(finding, ("two_up", "solo"))) is holds


def judge(rig: Rig, *entries: Acceptance, codes: tuple[str, ...] = ("house:a",)) -> list[tuple[str, Grade, str, str]]:
    """The core's own findings: code, grade, where, cause."""
    own = sign_findings([FINDING], replace_accepted(rig, entries), House(), TODAY, set(codes)).own
    return [(m.finding.code, m.finding.grade, m.finding.at, m.finding.cause) for m in own]


@pytest.mark.parametrize(
    ("entry", "found"),
    [
        (make_acceptance("P1"), []),
        (make_acceptance("P1", until="2026-05-01"), [("accepted:expired", Grade.THIN, "P1", "accepted.0")]),
        (make_acceptance("P9"), [("accepted:stale", Grade.TIDY, "P9", "accepted.0")]),
        (make_acceptance("P9", until="2026-05-01"), [("accepted:stale", Grade.TIDY, "P9", "accepted.0")]),
        (make_acceptance("P9", "other:a"), []),  # of a pack that did not run nothing is said
    ],
)
def test_entries_that_are_stale_or_expired(
    rig: Rig, entry: Acceptance, found: list[tuple[str, Grade, str, str]]
) -> None:
    assert judge(rig, entry) == found


def test_an_entry_that_holds_is_taken_before_one_that_has_expired(rig: Rig) -> None:
    old, new = make_acceptance("P1", until="2026-05-01"), make_acceptance("P1", until="2027-01-01", place="accepted.1")
    (signed,) = sign_findings([FINDING], replace_accepted(rig, (old, new)), House(), TODAY, {"house:a"}).signed

    assert signed.accepted is not None
    assert signed.accepted.until == "2027-01-01"


def test_two_entries_for_one_finding_are_neither_stale(rig: Rig) -> None:
    assert judge(rig, make_acceptance("P1"), make_acceptance("motor_f.*", place="accepted.1")) == []


def test_what_a_rig_file_signs_for() -> None:
    rig = make_rig(
        "kit: {motor_f: house/motor}\n"
        "accepted: [{code: runtime:short, at: motor_f, why: x, by: y, until: 2027-03-01, up_to: 45 min}]",
        PARTS,
    )

    assert rig.accepted == (
        Acceptance(
            "runtime:short", "motor_f", None, "x", "y", "2027-03-01", Quantity("duration", 2700.0), "accepted.0"
        ),
    )


@pytest.mark.parametrize(
    ("value", "limit", "low_is_bad", "up_to", "holds"),
    [
        # 1.7 A of 2 A, thin from 80 % on, signed for up to 1.9 A: more is worse, on this side of the limit too
        (1.7, 2.0, False, 1.9, True),
        (1.95, 2.0, False, 1.9, False),
        # 11.3 V where 11 V are needed, thin, signed for down to 11.1 V: less is worse
        (11.3, 11.0, True, 11.1, True),
        (11.05, 11.0, True, 11.1, False),
    ],
)
def test_a_rule_that_speaks_before_its_limit_says_which_way_is_worse(
    rig: Rig, value: float, limit: float, low_is_bad: bool, up_to: float, holds: bool
) -> None:
    finding = make_finding("house:a", "motor_f", measured=Measured(value, limit, "V", low_is_bad))
    entry = make_acceptance("motor_f", up_to=Quantity("voltage", up_to))

    assert is_signed(rig, entry, MergedFinding(finding, ("two_up", "solo"))) is holds


def sign(rig: Rig, entry: Acceptance, measured: Measured | None, grade: Grade = Grade.DEAD) -> Signing:
    """What becomes of one finding with one entry."""
    merged = MergedFinding(make_finding("house:a", "motor_f", grade=grade, measured=measured), ("two_up", "solo"))
    return sign_findings([merged], replace_accepted(rig, (entry,)), House(), TODAY, {"house:a"})


def test_a_finding_that_has_grown_says_what_was_signed_for(rig: Rig) -> None:
    entry = make_acceptance("motor_f", up_to=Quantity("duration", 2700.0))
    (signed,) = sign(rig, entry, Measured(2600.0, 3600.0, "s")).signed

    assert signed.merged.finding.says == "house:a at motor_f prep lead signed for it up to 45 min."


@pytest.mark.parametrize(
    ("unit", "says"),
    [
        ("s", "`up_to` of house:a at motor_f is given as a voltage, and it is measured in s"),
        ("hands", "`up_to` of house:a at motor_f is given as a voltage, and it counts hands: leave `up_to` out"),
    ],
)
def test_an_up_to_of_another_kind_is_a_fault_of_the_file(rig: Rig, unit: str, says: str) -> None:
    signing = sign(rig, make_acceptance("motor_f", up_to=Quantity("voltage", 5.0)), Measured(3.0, 4.0, unit))

    assert [(one.code, one.file, one.says) for one in signing.faults] == [("file:wrong-unit", rig.file, says)]
    assert [one.accepted for one in signing.signed] == [None]


@pytest.mark.parametrize("unit", ["V", "A", "s", "m", "ohm", "W", "J", "Hz", "bit/s", "dB"])
def test_what_is_measured_in_a_unit_can_be_signed_for_in_it(rig: Rig, unit: str) -> None:
    kinds = [kind for kind, units in UNITS.items() if unit in units and units[unit].factor == 1.0]

    assert kinds
    assert all(
        sign(rig, make_acceptance("motor_f", up_to=Quantity(kind, 5.0)), Measured(4.5, 4.0, unit)).faults == ()
        for kind in kinds
    )


def test_an_up_to_without_anything_measured_does_not_hold_and_says_so(rig: Rig) -> None:
    signing = sign(rig, make_acceptance("motor_f", up_to=Quantity("voltage", 5.0)), None)

    assert [(one.finding.code, one.finding.grade) for one in signing.own] == [("accepted:expired", Grade.THIN)]
    assert "leave `up_to` out" in signing.own[0].finding.says


def test_what_burns_and_is_signed_for_without_a_day_says_why_it_is_open(rig: Rig) -> None:
    signing = sign(rig, make_acceptance("motor_f"), None, Grade.BURN)

    assert [one.accepted for one in signing.signed] == [None]
    assert [(one.finding.code, one.finding.grade) for one in signing.own] == [("accepted:expired", Grade.THIN)]
    assert "signed for only `until` a day" in signing.own[0].finding.says
