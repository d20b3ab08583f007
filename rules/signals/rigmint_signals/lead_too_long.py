"""`picture:lead-too-long`: coax that loses more than the standard's budget."""

from __future__ import annotations

from collections.abc import Iterator

from rigmint import (
    Case,
    Finding,
    Fix,
    Grade,
    Measured,
    Parameter,
    Rule,
    Run,
    Unknown,
    compute_coax_loss,
    find_bit_rate,
    say_list,
    say_metres,
)

_THREE_GIGABIT = 2.97e9
_COAX = {"centre", "shield"}
_THIN_COAX = (0.7, 1.5e9)
"""dB a metre at Hz of thin coax, the worst in use (common practice): what a lead that states no loss may lose."""


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each lead that takes a run of coax over its budget."""
    runs = {run: None for arrival in case.flows("picture") for run in arrival.runs if run.leads}
    for run in runs:
        rate = find_bit_rate(run.format) if run.format is not None else None
        if rate is None or not all(_is_coax(case, label) for label in run.leads):
            continue
        budget = case.parameters["budget" if rate <= _THREE_GIGABIT * (1 + 1e-9) else "budget_high"]
        half_clock = rate / 2
        losses = {label: _lose(case, label, half_clock) for label in run.leads}
        if sum(losses.values()) <= budget:
            continue
        unstated = [label for label in run.leads if case.rig.leads[label].body.loss is None]
        if unstated:
            says = f"{unstated[0]} is long, and nothing states its loss"
            yield Unknown("picture:lead-too-long", "loss", unstated[0], says)
        else:
            yield _report(case, run, losses, budget, half_clock)


def _is_coax(case: Case, label: str) -> bool:
    ends = case.rig.leads[label].body.ends.values()
    return all(set(end.connector.contacts) >= _COAX for end in ends)


def _lose(case: Case, label: str, half_clock: float) -> float:
    lead = case.rig.leads[label]
    loss = lead.body.loss
    per_metre, at = (loss.per_metre, loss.at) if loss is not None else _THIN_COAX
    return compute_coax_loss(per_metre, at, half_clock, lead.length)


def _report(case: Case, run: Run, losses: dict[str, float], budget: float, half_clock: float) -> Finding:
    worst = max(losses, key=lambda label: losses[label])
    total = sum(losses.values())
    longest = case.rig.leads[worst].length * (budget - (total - losses[worst])) / losses[worst]
    fixes = [Fix(f"Use coax of lower loss for {worst}, put a reclocker half way, or go over fibre.")]
    if longest >= 1.0:
        fixes.insert(0, Fix(f"Use at most {say_metres(int(longest))} of this coax for {worst}."))
    together = f"{say_list(run.leads)} together lose" if len(run.leads) > 1 else f"{worst} loses"
    return Finding(
        code="picture:lead-too-long",
        grade=Grade.THIN,
        says=(
            f"{together} {total:.0f} dB at {half_clock / 1e9:.3g} GHz, half the clock of {run.format}; the budget is"
            f" {budget:.0f} dB."
        ),
        at=worst,
        cause=worst,
        also=tuple(label for label in run.leads if label != worst),
        measured=Measured(total, budget, "dB"),
        assumed=(f"{worst} length",) if "length" in case.rig.leads[worst].assumed else (),
        fixes=tuple(fixes),
    )


RULE = Rule(
    code="picture:lead-too-long",
    grades=(Grade.THIN,),
    title="Coax longer than its format allows",
    looks_for=(
        "Coax whose loss, at half the clock of the format that it carries, is above the standard's budget: 20 dB up to"
        " 3 Gbit/s, 40 dB at 6 and 12 Gbit/s. The loss grows with the square root of the frequency. Leads that only a"
        " passive loop joins count together."
    ),
    why="Near the budget the picture sparkles, then it drops out, on the day that is hot or the plug that is worn.",
    put_right="A shorter lead, coax of lower loss, a reclocker half way, or fibre.",
    source="SMPTE ST 292-1 (up to 20 dB at half the clock), ST 424 (from memory), ST 2081-1 and ST 2082-1 (40 dB)",
    parameters={
        "budget": Parameter(20.0, "decibel", "loss that a receiver up to 3 Gbit/s makes good"),
        "budget_high": Parameter(40.0, "decibel", "loss that a receiver of 6 or 12 Gbit/s makes good"),
    },
    check=check,
)
