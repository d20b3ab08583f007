"""Labels: two lines an end, the tape by voltage class, by the library, by the lead and by the rig, and safe cells."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from rigmint.report.labels import LeadLabel, disarm_cell, list_labels, render_labels
from rigmint.rig.house import House
from rigmint.rig.rig import Rig
from rigmint.rig.volt_class import VoltClass, classify_volts
from rigmint.study.studies import Studies
from rigmint.study.uses import gather_uses
from tests.builders import make_rig
from tests.report.draw.drawn import EXAMPLES, read_example

SALTMARSH = EXAMPLES / "rigs" / "saltmarsh-two-up.rig.yaml"
CHASE_CAR = EXAMPLES / "rigs" / "wether-hill-chase-car.rig.yaml"


def make_labels(rig: Rig, house: House | None = None, *setups: str) -> tuple[LeadLabel, ...]:
    chosen = house or House()
    uses, _ = gather_uses(Studies(rig, chosen), setups or tuple(rig.setups))
    return list_labels(rig, uses, chosen)


def find_label(labels: tuple[LeadLabel, ...], lead: str, end: str) -> LeadLabel:
    return next(one for one in labels if (one.lead, one.end) == (lead, end))


@pytest.mark.parametrize(
    ("lead", "end", "first", "second", "tape", "volt_class"),
    [
        ("P2", "a", "P2  14 V", "breakout.out_1 > camera.dc_in", "yellow", "twelve"),
        ("P2", "b", "P2  14 V", "breakout.out_1 > camera.dc_in", "yellow", "twelve"),
        ("M1", "a", "M1  5 V", "driver.motor_1 > motor_f.bus_1", "blue", "five"),
        ("D2", "b", "D2  5 V", "driver.finder > finder.data", "blue", "five"),
        ("S1", "a", "S1  picture", "camera.sdi_1 > sender.sdi_in", "white", "signal"),
        ("C1", "b", "C1  control", "sender.control > head.control", "white", "signal"),
        ("D1", "a", "D1:a  record focus", "driver.head > head.accessory, head.record", "white", "signal"),
        ("D1", "c", "D1:c  record focus", "driver.head > head.record", "white", "signal"),
        ("P1", "a", "P1  14 V", "plate.tap_1 > breakout.in", "green sleeve", "twelve"),
    ],
)
def test_two_lines_and_a_tape_for_each_end(
    lead: str, end: str, first: str, second: str, tape: str, volt_class: str
) -> None:
    label = find_label(make_labels(read_example(SALTMARSH)), lead, end)

    assert label == LeadLabel(lead, end, first, second, tape, volt_class)


def test_other_volts_have_another_tape() -> None:
    label = find_label(make_labels(read_example(CHASE_CAR)), "P1", "a")

    assert (label.first, label.tape, label.volt_class) == ("P1  26 V", "red", "twenty-four")


def test_every_end_of_every_lead_has_a_label() -> None:
    rig = read_example(SALTMARSH)
    ends = [(lead.label, end) for lead in rig.leads.values() for end in lead.plugged]

    assert [(one.lead, one.end) for one in make_labels(rig)] == ends


def test_a_setup_has_only_its_leads() -> None:
    rig = make_rig(
        "kit: {pack: generic/battery-98wh-wedge, plate: generic/plate-wedge-two-tap, lamp: generic/light-on-board}\n"
        "docks: [pack.mount > plate.battery]\n"
        "leads: {P1: plate.tap_1 > lamp.dc_in}\n"
        "setups: {day: {unplugged: [P1]}, night: {}}"
    )

    assert make_labels(rig, None, "day") == ()
    assert [one.lead for one in make_labels(rig, None, "night")] == ["P1", "P1"]


def test_the_library_sets_the_tape_of_a_class() -> None:
    house = House(tapes={VoltClass.TWELVE: "pink"})
    labels = make_labels(read_example(SALTMARSH), house)

    assert find_label(labels, "P2", "a").tape == "pink"
    assert find_label(labels, "M1", "a").tape == "blue"


def test_what_the_rig_marks_comes_before_the_class_and_an_end_before_the_lead() -> None:
    rig = replace(read_example(SALTMARSH), marked={"P2": "red", "P2:b": "red, capped"})
    labels = make_labels(rig)

    assert find_label(labels, "P2", "a").tape == "red"
    assert find_label(labels, "P2", "b").tape == "red, capped"


def test_a_loose_end_says_so() -> None:
    rig = read_example(EXAMPLES / "faults" / "fit-loose-live-end-spare.rig.yaml")
    label = find_label(make_labels(rig), "P5", "b")

    assert (label.first, label.second) == ("P5  14 V", "breakout.out_4 > loose")


@pytest.mark.parametrize(
    ("volts", "volt_class"),
    [
        (0.0, VoltClass.FIVE),
        (5.1, VoltClass.FIVE),
        (7.2, VoltClass.EIGHT),
        (14.4, VoltClass.TWELVE),
        (-14.4, VoltClass.TWELVE),
        (25.9, VoltClass.TWENTY_FOUR),
        (48.0, VoltClass.FORTY_EIGHT),
        (230.0, VoltClass.HIGH),
    ],
)
def test_classes(volts: float, volt_class: VoltClass) -> None:
    assert classify_volts(volts) is volt_class


@pytest.mark.parametrize(
    ("cell", "safe"),
    [
        ("red", "red"),
        ("=1+1", "'=1+1"),
        ("+red", "'+red"),
        ("-red", "'-red"),
        ("@red", "'@red"),
        ("  =red", "'  =red"),
        ("a\nb", "a\\nb"),
        ("\u202ered", "\\u202ered"),
    ],
)
def test_no_cell_is_a_formula(cell: str, safe: str) -> None:
    assert disarm_cell(cell) == safe


def test_the_table_is_read_back_as_it_was() -> None:
    labels = make_labels(read_example(SALTMARSH))
    rows = list(csv.reader(io.StringIO(render_labels(labels))))

    assert rows[0] == ["lead", "end", "line_1", "line_2", "tape", "class"]
    assert [LeadLabel(*row) for row in rows[1:]] == list(labels)


def test_where_something_burns_the_volts_are_those_without_loads() -> None:
    rig = read_example(EXAMPLES / "faults" / "voltage-over-raw-on-handgrip.rig.yaml")

    assert find_label(make_labels(rig), "B4", "a").volt_class == "twelve"


def test_a_shorted_lead_bears_no_volts() -> None:
    rig = read_example(EXAMPLES / "faults" / "polarity-shorted-crossed-lead.rig.yaml")
    label = find_label(make_labels(rig), "P3", "a")

    assert (label.first, label.tape, label.volt_class) == ("P3  power", "none", "unfed")
