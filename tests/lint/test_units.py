"""Units never slip: a rig written in inches, pounds and ounce-inches gives the findings and the numbers that it gives in
SI units. The test draws figures; the rigs of `examples/` are written in other units by the checks of every pack.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from rigmint.lint.results import FileReport, ReportedFinding
from rigmint.testing import check_texts

INCH, POUND, GRAVITY = 0.0254, 0.45359237, 9.80665
TRADE: Mapping[str, tuple[tuple[str, float], ...]] = {
    "length": (("in", INCH), ("ft", 12 * INCH)),
    "mass": (("lb", POUND), ("oz", POUND / 16)),
    "torque": (
        ("oz*in", POUND / 16 * GRAVITY * INCH),
        ("lb-in", POUND * GRAVITY * INCH),
        ("lb*ft", POUND * GRAVITY * 12 * INCH),
        ("kg*cm", GRAVITY / 100),
    ),
    "resistance": (("kohm", 1e3),),
    "angle": (("rad", 1.0),),
    "speed": (("rpm", 0.10471975511965977),),
}

# Each figure is a whole number of steps of its own, of which no two have a common factor: so none comes to lie exactly
# on a limit, where the last digit of a conversion would decide.
PARTS = """
parts:
  - rigmint_part: 1
    id: house/lens-{units}
    kind: lens
    mass: {lens}
    rings:
      focus: {{module: {ring_module}, teeth: {ring_teeth}, turn: {turn}, torque: {ring_torque}, stops: true, stands: {stands}}}
  - rigmint_part: 1
    id: house/motor-{units}
    kind: lens_motor
    mass: {motor}
    ports: {{bus: {{connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}}}}
    moves: {{shaft: {{axis: focus, takes: [rate], steps: 1000}}}}
    passes: [{{from: bus, to: shaft}}]
    drive: {{module: {gear_module}, teeth: {gear_teeth}, torque: {torque}, speed: {speed}, calibration: {calibration}}}
  - rigmint_part: 1
    id: house/desk-{units}
    kind: desk
    ports: {{line: {{connector: usb-c, sex: socket, pins: data, speaks: [lens-bus]}}}}
    settings: {{dial_speed: {{values: [1, 2, 3], default: 1}}}}
    controls: {{wheel: {{sends: rate, axis: focus, turn: {wheel}}}}}
    passes: [{{from: wheel, to: line}}]
    speeds: {{1: 1.1, 2: 2.2, 3: 4.4}}
  - rigmint_part: 1
    id: house/head-{units}
    kind: head
    mass: {head}
    payload: {{min: {head_min}, max: {head_max}}}
  - rigmint_part: 1
    id: house/arm-{units}
    kind: carrier
    mass: 6 kg
    payload: {{min: {arm_min}, max: {arm_max}}}
"""
RIG = """\
rigmint: 1
rig: Saltmarsh, in one system of units or the other
on: {on}
kit:
  lens: house/lens-{units}
  motor: house/motor-{units}
  desk: house/desk-{units}
  head: house/head-{units}
  arm: house/arm-{units}
leads: {{L1: desk.line > motor.bus}}
fitted: {{motor: lens.focus}}
crew: {{operator: [desk]}}
setups: {{one: {{who: {{focus: operator}}}}}}
"""
KINDS = {
    "lens": ("mass", 0.0010001),
    "motor": ("mass", 0.0010003),
    "head": ("mass", 0.0010007),
    "head_min": ("mass", 0.0010009),
    "head_max": ("mass", 0.0010013),
    "arm_min": ("mass", 0.0010019),
    "arm_max": ("mass", 0.0010021),
    "ring_torque": ("torque", 0.0010027),
    "stands": ("torque", 0.0010031),
    "torque": ("torque", 0.0010037),
    "calibration": ("torque", 0.0010039),
    "turn": ("angle", 0.0010049),
    "wheel": ("angle", 0.0010051),
    "speed": ("speed", 0.0100057),
}
SI_UNITS = {"mass": "kg", "torque": "N*m", "angle": "rad", "speed": "rad/s", "length": "mm"}
MODULES = (
    (0.5, "0.5 mm", ("50.8 DP", f"{0.0005 / INCH!r} in")),
    (0.8, "0.8 mm", ("31.75 DP", f"{0.0008 / INCH!r} in")),
)


@st.composite
def draw_figures(draw: st.DrawFn) -> tuple[dict[str, str], dict[str, str]]:
    """The same figures in SI units and in the trade's."""
    plain, trade = {}, {}
    for name, (kind, step) in KINDS.items():
        value = draw(st.integers(50, 9000)) * step
        unit, factor = draw(st.sampled_from(TRADE[kind]))
        plain[name] = f"{value!r} {SI_UNITS[kind]}"
        trade[name] = f"{value / factor!r} {unit}"
    for name in ("ring_module", "gear_module"):
        _, plain[name], others = draw(st.sampled_from(MODULES))
        trade[name] = draw(st.sampled_from(others))
    for name, teeth in (("ring_teeth", st.integers(90, 160)), ("gear_teeth", st.integers(20, 60))):
        plain[name] = trade[name] = str(draw(teeth))
    return plain, trade


@given(draw_figures(), st.sampled_from(["hand", "vehicle"]))
@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
def test_drawn_figures_in_two_systems_of_units(figures: tuple[dict[str, str], dict[str, str]], on: str) -> None:
    systems = dict(zip(("si", "trade"), figures, strict=True))
    rigs = {name: RIG.format(units=name, on=on) for name in systems}
    parts = {f"{name}.part.yaml": PARTS.format(units=name, **values) for name, values in systems.items()}
    reports = check_texts(rigs, parts)

    assert_alike(reports["si"], reports["trade"])


def assert_alike(one: FileReport, other: FileReport) -> None:
    """The same findings, to the word; the same measured values, but for what a conversion costs."""
    assert [name(finding) for finding in one.findings] == [name(finding) for finding in other.findings]
    assert [(u.code, u.needs, u.at) for u in one.unknown] == [(u.code, u.needs, u.at) for u in other.unknown]
    for first, second in zip(one.findings, other.findings, strict=True):
        assert (first.measured is None) == (second.measured is None)
        if first.measured is not None and second.measured is not None:
            assert second.measured.value == pytest.approx(first.measured.value, rel=1e-9)
            assert second.measured.limit == pytest.approx(first.measured.limit, rel=1e-9)
            assert second.measured.unit == first.measured.unit


def name(finding: ReportedFinding) -> tuple[object, ...]:
    """What is said of a finding, and where."""
    fixes = tuple(fix.says for fix in finding.fixes)
    return finding.code, finding.grade, finding.at, finding.cause, finding.also, finding.says, fixes, finding.setups
