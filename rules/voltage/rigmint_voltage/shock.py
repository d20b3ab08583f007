"""`voltage:shock`: over 60 V, outside what this tool is for."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import Case, Finding, Fix, Grade, Measured, Rule, say_volts

_LIMIT = 60.0


def check(case: Case) -> Iterator[Finding]:
    """One finding for each source above 60 V."""
    for source in case.network.sources:
        if source.highest > _LIMIT:
            yield Finding(
                code="voltage:shock",
                grade=Grade.HURT,
                says=(
                    f"{source.item} gives up to {say_volts(source.highest)}: above 60 V d.c. a touch can injure, and"
                    " rigmint does not judge such circuits."
                ),
                at=source.place,
                cause=source.item,
                measured=Measured(source.highest, _LIMIT, "V"),
                fixes=(Fix("Keep this source out of the rig, or have a qualified person plan and sign for it."),),
            )


RULE = Rule(
    code="voltage:shock",
    grades=(Grade.HURT,),
    title="Dangerous voltage",
    looks_for="A source of more than 60 V d.c. anywhere in the rig.",
    why="Up to 60 V d.c. counts as a voltage that does not hurt when touched (IEC 62368-1, class ES1). Above it can.",
    put_right="Leave it to a qualified person.",
    source="IEC 62368-1, class ES1 limit for d.c. (from memory)",
    caution="Do not work on circuits above 60 V d.c. yourself: local electrical codes and qualified people decide.",
    check=check,
)
