"""Whether what a rule gave is whole: a pack without types must not break the report of the others."""

from __future__ import annotations

import math
from collections.abc import Iterator

from rigmint.lint.changes import Change
from rigmint.lint.edits import list_edits
from rigmint.lint.finding import Finding, Fix, Measured, Unknown
from rigmint.lint.rule import Rule
from rigmint.rig.rig import Rig
from rigmint.words import Grade

_TEXTS = ("code", "says", "at", "cause")
_LISTS = ("also", "path", "assumed")


def check_result(rule: Rule, result: object, rig: Rig) -> Finding | Unknown:
    """The result, if it is a whole finding or unknown of the rule. Raises TypeError or ValueError that says why not."""
    if isinstance(result, Unknown):
        _check_texts(result, ("code", "needs", "at"))
        _check_code(rule, result.code)
        return result
    if not isinstance(result, Finding):
        msg = f"it gave {type(result).__name__} where a Finding is due"
        raise TypeError(msg)
    _check_texts(result, _TEXTS)
    _check_code(rule, result.code)
    if not isinstance(result.grade, Grade):
        msg = f"`grade` is {result.grade!r} where a Grade is due"
        raise TypeError(msg)
    if result.grade not in rule.grades:
        msg = f"it gave the grade {result.grade.value}, which it did not declare"
        raise ValueError(msg)
    for name in _LISTS:
        _check_tuple(name, getattr(result, name), str)
    _check_tuple("fixes", result.fixes, Fix)
    _check_measured(result.measured)
    for change in _list_changes(result):
        _check_change(change, rig)
    return result


def _check_texts(result: Finding | Unknown, names: tuple[str, ...]) -> None:
    for name in names:
        value = getattr(result, name)
        if not isinstance(value, str) or not value.strip():
            msg = f"`{name}` is {value!r} where a text is due"
            raise TypeError(msg)


def _check_code(rule: Rule, code: str) -> None:
    if code != rule.code:
        msg = f"it gave the code {code!r}, which it did not declare"
        raise ValueError(msg)


def _check_tuple(name: str, value: object, kind: type) -> None:
    if not isinstance(value, tuple) or not all(isinstance(one, kind) for one in value):
        msg = f"`{name}` is {value!r:.80} where a tuple of {kind.__name__} is due"
        raise TypeError(msg)


def _check_measured(measured: object) -> None:
    if measured is None:
        return
    if not isinstance(measured, Measured):
        msg = f"`measured` is {type(measured).__name__} where a Measured is due"
        raise TypeError(msg)
    limits = measured.limit if isinstance(measured.limit, tuple) else (measured.limit,)
    for number in (measured.value, *(one for one in limits if one is not None)):
        if isinstance(number, bool) or not isinstance(number, (int, float)) or not math.isfinite(number):
            msg = f"`measured` holds {number!r} where a finite number is due"
            raise ValueError(msg)


def _list_changes(finding: Finding) -> Iterator[object]:
    for fix in finding.fixes:
        if not isinstance(fix.says, str):
            msg = f"a fix says {fix.says!r} where a text is due"
            raise TypeError(msg)
        yield from fix.changes


def _check_change(change: object, rig: Rig) -> None:
    if not isinstance(change, Change):
        msg = f"a fix holds {type(change).__name__} where a change is due"
        raise TypeError(msg)
    try:
        list_edits((change,), rig, {}, tuple(rig.setups))
    except Exception as error:
        msg = f"its fix {change!r:.120} does not fit the rig: {type(error).__name__}: {error}"
        raise ValueError(msg) from error
