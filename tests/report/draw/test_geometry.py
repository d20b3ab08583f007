"""Nothing lies on anything: of every example in every layer and setup, of rigs by seed, of drawings that no rig gives."""

from __future__ import annotations

from pathlib import Path
from random import Random

import pytest

from rigmint.report.draw.drawing import draw_layer
from rigmint.report.draw.layout import lay_out
from rigmint.report.draw.svg import write_svg
from tests.power.random_rigs import write_rig
from tests.report.draw.drawn import EXAMPLES, LAYERS, draw, find_all_uses, read_example
from tests.report.draw.geometry import count_crossings, list_faults, read_drawing
from tests.report.draw.random_sketches import make_sketch

SOUND = sorted((EXAMPLES / "rigs").glob("*.rig.yaml"))
FAULTY = sorted((EXAMPLES / "faults").glob("*.rig.yaml"))


def name_path(path: Path) -> str:
    return path.name.removesuffix(".rig.yaml")


@pytest.mark.parametrize("path", [*SOUND, *FAULTY], ids=name_path)
def test_examples_in_every_layer_and_setup(path: Path) -> None:
    rig = read_example(path)
    uses = find_all_uses(rig)
    choices = [uses, *({name: one} for name, one in uses.items())] if path in SOUND else [uses]
    faults = {
        (layer, *chosen): found
        for chosen in choices
        for layer in LAYERS
        if (found := list_faults(draw_layer(rig, chosen, (), layer)))
    }

    assert faults == {}


@pytest.mark.parametrize("seed", range(12))
def test_rigs_by_seed(seed: int, tmp_path: Path) -> None:
    rig = read_example(write_rig(seed, tmp_path / "rig"))

    assert [list_faults(draw(rig, layer)) for layer in LAYERS] == [[]] * len(LAYERS)


@pytest.mark.parametrize("seed", range(60))
def test_drawings_that_no_rig_gives(seed: int) -> None:
    random = Random(seed)
    boxes = random.choice((1, 2, 5, 12, 20, 40))
    sketch = make_sketch(seed, boxes, int(boxes * random.uniform(0, 1.5)))
    svg = write_svg(sketch, lay_out(sketch))
    drawing = read_drawing(svg)

    assert list_faults(svg) == []
    assert len(drawing.boxes) == boxes
    assert len(drawing.ends) == len(sketch.lines)


@pytest.mark.parametrize("path", SOUND, ids=name_path)
def test_crossings_are_few(path: Path) -> None:
    rig = read_example(path)
    power, control, picture, everything = (count_crossings(draw(rig, layer)) for layer in LAYERS)

    assert max(power, control, picture) <= 4
    assert everything <= 20


def make_two_boxes(second_x: int, way: str) -> str:
    def box(name: str, x: int, nub: int) -> str:
        return (
            f'<g class="rd-item" data-item="{name}"><rect class="rd-box" x="{x}" y="0" width="100" height="80"/>'
            f'<g class="rd-port" data-port="{name}.p"><rect class="rd-nub" x="{nub}" y="33" width="7" height="14"/></g></g>'
        )

    line = f'<g class="rd-line" id="line" data-ends="a.p b.p"><path class="rd-ink" d="{way}"/></g>'
    boxes = box("a", 0, 100) + box("b", second_x, second_x - 7)
    return f'<svg xmlns="http://www.w3.org/2000/svg">{line}{boxes}</svg>'


@pytest.mark.parametrize(
    ("second_x", "way", "fault"),
    [
        (200, "M107 40L193 40", None),
        (60, "M107 40L53 40", "boxes a and b overlap"),
        (200, "M107 40L180 40", "line does not end on b.p"),
        (200, "M107 40L193 45", "line is not at right angles"),
        (200, "M107 40L150 40L150 20L50 20L50 -5L193 -5L193 40", "line passes through a"),
    ],
)
def test_the_reader_sees_faults(second_x: int, way: str, fault: str | None) -> None:
    faults = list_faults(make_two_boxes(second_x, way))

    assert (fault in faults) if fault is not None else faults == []


def test_the_reader_sees_lines_on_top_of_each_other() -> None:
    svg = make_two_boxes(200, "M107 40L193 40")
    second = svg[svg.index('<g class="rd-line"') : svg.index('<g class="rd-item"')].replace('id="line"', 'id="other"')
    faults = list_faults(
        svg.replace('<svg xmlns="http://www.w3.org/2000/svg">', f'<svg xmlns="http://www.w3.org/2000/svg">{second}')
    )

    assert faults == ["other and line share a level stretch at 40.0"]
