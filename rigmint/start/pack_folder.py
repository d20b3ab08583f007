"""A pack of rules: a distribution of its own with one rule, its explain text and its tests."""

from __future__ import annotations

import keyword
import re
import sys

from rigmint.lint.packs import STANDARD_PACKS
from rigmint.start.answers import Refusal
from rigmint.start.render import render_template

_NAME = re.compile(r"[a-z][a-z0-9]*(?:[-_][a-z0-9]+)*", re.ASCII)
_MOST_LETTERS = 60


def write_pack(name: str) -> dict[str, str]:
    """Path below the folder to text. Raises Refusal for a name that no distribution or module can have."""
    _judge_name(name)
    module = name.replace("-", "_")
    values = {"name": name, "module": module, "family": _find_family(name)}
    return {
        "pyproject.toml": render_template("pack/pyproject.toml.j2", **values),
        "README.md": render_template("pack/README.md.j2", **values),
        f"{module}/__init__.py": render_template("pack/init.py.j2", **values),
        f"{module}/no_asset.py": render_template("pack/no_asset.py.j2", **values),
        f"{module}/py.typed": "",
        "tests/rigs/rigmint.yaml": render_template("pack/rigs_library.yaml.j2", **values),
    } | {
        f"tests/rigs/no-asset.{shown}.rig.yaml": render_template(f"pack/no_asset.{shown}.yaml.j2", **values)
        for shown in ("shows", "right", "alike")
    }


def _judge_name(name: str) -> None:
    if not _NAME.fullmatch(name) or len(name) > _MOST_LETTERS:
        msg = (
            f"`{name[:80]}` is no name for a pack: small letters and digits, joined by `-`, a letter first, such as"
            " `kestrel-house`, since it is a distribution's name too"
        )
        raise Refusal(msg)
    module = name.replace("-", "_")
    if module == "rigmint" or module.startswith("rigmint_") or name in STANDARD_PACKS:
        msg = f"`{name}` is a name of rigmint's own: choose one of the house's, such as `kestrel-house`"
        raise Refusal(msg)
    if keyword.iskeyword(module) or module in sys.stdlib_module_names or module == "tests":
        msg = f"`{name}` is a word of Python's own and cannot name a pack: choose another, such as `{name}-house`"
        raise Refusal(msg)


def _find_family(name: str) -> str:
    """The first half of the codes: the words of the name, without digits, which a code never has."""
    return "-".join(re.findall(r"[a-z]+", name))
