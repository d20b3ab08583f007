"""The rules of family `fit`."""

from __future__ import annotations

from rigmint import Rule

RULES: tuple[Rule, ...] = ()
