"""What a rule may ask about lens drive and payload."""

from __future__ import annotations

from rigmint.lint.case_base import CaseBase
from rigmint.study.dial_speed import DialSpeed
from rigmint.study.drive import RingDrive
from rigmint.study.payload import Payloads


class MechanicsCase(CaseBase):
    """The questions of a case that concern mechanics; each is answered by a study."""

    @property
    def drives(self) -> tuple[RingDrive, ...]:
        """Every motor that is there and on, on the ring that it is fitted to."""
        return self._studies.drives(self.setup)

    @property
    def dial_speeds(self) -> tuple[DialSpeed, ...]:
        """Every wheel with hard stops that drives a ring by speed."""
        return self._studies.dial_speeds(self.setup)

    @property
    def payloads(self) -> Payloads:
        """What each head and each carrier carries."""
        return self._studies.payloads(self.setup)
