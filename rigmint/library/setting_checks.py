"""Checks that what a part says of its settings is declared in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from rigmint.library.document import Path
from rigmint.library.faults import suggest
from rigmint.library.scope import Scope, read_choice, read_when
from rigmint.rig.choice import Choice, When
from rigmint.rig.device import Setting


class SettingChecks:
    """Checks that settings named in a part are declared there, with the values that they have."""

    def __init__(self, settings: Mapping[str, Setting], scope: Scope) -> None:
        self._settings = settings
        self._scope = scope

    def choice(self, value: Any, path: Path, known: Iterable[str] | None, what: str) -> Choice:
        """A choice whose setting, or whose fixed words, are known."""
        choice = read_choice(value)
        if choice.setting is not None:
            self._scope.knows(path, choice.setting, self._settings, "setting of this part called")
        elif known is not None:
            for word in choice.words:
                self._scope.knows(path, word, list(known), what)
        return choice

    def when(self, value: Mapping[str, Any] | None, path: Path) -> When:
        """A condition whose settings and values are known."""
        when = read_when(value)
        for name, values in when.items():
            here = (*path, "when", name)
            if not self._scope.knows(here, name, self._settings, "setting of this part called"):
                continue
            known = self._settings[name].values
            for word in values:
                if known and word not in known:
                    says = f"`{name}` has no value `{word}`{suggest(word, known)}"
                    self._scope.fault(here, "file:unknown-name", says)
        return when
