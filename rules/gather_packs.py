"""Build hooks: gather the packs under `rules/` into the wheel of rigmint, from the packs' own manifests.

Each folder with a pyproject.toml brings its import package and its entry points, so that installing rigmint brings
the standard packs, while each pack stays a distribution of its own. The rigs of `examples/` come too: packs are tested
on them.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface
from hatchling.metadata.plugin.interface import MetadataHookInterface

RULES = "rules"
OWN_POINTS = {"pytest11": {"rigmint": "rigmint.testing.plugin"}}
"""Entry points of rigmint itself, which may not be stated in pyproject.toml beside gathered ones."""
CORPUS = ("rigmint.yaml", "faults", "parts", "rigs")
"""What of `examples/` goes into the wheel, for the tests of packs that are made outside a checkout."""


def read_manifests(root: Path) -> dict[str, dict[str, Any]]:
    """Folder name to the `project` table of its pyproject.toml, in name order."""
    return {
        manifest.parent.name: tomllib.loads(manifest.read_text(encoding="utf-8"))["project"]
        for manifest in sorted((root / RULES).glob("*/pyproject.toml"))
    }


class PackMetadataHook(MetadataHookInterface):
    """Adds the packs' entry points to rigmint's own."""

    PLUGIN_NAME = "custom"

    def update(self, metadata: dict[str, Any]) -> None:
        """Merge the entry points of every manifest."""
        merged: dict[str, dict[str, str]] = {group: dict(points) for group, points in OWN_POINTS.items()}
        for project in read_manifests(Path(self.root)).values():
            for group, points in project.get("entry-points", {}).items():
                merged.setdefault(group, {}).update(points)
        metadata["entry-points"] = merged


class PackBuildHook(BuildHookInterface[Any]):
    """Adds the packs' import packages and the corpus of rigs to the wheel."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Include `rules/NAME/rigmint_NAME` as a package at the top of a standard wheel."""
        if version == "editable":
            return
        for folder in read_manifests(Path(self.root)):
            package = f"rigmint_{folder}"
            build_data["force_include"][f"{self.root}/{RULES}/{folder}/{package}"] = package
        for name in CORPUS:
            build_data["force_include"][f"{self.root}/examples/{name}"] = f"rigmint/corpus/{name}"
