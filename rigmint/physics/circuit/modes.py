"""Modes: which diodes conduct and what each regulator's output is doing."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from rigmint.physics.circuit.arrays import Bools

OPEN, HOLDING, LIMITED, IDLE = 0, 1, 2, 3
"""An output that is off; at its volts; at its current limit; at no current, held up by somebody else."""


@dataclass(frozen=True, slots=True)
class Modes:
    """The mode of every diode and every regulator output."""

    conducting: Bools
    outputs: NDArray[np.int8]
    holding: Bools = field(init=False)
    """Which outputs are HOLDING."""
    key: bytes = field(init=False)
    """Equal for equal modes."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "holding", self.outputs == HOLDING)
        object.__setattr__(self, "key", self.conducting.tobytes() + self.outputs.tobytes())
