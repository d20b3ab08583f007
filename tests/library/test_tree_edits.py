"""What a file must hold so that, laid over what it starts from, it gives the tree that is wanted."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigmint.library.document import Document, Marks, Value
from rigmint.library.like import merge_documents
from rigmint.library.tree_edits import Edit, EditRefused, apply_edits, is_same, override_tree


def make(own: dict[str, Value], base: dict[str, Value]) -> Document:
    """A file that starts from another."""
    return merge_documents(Document("own", own, Marks()), Document("base", base, Marks()))


@pytest.mark.parametrize(
    ("own", "base", "edit", "after"),
    [
        # the file's own value
        ({"a": {"b": 1}}, {"a": {"b": 2}}, Edit("set", ("a", "b"), 3), {"a": {"b": 3}}),
        # an inherited one: overridden, with no more than that
        ({}, {"a": {"b": 2, "c": 4}}, Edit("set", ("a", "b"), 3), {"a": {"b": 3}}),
        ({"a": {"d": 1}}, {"a": {"b": 2}}, Edit("set", ("a", "b"), 3), {"a": {"d": 1, "b": 3}}),
        # taken out: its own goes, an inherited one becomes null
        ({"a": {"d": 1}}, {"a": {"b": 2}}, Edit("remove", ("a", "d")), {"a": {}}),
        ({}, {"a": {"b": 2}}, Edit("remove", ("a", "b")), {"a": {"b": None}}),
        ({"a": {"b": 3}}, {"a": {"b": 2}}, Edit("remove", ("a", "b")), {"a": {"b": None}}),
        ({}, {"a": {"b": 2}}, Edit("remove", ("a",)), {"a": None}),
        # what was taken out comes back
        ({"a": {"b": None}}, {"a": {"b": {"c": 1}}}, Edit("set", ("a", "b", "d"), 3), {"a": {"b": {"d": 3, "c": None}}}),
        # lists replace as a whole
        ({}, {"a": [1, 2]}, Edit("add", ("a",), 3), {"a": [1, 2, 3]}),
        ({"a": [5]}, {"a": [1, 2]}, Edit("add", ("a",), 3), {"a": [5, 3]}),
        ({}, {"a": [1, 2]}, Edit("remove", ("a", 0)), {"a": [2]}),
        # a short form and a long one
        ({"l": {"P": {"to": "x"}}}, {"l": {"P": {"from": "y", "to": "z"}}}, Edit("set", ("l", "P"), "y > w"), {"l": {"P": "y > w"}}),
    ],
)  # fmt: skip
def test_the_least_that_the_file_must_hold(
    own: dict[str, Value], base: dict[str, Value], edit: Edit, after: dict[str, Value]
) -> None:
    document = make(own, base)

    assert override_tree(document, own, apply_edits(document.tree, [edit])) == after


def test_like_stays() -> None:
    document = make({"like": "x", "rig": "y"}, {"rig": "z"})

    assert override_tree(document, {"like": "x", "rig": "y"}, {"rig": "w"}) == {"like": "x", "rig": "w"}


def test_null_under_an_inherited_key_cannot_be_written() -> None:
    document = make({}, {"a": {"b": 1}})

    with pytest.raises(EditRefused, match="change it there"):
        override_tree(document, {}, {"a": {"b": None}})


KEYS = st.sampled_from(["a", "b", "c"])
TREES: st.SearchStrategy[Value] = st.recursive(
    st.integers(0, 3),
    lambda inner: st.one_of(st.dictionaries(KEYS, inner, max_size=3), st.lists(inner, max_size=2)),
    max_leaves=6,
)
FILES: st.SearchStrategy[dict[str, Value]] = st.dictionaries(KEYS, TREES, max_size=3)


@settings(max_examples=400, deadline=None)
@given(FILES, FILES, FILES)
def test_what_is_wanted_comes_of_it(own: dict[str, Value], base: dict[str, Value], wanted: dict[str, Value]) -> None:
    found = override_tree(make(own, base), own, wanted)

    assert isinstance(found, dict)
    assert is_same(make(found, base).tree, wanted)


@settings(max_examples=200, deadline=None)
@given(FILES, FILES)
def test_nothing_changes_where_nothing_is_wanted(own: dict[str, Value], base: dict[str, Value]) -> None:
    document = make(own, base)

    assert override_tree(document, own, document.tree) == own
