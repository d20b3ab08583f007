"""What a rule may ask about tails and the rest of the job."""

from __future__ import annotations

import posixpath

from rigmint.lint.case_base import CaseBase
from rigmint.rig.rig import Item, Rig
from rigmint.study.study_hands import find_carrier
from rigmint.study.tails import JointTails, Windup


class PrepCase(CaseBase):
    """The questions of a case that concern prep; each is answered by a study."""

    @property
    def job_rigs(self) -> tuple[Rig, ...]:
        """The other rigs of the job that are checked in this run with the same library, by file name."""
        return self._studies.others

    def name_rig(self, other: Rig) -> str:
        """Another rig's file as seen from this one's folder."""
        return posixpath.relpath(other.file, posixpath.dirname(self.rig.file) or ".")

    @property
    def tails(self) -> tuple[JointTails, ...]:
        """The joints of heads that leads cross."""
        return self._studies.tails(self.setup)

    @property
    def windups(self) -> tuple[Windup, ...]:
        """The joints that somebody may turn until the leads across them are wound up, and those of which the part
        does not say whether they end."""
        return self._studies.windups(self.setup)

    def find_carrier(self, head: Item) -> str | None:
        """Who carries a head: who holds it, else the crew's `carrier`."""
        return find_carrier(head.name, self.setup)
