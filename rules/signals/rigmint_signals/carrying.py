"""The rules of the families `record`, `signal`, `radio` and `picture`."""

from __future__ import annotations

from rigmint import Rule

RULES: tuple[Rule, ...] = ()
