"""`runtime:swap-drops`: changing a battery takes down what must stay up."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Rule, say_list


def check(case: Case) -> Iterator[Finding]:
    """One finding for each battery."""
    stays_up = set(case.setup.needs.stays_up) & case.setup.items
    if not stays_up:
        return
    batteries = {source.item for source in case.network.sources if source.cell.is_battery}
    for item in sorted(batteries - case.setup.off):
        dropped = [name for name in case.drops_without(item) if name in stays_up]
        if item in stays_up:
            continue
        if dropped:
            yield Finding(
                code="runtime:swap-drops",
                grade=Grade.DEAD,
                says=f"Changing {item} takes down {say_list(dropped)}, which must stay up.",
                at=dropped[0],
                cause=item,
                also=tuple(dropped[1:]),
                fixes=(Fix(f"Put a hot-swap plate with two batteries in place of the plate of {item}."),),
            )


RULE = Rule(
    code="runtime:swap-drops",
    grades=(Grade.DEAD,),
    title="A battery change takes down what must stay up",
    looks_for="A device listed under `needs: stays_up` that has no power once a battery is taken out.",
    why="A camera that reboots between takes costs minutes and, with some, the clip.",
    put_right="A hot-swap plate, or a second source by its own input.",
    source="common practice",
    check=check,
)
