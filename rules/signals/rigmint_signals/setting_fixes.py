"""A fix that sets a setting."""

from __future__ import annotations

from rigmint import Case, Fix, SetSetting


def fix_setting(case: Case, item: str, setting: str, value: str) -> Fix:
    """In the setups in which the finding holds; the core writes it where the value stands now."""
    return Fix(f"Set {item}.{setting} to {value}.", (SetSetting(item, setting, value, case.setup.name),))
