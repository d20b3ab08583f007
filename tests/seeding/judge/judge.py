"""All harms of a rig, over its setups; what rests on wiring, or on the circuit, is computed once for equal wiring."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.power.files import Shelf, Tree
from tests.power.wire_up import list_setups
from tests.seeding.judge.air import judge_air
from tests.seeding.judge.current import judge_current
from tests.seeding.judge.feeding import judge_feeding
from tests.seeding.judge.hands import TooMany, judge_hands
from tests.seeding.judge.harm import Harm
from tests.seeding.judge.metal import judge_bonds, judge_gears, judge_masses, judge_requirements
from tests.seeding.judge.needs import judge_needs
from tests.seeding.judge.pictures import judge_flows, judge_pictures
from tests.seeding.judge.plugs import judge_levels, judge_plugs
from tests.seeding.judge.scene import Scene
from tests.seeding.judge.volts import judge_feeding_outputs, judge_volts


@dataclass(slots=True)
class Judge:
    """Judges rigs of one shelf. `simulates`: whether ngspice is asked."""

    shelf: Shelf
    library: Tree
    simulates: bool
    _currents: dict[str, tuple[Harm, ...]] = field(default_factory=dict)
    simulated: int = 0
    untold: int = 0
    """Setups whose hands were not judged: too many unknown settings."""

    def judge(self, rig: Tree) -> frozenset[Harm]:
        """What is wrong with a rig in any of its setups, at `fight` or worse."""
        return frozenset(harm for setup in list_setups(rig) for harm in self._judge_setup(rig, setup))

    def _judge_setup(self, rig: Tree, setup: str) -> Iterator[Harm]:
        scene, closed = Scene(rig, setup, self.shelf), Scene(rig, setup, self.shelf, closes=True)
        harms = list(judge_volts(closed))
        yield from harms
        yield from judge_feeding_outputs(closed)
        yield from judge_feeding(scene)
        if self.simulates and not any(harm.what == "shorted" for harm in harms):
            yield from self._judge_current(scene)
        try:
            yield from judge_hands(scene)
        except TooMany:
            self.untold += 1
        for part in (judge_pictures, judge_flows, judge_plugs, judge_levels, judge_air):
            yield from part(scene)
        for part in (judge_gears, judge_masses, judge_bonds, judge_needs):
            yield from part(scene)
        yield from judge_requirements(scene, self.library)

    def is_strained(self, rig: Tree) -> bool:
        """Whether any circuit of a rig is under a window, or without a solution, at full or where batteries are changed:
        what a collapse that is not at typical load comes to."""
        scenes = [Scene(rig, setup, self.shelf) for setup in list_setups(rig)]
        return any(harm for scene in scenes for point in ("full", "change") for harm in judge_current(scene, point))

    def _judge_current(self, scene: Scene) -> tuple[Harm, ...]:
        key = repr((scene.wiring, sorted(scene.parts)))
        if key not in self._currents:
            self.simulated += 1
            self._currents[key] = tuple(judge_current(scene))
        return self._currents[key]
