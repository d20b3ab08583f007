"""A fix that sets a setting, written where the value stands now."""

from __future__ import annotations

from rigmint import Case, Fix, SetSetting

_IN_SETUP = "setup"


def fix_setting(case: Case, item: str, setting: str, value: str) -> Fix:
    """Of one setup where that states the setting, else of all: what is wrong by a default is wrong in each."""
    state = case.setup.settings.get((item, setting))
    is_own = state is not None and state.stated == _IN_SETUP
    change = SetSetting(item, setting, value, case.setup.name if is_own else None)
    return Fix(f"Set {item}.{setting} to {value}.", (change,))
