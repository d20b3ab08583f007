"""Where power is taken from: outlets of one voltage class that are handed out one by one."""

from __future__ import annotations

from dataclasses import dataclass, field

from rigmint.start.draft import Draft
from rigmint.start.lead_choice import SHORT

POWER = "power"
_BREAKOUT_OUTPUTS = 4


@dataclass(slots=True)
class Outlets:
    """Free outlets of one class, the strongest first. `stage`: on what a breakout for them rides; None: as its part."""

    draft: Draft
    free: list[str] = field(default_factory=list)
    stage: str | None = None

    def feed(self, port: str, *, length: float | None = None, part: str | None = None) -> None:
        """A lead from the next outlet to a port."""
        outlet = self.free.pop(0)
        ends = self.draft.port(outlet).connector.id, self.draft.port(port).connector.id
        if outlet.startswith("breakout"):
            part = part or SHORT.get(ends)
        self.draft.lead(POWER, "P", outlet, port, length=length, part=part)

    def spread(self, count: int) -> None:
        """Make sure of so many outlets: the last one feeds a breakout where there are fewer."""
        if count <= len(self.free):
            return
        number = sum(name.startswith("breakout") for name in self.draft.items)
        name = "breakout" if number == 0 else f"breakout_{number + 1}"
        self.draft.add(POWER, name, "breakout-four-2pin", rides=self.stage)
        source = self.free.pop()
        self.draft.lead(POWER, "P", source, f"{name}.in")
        self.free += [f"{name}.out_{index}" for index in range(1, _BREAKOUT_OUTPUTS + 1)]
