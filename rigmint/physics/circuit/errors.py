"""What a circuit can answer other than a solution."""


class BadCircuit(ValueError):
    """An element that no circuit can hold: a negative resistance, a value that is no number, a node out of range."""


class Collapse(Exception):
    """No operating point exists. A fact about the circuit, not a failure of the program.

    Attributes:
        regulators: indices of the regulators that can be neither on nor off, or that feed an unlimited short.
        cells: indices of the cells that contradict each other or feed an unlimited short.
        diodes: indices of the diodes in an unlimited short.
    """

    def __init__(
        self,
        says: str,
        *,
        regulators: tuple[int, ...] = (),
        cells: tuple[int, ...] = (),
        diodes: tuple[int, ...] = (),
    ) -> None:
        super().__init__(says)
        self.regulators = regulators
        self.cells = cells
        self.diodes = diodes


class SolveFailed(Exception):
    """The iteration ended without a solution although one may exist: an internal error, never a finding."""


class EnergyImbalance(SolveFailed):
    """What the sources give is not what the circuit takes: an internal error, never a finding.

    Attributes:
        given: electromotive power of all sources, watts.
        taken: power turned into heat and work in all elements, watts.
    """

    def __init__(self, given: float, taken: float) -> None:
        super().__init__(f"sources give {given!r} W but the circuit takes {taken!r} W")
        self.given = given
        self.taken = taken
