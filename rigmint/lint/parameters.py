"""A rule's parameters as a library sets them: quantities with their unit, or bare numbers where the rule says so."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches

from rigmint.library.faults import Fault, suggest
from rigmint.library.library_file import Library
from rigmint.lint.rule import Rule
from rigmint.rig.house import House
from rigmint.rig.quantity import QuantityError, parse_quantity

_SLIP = 0.85


def read_parameters(rule: Rule, house: House) -> Mapping[str, float]:
    """The rule's parameters in SI."""
    override = house.rules.get(rule.code)
    stated = override.parameters if override is not None else {}
    return {
        name: _read(stated[name], parameter.kind) if name in stated else parameter.default
        for name, parameter in rule.parameters.items()
    }


def check_overrides(library: Library, rules: Mapping[str, Rule]) -> tuple[Fault, ...]:
    """Faults of the library's `rules:`: codes that no rule has, parameters that a rule does not know."""
    faults = []
    for code, override in library.house.rules.items():
        rule = rules.get(code)
        if rule is None:
            # A rule of a pack that is left out or not built yet is no fault; a slip of the keyboard is.
            meant = get_close_matches(code, rules, n=1, cutoff=_SLIP)
            if meant:
                says = f"`rules:` names `{code}`, which no installed rule has: did you mean `{meant[0]}`?"
                faults.append(_fault(library, (code,), "file:unknown-name", says))
            continue
        for name, value in override.parameters.items():
            if name not in rule.parameters:
                known = suggest(name, rule.parameters)
                says = f"`{code}` has no parameter `{name}`{known}"
                faults.append(_fault(library, (code, name), "file:unknown-key", says))
                continue
            try:
                _read(value, rule.parameters[name].kind)
            except QuantityError as error:
                faults.append(_fault(library, (code, name), "file:wrong-unit", f"`{code}`: `{name}`: {error}"))
    return tuple(faults)


def _read(value: object, kind: str | None) -> float:
    if kind is not None:
        return parse_quantity(str(value), kind)
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        msg = f"`{value}` stands where a bare number is due"
        raise QuantityError(lambda: msg)
    return float(value)


def _fault(library: Library, path: tuple[str, ...], code: str, says: str) -> Fault:
    position = library.position("rules", *path)
    return Fault(library.house.file or "", position.line, position.column, code, says)
