"""Power for a person."""

from __future__ import annotations

import re
from dataclasses import replace
from types import MappingProxyType

import pytest

from rigmint.report.power import render_power
from rigmint.report.power_setup import PowerReport
from rigmint.report.style import Style
from tests.report.power_rigs import SINGLE, TWO_SETUPS, make_report
from tests.report.results import HOSTILE

COLOUR = re.compile("\x1b\\[[0-9;]*m")


def render(rig: str, style: Style | None = None) -> str:
    """The text of a rig in all its setups."""
    return render_power(make_report(rig), style or Style())


def find_line(text: str, start: str) -> str:
    """The first line that begins so, indent apart."""
    return next(line.strip() for line in text.splitlines() if line.strip().startswith(start))


def unwrap(text: str) -> str:
    """On one line, so that a sentence is found wherever it is wrapped."""
    return " ".join(text.split())


def test_a_setup_in_full() -> None:
    assert render_power(make_report(TWO_SETUPS, ["day"]), Style()) == (
        """\
test.rig.yaml   power, 1 setup

day                      full typical  change    in its window at change      amps  lead
battery.pack             16.5    14.1    13.2   48 W, 67 W at change           5.1  of 10 A
  battery.out            16.5    14.1    13.2                                  5.1
    breakout.in          16.4    13.9    13.0       6 [---o--------] 34        5.1  P1
      breakout.out_1     16.4    13.9    13.0                                  4.5
        camera.dc_in     16.0    13.4    12.3      11 [--o---------] 17        4.5  P2
      breakout.out_2     16.4    13.9    13.0                                  0.6
        lamp.dc_in       16.3!   13.8!   12.9!     14 o too low      16        0.6  P3

lead  conductors     drop   carries  of
P2    20 AWG, 2 m    0.7 V  4.5 A    64 % of 7.0 A, camera.dc_in
P1    20 AWG, 50 cm  0.3 V  5.1 A    68 % of 7.5 A, 20 AWG
1 more lead with a drop of less than 0.1 V.

Outside the window: lamp.dc_in too high at full; lamp.dc_in too low at typical and change.
Without power: spare.
Inputs that carry nothing, in V: lamp.dc_2 12.9, spare.dc_in 0.0.
At change (bars, amps, drops): 15 % left in the batteries, with the peaks of camera, lamp.
Margin to collapse, in times the loads: 5.4 at full, 4.0 at typical, 2.3 at change.
Runtime at typical load, batteries aged to 85 %: 1 h 10 min, when lamp.dc_in leaves its window; then
  left: battery 33 %. The job asks for 1 h.
Change when camera.dc_in shows 13.6 V at typical load.

5 figures assumed (~): lamp main peak, spare.dc_in works, spare main peak, P3 conductors, P3 length.
No fault found is no proof: meter the polarity and voltage of each power lead before it is first
plugged in.
Follow the makers' manuals. Lithium batteries, overhead and vehicle rigs, moving heads and radio
transmitters fall under local codes and qualified people.
"""
    )


def test_setups_stand_in_the_order_of_the_file_and_say_what_is_off() -> None:
    day, dusk = render(TWO_SETUPS).split("\ndusk ")

    assert "\nday " in day
    assert "Off: lamp." not in day
    assert "\nOff: lamp.\n" in dusk
    assert "lamp.dc_in" not in dusk
    assert "\nRuntime at typical load, batteries aged to 85 %: 1 h 40 min, when battery is changed." in dusk


def test_bars_are_drawn_with_lines_where_they_print() -> None:
    drawn, plain = (render(TWO_SETUPS, Style(is_ascii=is_ascii)) for is_ascii in (False, True))

    assert "6 ├───●────────┤ 34" in drawn
    assert plain.isascii()
    assert drawn.translate(str.maketrans("├─●┤", "[-o]")) == plain


def test_figures_that_are_assumed_carry_a_tilde() -> None:
    rig = "kit: {battery: house/pack, lamp: house/plain}\nleads: {P1: {from: battery.out, to: lamp.dc_in, length: 9 m}}"
    text = render(rig)

    assert " ~11 [" in text
    assert "] ~17 " in text
    assert find_line(text, "P1 ").startswith("P1    ~20 AWG, 9 m  ")
    assert "4 figures assumed (~): lamp.dc_in works, lamp main peak, P1 conductors" not in text
    assert "3 figures assumed (~): lamp.dc_in works, lamp main peak, P1 conductors.\n" in text


def test_a_port_that_is_fed_reversed_is_named_so() -> None:
    rig = """
kit: {battery: house/pack, camera: house/camera}
leads: {P1: {part: house/crossed, from: battery.out, to: camera.dc_in}}
"""
    text = render(rig)

    assert "This wiring burns something: `rigmint check` says what." in text
    assert "camera.dc_in reversed" in text
    assert "Without power" not in text


LIMITED = """
kit: {battery: house/pack, reg: house/regulator, stick: house/stick}
leads: {P1: {part: house/lead, from: battery.out, to: reg.in}, P2: {part: house/lead, from: reg.out, to: stick.dc_in}}
"""


def test_a_regulator_at_its_limit_and_what_it_starves() -> None:
    text = render(LIMITED)
    stick = find_line(text, "stick.dc_in")  # 8 W at 4 V is 2 ohm, which 1 A leaves at 2 V

    assert "reg is at the limit of its regulator, 1.0 A at 5.0 V.\n" in text
    assert "Outside the window: stick.dc_in too low.\n" in text
    assert re.fullmatch(r"stick\.dc_in +2\.0! +2\.0! +2\.0! +4 o too low +5\.5 +1\.0 +P2", stick)


COLLAPSING = """
kit: {battery: house/pack, camera: house/camera}
leads: {P1: {part: house/lead, from: battery.out, to: camera.dc_in, length: 40 m}}
"""
"""2.838 ohm in all, so that E2 / 4R is 24.9 W at 16.8 V and 18.3 W at 14.4 V, of 40 W."""


def test_a_collapse_is_said_first_with_how_much_it_carries() -> None:
    text = render(COLLAPSING)

    assert re.search(
        r"\n\nThe supply collapses at full: it carries 62 % of its loads; camera gives way first\.\n"
        r"The supply collapses at typical: it carries 46 % of its loads; camera gives way first\.\n",
        text,
    )
    assert "Margin to collapse" not in text


@pytest.mark.parametrize(
    ("battery", "length", "words"),
    [
        (
            "house/untripped",
            "50 cm",
            "A short at the far end of P1 draws about 117 A from battery.pack, which does not trip; the lead melts"
            " from about 59 A.",
        ),
        ("house/pack", "50 cm", None),  # it trips at 15 A
        ("house/pack", "40 m", None),  # 5.9 A: it does not trip, and 20 AWG carries 7.5 A
        (
            "house/pack",
            "17 m",
            "A short at the far end of P1 draws about 13 A from battery.pack, which trips only at 15.0 A; the lead"
            " melts from about 59 A.",
        ),
        (
            "house/unknown",
            "50 cm",
            "A short at the far end of P1 draws about 136 A from battery.pack, of which no file says whether it trips;"
            " the lead melts from about 59 A.",
        ),
    ],
)
def test_a_short_where_nothing_stops_it(battery: str, length: str, words: str | None) -> None:
    """16.8 V over the pack, two contacts and both wires; 20 AWG melts at 80 x 0.812^1.5 A (Preece, from memory)."""
    rig = f"""
kit: {{battery: {battery}, camera: house/camera}}
leads: {{P1: {{part: house/lead, from: battery.out, to: camera.dc_in, length: {length}}}}}
"""
    text = unwrap(render(rig))

    assert ("A short" in text) is (words is not None)
    assert words is None or words in text


TIED = """
kit: {one: house/pack, two: house/pack, breakout: house/breakout, camera: house/camera}
docks: [one.out > breakout.in, two.out > breakout.out_1]
leads: {P1: {part: house/lead, from: breakout.out_2, to: camera.dc_in}}
"""


def test_what_two_sources_feed_stands_under_the_first() -> None:
    lines = [line.split() for line in render(TIED).splitlines()]
    tree = [words[0] for words in lines[3 : lines.index([], 3)]]

    assert tree == [
        *("one.pack", "one.out", "breakout.in", "breakout.out_2", "camera.dc_in"),
        *("two.pack", "two.out", "breakout.out_1"),
    ]


def test_a_port_on_which_a_second_source_arrives_says_that_it_stands_above() -> None:
    rig = """
kit: {one: house/pack, two: house/pack, camera: house/camera}
leads: {P1: {part: house/lead, from: one.out, to: camera.dc_in}, P2: {part: house/lead, from: two.out, to: camera.dc_in}}
"""
    lines = [line.strip() for line in render(rig).splitlines() if "camera.dc_in " in line]

    assert [line.split()[-1] for line in lines[:1]] == ["P1"]
    assert lines[1].endswith("above, fed from here too")


def test_rigs_without_sources_or_without_leads() -> None:
    assert "\nas_wired: no source of power is here.\n" in render("kit: {camera: house/camera}")
    assert "lead  conductors" not in render("kit: {battery: house/pack}")


def test_a_source_over_its_limit_says_so() -> None:
    parts = "house/hot: {kind: light, rails: {main: {load: 200 W}}, ports: {dc_in: {connector: 0b-2, pins: {1: plus, 2: minus}, works: 10 to 17 V}}}\n"
    rig = (
        "kit: {battery: house/pack, hot: house/hot}\nleads: {P1: {part: house/lead, from: battery.out, to: hot.dc_in}}"
    )
    text = render_power(make_report(rig, parts=parts), Style(colour=True))

    assert find_line(COLOUR.sub("", text), "battery.pack").endswith("of 10 A: over")
    assert "\x1b[31mof 10 A: over\x1b[0m" in text
    assert "over: " in find_line(COLOUR.sub("", text), "P1 ")


@pytest.mark.parametrize(
    ("fuse", "words"), [("", "60 % of 7.0 A, camera.dc_in"), (", fuse: 5 A", "84 % of 5.0 A, its fuse")]
)
def test_the_limit_that_is_used_most_is_named(fuse: str, words: str) -> None:
    rig = f"""
kit: {{battery: house/pack, camera: house/camera}}
leads:
  P1:
    from: battery.out
    to: camera.dc_in
    lead:
      ends: {{a: {{connector: 0b-2}}, b: {{connector: 0b-2}}}}
      conductors: [{{from: a.1, to: b.1, gauge: 20 AWG{fuse}}}, {{from: a.2, to: b.2, gauge: 20 AWG}}]
      length: 50 cm
"""

    assert find_line(render(rig), "P1 ").endswith(words)


def chain(count: int) -> str:
    """Breakouts one behind the other, and a camera at the end."""
    kit = ", ".join(f"breakout_{index}: house/breakout" for index in range(count))
    leads = ["P0: {part: house/lead, from: battery.out, to: breakout_0.in}"]
    leads += [
        f"P{index}: {{part: house/lead, from: breakout_{index - 1}.out_1, to: breakout_{index}.in}}"
        for index in range(1, count)
    ]
    leads.append(f"CAM: {{part: house/lead, from: breakout_{count - 1}.out_1, to: camera.dc_in}}")
    return f"kit: {{battery: house/pack, {kit}, camera: house/camera}}\nleads: {{{', '.join(leads)}}}"


@pytest.mark.parametrize("width", [60, 80, 100])
@pytest.mark.parametrize("length", [1, 4, 9, 40])
def test_the_text_fits_its_width(width: int, length: int) -> None:
    text = render(chain(length), Style(width))

    assert [line for line in text.splitlines() if len(line) > width] == []
    assert re.search(r"(?m)^ +camera\.dc_in( .*)?$", text)


def test_a_rig_of_thirty_items_fits_a_screen_and_each_loaded_port_stands_in_it() -> None:
    kit = ", ".join(f"cam_{index}: house/camera" for index in range(9))
    kit += ", " + ", ".join(f"b_{index}: house/breakout, pack_{index}: house/pack" for index in range(9))
    leads = ", ".join(
        f"T{i}: {{part: house/lead, from: pack_{i}.out, to: b_{i}.in}},"
        f" C{i}: {{part: house/lead, from: b_{i}.out_1, to: cam_{i}.dc_in}}"
        for i in range(9)
    )
    text = render(f"kit: {{{kit}}}\nleads: {{{leads}}}")

    assert all(f" cam_{index}.dc_in " in text for index in range(9))
    assert len(text.splitlines()) < 75


def test_colour_changes_no_column() -> None:
    coloured = render(TWO_SETUPS, Style(colour=True))

    assert "\x1b[31m   12.9!\x1b[0m" in coloured
    assert "\x1b[31mOutside the window: lamp.dc_in too high at full;" in coloured
    assert COLOUR.sub("", coloured) == render(TWO_SETUPS)


def test_hostile_names_are_harmless() -> None:
    report = make_report(SINGLE)
    shown = report.setups["as_wired"]
    hostile = PowerReport(
        replace(report.rig, file=HOSTILE), report.house, MappingProxyType({HOSTILE: shown}), (HOSTILE,), ()
    )
    text = render_power(hostile, Style())

    assert {character for character in text if not character.isprintable()} == {"\n"}
