"""Setups: what is there in each, the value of every setting, who is meant to have what."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from rigmint.library.document import Path
from rigmint.library.faults import suggest
from rigmint.library.rig_scope import RigScope
from rigmint.library.scope import as_tuple, freeze, numbered
from rigmint.rig.axes import find_axis_holders
from rigmint.rig.part import Part
from rigmint.rig.place import setting_place
from rigmint.rig.rig import Dock, Item, Lead, Link, Needs, SettingState, Setup
from rigmint.words import AUTOMATIC, NOBODY

AS_WIRED = "as_wired"
_NEED_KEYS = frozenset({"runtime", "distance", "day", "flies", "temperature", "stays_up"})
_CONDITIONS = ("on", "stance", "where", "region")


class SetupBuilder:
    """Builds the setups of one rig from its tree and its wiring."""

    def __init__(
        self,
        tree: Mapping[str, Any],
        items: Mapping[str, Item],
        leads: Mapping[str, Lead],
        docks: tuple[Dock, ...],
        links: Mapping[str, Link],
        scope: RigScope,
    ) -> None:
        self._tree = tree
        self._items = items
        self._leads = leads
        self._docks = docks
        self._links = links
        self._scope = scope
        self._setup_names = tuple(tree.get("setups") or {AS_WIRED: {}})

    def build(self) -> dict[str, Setup]:
        """Every setup; a rig that names none has one, `as_wired`."""
        self._check_memberships()
        base = self._base_settings()
        bodies = self._tree.get("setups") or {AS_WIRED: {}}
        return {name: self._build_setup(name, body or {}, base) for name, body in bodies.items()}

    def _build_setup(self, name: str, body: Mapping[str, Any], base: Mapping[tuple[str, str], SettingState]) -> Setup:
        path: Path = ("setups", name)
        out = self._known(body, "out", path, (self._items, self._leads, self._links), "item, lead or link")
        off = self._known(body, "off", path, (self._items,), "item") - out
        unplugged = self._known(body, "unplugged", path, (self._leads,), "lead") | out
        items = frozenset(n for n, item in self._items.items() if n not in out and _is_in(item.setups, name))
        settings = dict(base)
        self._apply(body.get("set", {}), (*path, "set"), settings, "setup", prefix=f"{name}|")
        crew = {**self._crew(self._tree, ()), **self._crew(body, path)}
        return Setup(
            name=name,
            says=body.get("says"),
            items=items,
            off=off & items,
            leads=frozenset(
                label
                for label, lead in self._leads.items()
                if label not in unplugged
                and _is_in(lead.setups, name)
                and all(ref.item in items for ref in lead.plugged.values())
            ),
            docks=frozenset(
                dock.index
                for dock in self._docks
                if _is_in(dock.setups, name) and dock.first.item in items and dock.second.item in items
            ),
            links=frozenset(
                key
                for key, link in self._links.items()
                if key not in out
                and _is_in(link.setups, name)
                and link.radios
                and link.radios[0].item in items
                and sum(ref.item in items for ref in link.radios) > 1
            ),
            settings=freeze(settings),
            who=freeze(self._who(name, body.get("who", {}), (*path, "who"), items, crew)),
            distances=freeze(self._distances(body, path)),
            crew=freeze(crew),
            needs=self._needs(body, path),
            **{key: body.get(key, self._tree.get(key)) for key in _CONDITIONS},
        )

    def _check_memberships(self) -> None:
        for section in ("kit", "leads", "links"):
            for key, body in self._tree.get(section, {}).items():
                names = as_tuple(body.get("in")) if isinstance(body, Mapping) else ()
                for word in names:
                    self._knows((section, key, "in"), word, self._setup_names, "setup")
        for index, body in numbered(self._tree.get("docks")):
            for word in as_tuple(body.get("in")) if isinstance(body, Mapping) else ():
                self._knows(("docks", index, "in"), word, self._setup_names, "setup")

    def _knows(self, path: Path, word: str, known: Collection[str], what: str) -> bool:
        if word in known or word in self._scope.broken:
            return word in known
        self._scope.fault(path, "file:unknown-name", f"there is no {what} `{word}`{suggest(word, known)}")
        return False

    def _known(
        self, body: Mapping[str, Any], key: str, path: Path, tables: tuple[Mapping[str, Any], ...], what: str
    ) -> frozenset[str]:
        names = [name for table in tables for name in table]
        return frozenset(word for word in as_tuple(body.get(key)) if self._knows((*path, key), word, names, what))

    def _base_settings(self) -> dict[tuple[str, str], SettingState]:
        states: dict[tuple[str, str], SettingState] = {}
        for name, item in self._items.items():
            for setting in item.part.settings.values():
                stated = "default" if setting.default is not None else "nowhere"
                states[name, setting.name] = SettingState(setting.default, stated)
        for name, body in self._tree.get("kit", {}).items():
            if isinstance(body, Mapping) and name in self._items:
                own = {f"{name}.{key}": value for key, value in body.get("set", {}).items()}
                self._apply(own, ("kit", name, "set"), states, "item", own_item=name)
        self._apply(self._tree.get("settings", {}), ("settings",), states, "rig")
        return states

    def _apply(
        self,
        values: Mapping[str, str],
        path: Path,
        states: dict[tuple[str, str], SettingState],
        stated: str,
        *,
        prefix: str = "",
        own_item: str | None = None,
    ) -> None:
        for key, value in values.items():
            item_name, _, setting_name = key.partition(".")
            here = (*path, setting_name if own_item else key)
            item = self._scope.item(here, item_name, self._items, key)
            if item is None:
                continue
            setting = item.part.settings.get(setting_name)
            if setting is None:
                listed = ", ".join(f"`{word}`" for word in item.part.settings) or "none"
                near = suggest(setting_name, item.part.settings) or f"; it has {listed}"
                says = f"`{key}`: `{item.part.id}` has no setting `{setting_name}`{near}"
                self._scope.fault(here, "file:unknown-name", says)
                continue
            if setting.values and value not in setting.values:
                listed = ", ".join(f"`{word}`" for word in setting.values)
                says = f"`{key}` has no value `{value}`{suggest(value, setting.values) or f'; it has {listed}'}"
                self._scope.fault(here, "file:bad-value", says)
                continue
            states[item_name, setting_name] = SettingState(value, stated)
            self._scope.note(prefix + setting_place(item_name, setting_name), here)

    def _crew(self, body: Mapping[str, Any], path: Path) -> dict[str, tuple[str, ...]]:
        crew = {}
        for person, names in body.get("crew", {}).items():
            here = (*path, "crew", person)
            known = self._items
            crew[person] = tuple(word for word in as_tuple(names) if self._knows(here, word, known, "item"))
        return crew

    def _who(
        self,
        setup: str,
        body: Mapping[str, Any],
        path: Path,
        present: frozenset[str],
        crew: Mapping[str, tuple[str, ...]],
    ) -> dict[str, tuple[str, ...]]:
        parts = {name: self._items[name].part for name in sorted(present)}
        who: dict[str, tuple[str, ...]] = {}
        for axis, persons in body.items():
            here = (*path, axis)
            place = self._axis_place(here, axis, parts)
            names = as_tuple(persons)
            for person in names:
                if person not in (NOBODY, AUTOMATIC):
                    self._knows(here, person, crew, "person in the crew called")
            if place is not None:
                who[place] = names
                self._scope.note(f"{setup}|who {place}", here)
        return who

    def _axis_place(self, path: Path, axis: str, parts: Mapping[str, Part]) -> str | None:
        if "." in axis:
            item_name, _, name = axis.partition(".")
            if item_name not in parts:
                if item_name not in self._items:
                    self._scope.item(path, item_name, self._items, axis)
                return None
            holders = find_axis_holders(name, {item_name: parts[item_name]})
            if holders:
                return axis
            says = f"`{axis}`: `{parts[item_name].id}` has no such axis"
            self._scope.fault(path, "file:unknown-name", says)
            return None
        holders = find_axis_holders(axis, parts)
        if len(holders) == 1:
            return f"{holders[0]}.{axis}"
        if len(holders) > 1:
            listed = " or ".join(f"`{name}.{axis}`" for name in holders)
            self._scope.fault(path, "file:unknown-name", f"`{axis}` is on several items: write {listed}")
            return None
        if not self._scope.broken and not find_axis_holders(axis, {n: i.part for n, i in self._items.items()}):
            known = self._scope.catalogue.tokens.carried
            says = f"nothing in this rig has an axis `{axis}`{suggest(axis, known - {axis})}"
            self._scope.fault(path, "file:unknown-name", says)
        return None

    def _distances(self, body: Mapping[str, Any], path: Path) -> dict[str, float]:
        distances = {name: link.distance for name, link in self._links.items() if link.distance is not None}
        for name, distance in body.get("distance", {}).items():
            if self._knows((*path, "distance", name), name, self._tree.get("links", {}), "link"):
                distances[name] = distance
        return distances

    def _needs(self, body: Mapping[str, Any], path: Path) -> Needs:
        base = self._tree.get("needs", {})
        own = body.get("needs", {})
        merged = {**base, **own}
        flows = {}
        for key, value in merged.items():
            here = (*path, "needs", key) if key in own else ("needs", key)
            if key in _NEED_KEYS:
                continue
            known = self._scope.catalogue.tokens.flows
            if self._knows(here, key, known | _NEED_KEYS, "need or flow called"):
                flows[key] = tuple(w for w in as_tuple(value) if self._knows(here, w, self._items, "item"))
        stays_path = (*path, "needs", "stays_up") if "stays_up" in own else ("needs", "stays_up")
        stays = as_tuple(merged.get("stays_up"))
        return Needs(
            runtime=merged.get("runtime"),
            distance=merged.get("distance"),
            day=merged.get("day"),
            flies=merged.get("flies") in (True, "yes", "on"),
            temperature=merged.get("temperature"),
            stays_up=tuple(word for word in stays if self._knows(stays_path, word, self._items, "item")),
            flows=freeze(flows),
        )


def _is_in(setups: tuple[str, ...] | None, name: str) -> bool:
    return setups is None or name in setups
