"""Judges who has each axis, under every combination of the settings that nobody stated."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from math import prod

from rigmint import AxisHands, Case, Claim, Judgement, Verdict, judge_axis

MOST_COMBINATIONS = 4096


def list_combinations(case: Case, claims: Sequence[Claim]) -> list[dict[tuple[str, str], str]]:
    """Every combination of the unknown settings on which claims rest: one that is empty where they rest on none, and
    none at all where there are too many to try."""
    keys = sorted({key for claim in claims for key in claim.assumes})
    domains = [case.rig.items[item].part.settings[name].values for item, name in keys]
    if prod(len(domain) for domain in domains) > MOST_COMBINATIONS:
        return []
    return [dict(zip(keys, values, strict=True)) for values in product(*domains)]


def hold_under(claims: Sequence[Claim], values: Mapping[tuple[str, str], str]) -> list[Claim]:
    """The claims that stand when unknown settings have these values."""
    return [claim for claim in claims if claim.assumes.items() <= values.items()]


def judge_everywhere(case: Case, axis: AxisHands) -> list[tuple[dict[tuple[str, str], str], Judgement]]:
    """The judgement under each combination of unknown settings; where those are too many, on what is certain."""
    return [
        (values, judge_axis(axis, hold_under(axis.claims, values))) for values in list_combinations(case, axis.claims)
    ] or [({}, judge_axis(axis, axis.certain))]


def find_certain(case: Case, verdict: Verdict) -> Iterator[tuple[AxisHands, Judgement]]:
    """The axes that are wrong whatever the unknown settings are, and at least as wrong as this verdict says."""
    for axis in case.hands.axes.values():
        mildest = max((judgement for _, judgement in judge_everywhere(case, axis)), key=lambda one: one.verdict.rank)
        if mildest.verdict is verdict:
            yield axis, mildest
