"""Names that are one: union-find."""

from __future__ import annotations


class Groups:
    """Names that are one."""

    def __init__(self) -> None:
        self._parent: dict[str, str] = {}

    def find(self, name: str) -> str:
        root = name
        while (above := self._parent.setdefault(root, root)) != root:
            root = above
        while self._parent[name] != root:
            self._parent[name], name = root, self._parent[name]
        return root

    def unite(self, one: str, other: str) -> None:
        self._parent[self.find(one)] = self.find(other)

    def list_members(self) -> list[str]:
        return list(self._parent)
