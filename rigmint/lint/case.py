"""What a rule is given: one rig in one setup, with studies that are computed when they are first asked for."""

from __future__ import annotations

from rigmint.lint.circuit_case import CircuitCase
from rigmint.lint.mechanics_case import MechanicsCase
from rigmint.lint.prep_case import PrepCase
from rigmint.lint.signal_case import SignalCase


class Case(CircuitCase, SignalCase, MechanicsCase, PrepCase):
    """One rig in one setup, for one rule. `parameters` are the rule's own, as the library sets them.

    What concerns the circuit stands in `circuit_case`, what concerns signals in `signal_case`, mechanics in
    `mechanics_case`, tails and the job in `prep_case`, the rest in `case_base`.
    """
