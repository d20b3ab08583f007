"""Hypothesis strategies for rig, part and library files: whole ones, nearly whole ones and broken ones.

Each begins with a file of the examples or the catalogue. A file that is whole has parts and ports exchanged for others
that there are; one that is nearly whole has values, keys and entries changed as a tired hand does; one that is broken has
its text damaged.
"""

from __future__ import annotations

import copy
import json
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import strategies as st
from ruamel.yaml import YAML

ROOT = Path(__file__).parents[2]
PATTERNS = {
    "rig": ("examples/rigs/*.rig.yaml",),
    "part": ("rigmint/catalogue/*.part.yaml", "examples/parts/*.part.yaml"),
    "library": ("examples/rigmint.yaml", "examples/house-rules/rigmint.yaml"),
}
_ODD = (
    *(
        None,
        True,
        0,
        -1,
        1e308,
        -1e-308,
        10**30,
        "",
        " ",
        "none",
        "off",
        "nobody",
        "loose",
        "*",
        "~",
        "1:30",
        "2026-02-30",
    ),
    *(
        "0 V",
        "-12 V",
        "1e300 V",
        "12 V to 11 V",
        "11 to 17 V",
        "17 to 11 V",
        "0 ohm",
        "1e-300 ohm",
        "99999999 W",
        "-5 W",
    ),
    *(
        "0 cm",
        "1e9 km",
        "0 AWG",
        "400 AWG",
        "0 %",
        "100000 %",
        "-40 degC",
        "5 parsec",
        "NaN V",
        "inf A",
        "0.1 g",
        "9e99 kg",
    ),
    *(
        "\x1b[31m",
        "\u202ea",
        "🎥" * 50,
        "x" * 3000,
        "a.b.c.d",
        "camera.",
        ".camera",
        "a > b > c",
        "</script>",
        "{{ x }}",
    ),
    *([], {}, [[]], {"part": "generic/camera-compact"}, ["plate.tap_1"] * 3),
)
_DAMAGE = (
    "{",
    "}",
    "[",
    "]",
    ":",
    "- ",
    "&a ",
    "*a",
    "!!x ",
    "'",
    '"',
    "\t",
    "|",
    "\0",
    "\ufeff",
    "#",
    "\r",
    "\n\n",
    "<<: ",
)

Tree = Any


@cache
def load_trees(kind: str) -> tuple[Tree, ...]:
    """The trees of all files of a kind that are in this repository."""
    files = [path for pattern in PATTERNS[kind] for path in sorted(ROOT.glob(pattern))]
    assert len(files) > (1 if kind == "library" else 5)
    return tuple(YAML(typ="safe", pure=True).load(path.read_text(encoding="utf-8")) for path in files)


@cache
def list_parts() -> tuple[str, ...]:
    """The ids of all generic parts."""
    trees = load_trees("part")
    return tuple(sorted(part["id"] for tree in trees for part in tree.get("parts", [tree]) if "id" in part))


def _list_paths(tree: Tree, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    return [path, *(found for key, value in inner for found in _list_paths(value, (*path, key)))]


def _find(tree: Tree, path: tuple[Any, ...]) -> Tree:
    for key in path:
        tree = tree[key]
    return tree


@st.composite
def whole_rigs(draw: st.DrawFn) -> Tree:
    """A rig whose items are other parts of the catalogue, and whose leads go to other ports that it names."""
    tree = copy.deepcopy(draw(st.sampled_from(load_trees("rig"))))
    for _ in range(draw(st.integers(0, 3))):
        item = draw(st.sampled_from(sorted(tree["kit"])))
        entry, part = tree["kit"][item], draw(st.sampled_from(list_parts()))
        tree["kit"][item] = {**entry, "part": part} if isinstance(entry, dict) else part
    places = [path for path in _list_paths(tree.get("leads", {})) if "." in str(_find(tree["leads"], path)) and path]
    strings = [
        path for path in places if isinstance(_find(tree["leads"], path), str) and path[-1] in ("from", "to", "a", "b")
    ]
    if len(strings) > 1:
        for _ in range(draw(st.integers(0, 3))):
            one, other = (draw(st.sampled_from(strings)) for _ in range(2))
            _find(tree["leads"], one[:-1])[one[-1]] = _find(tree["leads"], other)
    return tree


@st.composite
def nearly_whole(draw: st.DrawFn, kind: str) -> Tree:
    """A file of which one to six things are changed."""
    tree = draw(whole_rigs()) if kind == "rig" else copy.deepcopy(draw(st.sampled_from(load_trees(kind))))
    for _ in range(draw(st.integers(1, 6))):
        paths = [path for path in _list_paths(tree) if path]
        if not paths:
            break
        path = draw(st.sampled_from(paths))
        holder, key = _find(tree, path[:-1]), path[-1]
        match draw(st.sampled_from(("set", "drop", "copy", "rename", "double", "unknown"))):
            case "set":
                holder[key] = copy.deepcopy(draw(st.sampled_from(_ODD)))
            case "drop":
                del holder[key]
            case "copy":
                holder[key] = copy.deepcopy(_find(tree, draw(st.sampled_from(paths))))
            case "rename" if isinstance(holder, dict):
                holder[draw(st.sampled_from(("head", "X9", "a.b", "", "généric", "1", "set")))] = holder.pop(key)
            case "double" if isinstance(holder, list):
                holder.append(copy.deepcopy(holder[key]))
            case _ if isinstance(holder, dict):
                holder["unheard_of"] = copy.deepcopy(holder[key])
    return tree


@st.composite
def broken_texts(draw: st.DrawFn, kind: str) -> str:
    """A text that is cut, doubled or strewn with what YAML minds."""
    text = write(draw(nearly_whole(kind)))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(text)))
        length = draw(st.integers(0, 80))
        piece = draw(st.sampled_from(("", text[at : at + length] * 2, *_DAMAGE)))
        text = text[:at] + piece + text[at + length * draw(st.booleans()) :]
    return text


def texts(kind: str) -> st.SearchStrategy[str]:
    """Files of a kind, of each sort."""
    whole = whole_rigs() if kind == "rig" else st.sampled_from(load_trees(kind))
    return st.one_of(whole.map(write), nearly_whole(kind).map(write), nearly_whole(kind).map(write), broken_texts(kind))


def write(tree: Tree) -> str:
    """A tree as YAML: its top key by key, what is below as JSON, which is YAML too."""
    if not isinstance(tree, dict) or not tree:
        return json.dumps(tree, ensure_ascii=False, default=str)
    return "".join(
        f"{json.dumps(str(key))}: {json.dumps(value, ensure_ascii=False, default=str)}\n" for key, value in tree.items()
    )
