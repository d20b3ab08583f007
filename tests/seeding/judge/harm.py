"""What is wrong, in terms of the job."""

from __future__ import annotations

from dataclasses import dataclass

UNSOLVED = "unsolved"
"""No harm: the simulator found no operating point, so that the circuit was not judged."""


@dataclass(frozen=True, slots=True)
class Harm:
    """Something at `dead`, `fight` or worse. `what`: a key of `codes.CODES`; `at`: item, port, lead, link or axis."""

    what: str
    at: str
