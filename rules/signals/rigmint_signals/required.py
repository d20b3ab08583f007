"""`fit:required`: what a rig, a part or a library requires of settings."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigmint import Case, Finding, Fix, Grade, Item, Requirement, Rule, Unknown, say_list, setting_place
from rigmint_signals.setting_fixes import fix_setting

_CODE = "fit:required"


@dataclass(frozen=True, slots=True)
class _Stated:
    """A setting of an item that a requirement names, and its value; None: nobody wrote it down."""

    item: str
    name: str
    value: str | None

    @property
    def place(self) -> str:
        return setting_place(self.item, self.name)

    @property
    def says(self) -> str:
        return f"{self.item}.{self.name}"


@dataclass(frozen=True, slots=True)
class _Condition:
    """How far `when` holds: whether it can, and the settings that nobody wrote down and that decide it."""

    holds: bool
    unknown: tuple[_Stated, ...]


def check(case: Case) -> Iterator[Finding | Unknown]:
    """One finding for each setting that breaks a requirement."""
    for requirement in (*case.rig.requires, *case.house.requires):
        yield from _judge(case, requirement, None)
    for item in case.items:
        if item.name not in case.setup.off:
            for requirement in item.part.requires:
                yield from _judge(case, requirement, item)


def _judge(case: Case, requirement: Requirement, owner: Item | None) -> Iterator[Finding | Unknown]:
    condition = _find_condition(case, requirement, owner)
    if not condition.holds:
        return
    for key, values in requirement.settings.items():
        yield from _judge_set(case, requirement, condition, key, values, owner)
    for group in requirement.alike:
        yield from _judge_alike(case, requirement, condition, _gather(case, group, owner))
    for group in requirement.unlike:
        yield from _judge_unlike(case, requirement, condition, _gather(case, group, owner))


def _find_condition(case: Case, requirement: Requirement, owner: Item | None) -> _Condition:
    unknown: list[_Stated] = []
    for key, values in requirement.when.items():
        if key == "kind":
            if not any(item.part.kind in values for item in case.items if item.name not in case.setup.off):
                return _Condition(False, ())
        elif key in ("on", "stance"):
            found = case.setup.on if key == "on" else case.setup.stance
            if found is not None and found not in values:
                return _Condition(False, ())
            unknown += [_Stated("rig", key, None)] if found is None else []
        else:
            stated = _resolve(case, key, owner)
            if not any(one.value is None or one.value in values for one in stated):
                return _Condition(False, ())
            if not any(one.value in values for one in stated):
                unknown += [one for one in stated if one.value is None][:1]
    return _Condition(True, tuple(unknown))


def _resolve(case: Case, key: str, owner: Item | None) -> list[_Stated]:
    """The settings that a key names in the setup, on items that are on: of its own part, of an item, or of each item
    of a kind."""
    first, _, name = key.partition(".")
    if not name:
        first, name = (owner.name if owner is not None else "", first)
    items = [item for item in case.items if item.name == first] or [i for i in case.items if i.part.kind == first]
    return [
        _Stated(item.name, name, case.setup.setting(item.name, name))
        for item in items
        if item.name not in case.setup.off and name in item.part.settings
    ]


def _gather(case: Case, group: tuple[str, ...], owner: Item | None) -> list[_Stated]:
    return list({one.place: one for key in group for one in _resolve(case, key, owner)}.values())


def _judge_set(
    case: Case,
    requirement: Requirement,
    condition: _Condition,
    key: str,
    values: tuple[str, ...],
    owner: Item | None,
) -> Iterator[Finding | Unknown]:
    stated = _resolve(case, key, owner)
    if not stated and requirement.origin == "requires" and not _is_of_rig(case, key):
        yield Unknown(_CODE, key, "requires", f"`requires` names {key}, and the rig has no such setting")
    for one in stated:
        if one.value in values:
            continue
        if condition.unknown or one.value is None:
            yield _report_unknown(requirement, condition, one)
            continue
        wanted = say_list(values, joint="or")
        fix = fix_setting(case, one.item, one.name, values[0])
        yield _report(requirement, one, f"{one.says} is {one.value}, and {wanted} is required", (fix,))


def _is_of_rig(case: Case, key: str) -> bool:
    first, _, name = key.partition(".")
    items = case.rig.items.values()
    return any(first in (item.name, item.part.kind) and name in item.part.settings for item in items)


def _judge_alike(
    case: Case, requirement: Requirement, condition: _Condition, stated: list[_Stated]
) -> Iterator[Finding | Unknown]:
    known = [one for one in stated if one.value is not None]
    unknown = [one for one in stated if one.value is None]
    if len({one.value for one in known}) > 1 and not condition.unknown:
        first = known[0]
        odd = next(one for one in known if one.value != first.value)
        changes = fix_setting(case, odd.item, odd.name, first.value or "").changes
        fix = Fix(f"Set {odd.says} to {first.value}, as {first.says} is.", changes)
        says = f"{odd.says} is {odd.value} and {first.says} is {first.value}, and they must be alike"
        yield _report(requirement, odd, says, (fix,), first.place)
    elif len(stated) > 1 and (unknown or len({one.value for one in known}) > 1):
        yield _report_unknown(requirement, condition, (unknown or known)[0])


def _judge_unlike(
    case: Case, requirement: Requirement, condition: _Condition, stated: list[_Stated]
) -> Iterator[Finding | Unknown]:
    seen: dict[str, _Stated] = {}
    unknown = [one for one in stated if one.value is None]
    for one in stated:
        if one.value is None:
            continue
        first = seen.setdefault(one.value, one)
        if first is one:
            continue
        if condition.unknown:
            yield _report_unknown(requirement, condition, one)
            return
        says = f"{one.says} and {first.says} are both {one.value}, and they must differ"
        fix = _find_other_value(case, one, {other.value for other in stated})
        yield _report(requirement, one, says, (fix,), first.place)
    if unknown and len(stated) > 1:
        yield _report_unknown(requirement, condition, unknown[0])


def _find_other_value(case: Case, one: _Stated, taken: set[str | None]) -> Fix:
    free = [value for value in case.rig.items[one.item].part.settings[one.name].values if value not in taken]
    if not free:
        return Fix(f"Set {one.says} to another value.")
    return fix_setting(case, one.item, one.name, free[0])


def _report(
    requirement: Requirement, one: _Stated, says: str, fixes: tuple[Fix, ...], also: str | None = None
) -> Finding:
    return Finding(
        code=_CODE,
        grade=requirement.grade,
        says=f"{requirement.why.rstrip('.')}: {says}.",
        at=one.place,
        cause=one.place,
        also=(also,) if also is not None else (),
        fixes=fixes,
    )


def _report_unknown(requirement: Requirement, condition: _Condition, one: _Stated) -> Unknown:
    missing = one if one.value is None or not condition.unknown else condition.unknown[0]
    return Unknown(
        code=_CODE,
        needs=missing.name,
        at=missing.place if missing.item != "rig" else "rig",
        says=f"nobody wrote down {missing.says}, which something is required of ({requirement.why.rstrip('.')})",
    )


RULE = Rule(
    code="fit:required",
    grades=tuple(Grade),
    title="A required setting is not so",
    looks_for=(
        "What `requires` of the rig, of a part or of the library asks for: when its condition holds, the settings that"
        " it names must have a value, be alike or differ. The grade and the reason are the requirement's own."
    ),
    why=(
        "Rules of the trade and of the house need no code: the picture flipped when the head hangs, one rate for all."
    ),
    put_right="Set what is named; or change the requirement where it is no longer meant.",
    source="the requirement itself, in the rig, the part or the library",
    check=check,
    caution=(
        "A requirement can concern injury: its author grades it, and a clean check does not replace their judgement."
    ),
)
