"""The reference is whole: no code, key or public name that exists is missing from it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import pytest
from click.testing import CliRunner

import rigmint
from rigmint.commands import main
from rigmint.library.schemas import KINDS, load_schema
from rigmint.lint.core_codes import CORE_CODES
from rigmint.lint.packs import load_packs


def print_reference(*topic: str) -> str:
    result = CliRunner().invoke(main, ["reference", *topic])
    assert result.exit_code == 0, result.output
    return result.output


def list_properties(node: object) -> Iterator[tuple[str, Mapping[str, object]]]:
    """Every key that a schema declares, wherever it stands."""
    if isinstance(node, Mapping):
        properties = node.get("properties")
        if isinstance(properties, Mapping):
            yield from properties.items()
        for name, inner in node.items():
            if name != "examples":
                yield from list_properties(inner)
    elif isinstance(node, list):
        for inner in node:
            yield from list_properties(inner)


@pytest.mark.parametrize("kind", KINDS)
def test_every_key_of_every_file_is_told_in_its_own_words(kind: str) -> None:
    told = print_reference("keys")
    keys = dict(list_properties(load_schema(kind)))

    missing = [
        name
        for name, node in keys.items()
        if f"| `{name}` |" not in told
        or ("description" in node and str(node["description"]).replace("|", "\\|").replace("\n", " ") not in told)
    ]

    assert keys
    assert missing == []


def test_every_code_is_told() -> None:
    told = print_reference("codes")
    codes = [rule.code for _, rule in load_packs().rules] + [core.code for core in CORE_CODES]

    assert [code for code in codes if f"### `{code}`" not in told] == []


def test_every_public_name_is_told_with_what_it_is() -> None:
    rows = [line for line in print_reference("contract").splitlines() if line.startswith("| `")]
    told = {line.split("`")[1]: line.split("|")[2].strip() for line in rows}

    assert sorted(told) == rigmint.__all__
    assert [name for name, says in told.items() if not says] == []


def test_every_question_of_a_case_is_told() -> None:
    told = print_reference("contract")
    public = [name for name in dir(rigmint.Case) if not name.startswith("_")]

    assert [name for name in public if f"- `{name}" not in told] == []


def test_the_whole_holds_every_topic() -> None:
    whole = print_reference()

    assert all(print_reference(topic) in f"{whole}\n" for topic in ("codes", "keys", "contract"))
