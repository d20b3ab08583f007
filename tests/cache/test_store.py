"""The folder of cached results: whole entries or none, bounded, and no run that fails for its sake."""

from __future__ import annotations

import os
from multiprocessing import get_context
from pathlib import Path

import pytest

from rigmint.lint import cache_store
from rigmint.lint.cache_store import CacheStore, make_key, open_store

KEY = make_key("a", 1)


def list_entries(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.is_file())


def test_what_is_kept_is_found(tmp_path: Path) -> None:
    store = CacheStore(str(tmp_path / "cache"))
    value = {"text": "24 V at 焦点, \udcff", "numbers": [1, 0.1, None, True]}

    before = store.find(KEY)
    store.keep(KEY, value)

    assert (before, store.find(KEY), store.find(make_key("a", 2))) == (None, value, None)


@pytest.mark.parametrize(
    "damage",
    [
        lambda data: data[: len(data) // 2],
        lambda data: data[:0],
        lambda data: data.replace(b"9", b"8"),
        lambda data: data + b" ",
        lambda data: b"\xff\x00" + data,
        lambda data: data[:64] + b"not JSON",
    ],
)
def test_an_entry_that_is_not_as_it_was_written_is_none(tmp_path: Path, damage: object) -> None:
    store = CacheStore(str(tmp_path))
    store.keep(KEY, {"nine": 9})
    (entry,) = list_entries(tmp_path)
    assert callable(damage)
    entry.write_bytes(damage(entry.read_bytes()))

    damaged = store.find(KEY)
    store.keep(KEY, {"nine": 9})

    assert (damaged, store.find(KEY)) == (None, {"nine": 9})


def test_a_folder_that_cannot_be_made_is_done_without(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    store = CacheStore(str(tmp_path / "file" / "cache"))

    store.keep(KEY, 1)
    store.close()

    assert store.find(KEY) is None


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is read-only for root")
def test_a_folder_that_is_read_only_is_read_and_not_written(tmp_path: Path) -> None:
    CacheStore(str(tmp_path)).keep(KEY, 1)
    folders = [tmp_path, *(path for path in tmp_path.rglob("*") if path.is_dir())]
    for folder in folders:
        folder.chmod(0o500)
    store = CacheStore(str(tmp_path))

    store.keep(make_key("other"), 2)
    found = store.find(KEY), store.find(make_key("other"))
    for folder in folders:
        folder.chmod(0o700)

    assert found == (1, None)


def test_the_oldest_go_first(tmp_path: Path) -> None:
    store = CacheStore(str(tmp_path), most_bytes=5000)
    keys = [make_key("entry", number) for number in range(10)]
    for age, key in enumerate(keys):
        store.keep(key, "x" * 900)
        newest = max(list_entries(tmp_path), key=lambda path: path.stat().st_mtime_ns)
        os.utime(newest, (1_000_000 + age, 1_000_000 + age))
    store.find(keys[0])  # used: it stays

    store.close()
    left = [index for index, key in enumerate(keys) if store.find(key) is not None]

    assert left == [0, 7, 8, 9]
    assert sum(path.stat().st_size for path in list_entries(tmp_path)) <= 5000


def test_a_run_that_wrote_nothing_throws_nothing_out(tmp_path: Path) -> None:
    CacheStore(str(tmp_path)).keep(KEY, "x" * 900)
    store = CacheStore(str(tmp_path), most_bytes=10)

    store.close()

    assert store.find(KEY) == "x" * 900


def _write(folder: str, number: int) -> None:
    store = CacheStore(folder, most_bytes=20_000)
    for turn in range(200):
        store.keep(KEY, [number] * 500)
        store.keep(make_key(number, turn), [number] * 50)
        found = store.find(KEY)
        assert found is None or found == [found[0]] * 500
    store.close()


def test_several_processes_write_at_once(tmp_path: Path) -> None:
    context = get_context("spawn")
    writers = [context.Process(target=_write, args=(str(tmp_path), number)) for number in range(4)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()

    assert [writer.exitcode for writer in writers] == [0, 0, 0, 0]
    assert not [path for path in list_entries(tmp_path) if path.suffix != ".json"]


@pytest.mark.parametrize(
    ("environment", "folder"),
    [
        ({"RIGMINT_CACHE": "/somewhere/else"}, "/somewhere/else/1"),
        ({"RIGMINT_CACHE": ""}, None),
        ({"XDG_CACHE_HOME": "/caches"}, "/caches/rigmint/1"),
        ({"HOME": "/home/prep"}, "/home/prep/.cache/rigmint/1"),
        ({"XDG_CACHE_HOME": "relative"}, None),
    ],
)
def test_where_the_folder_lies(
    monkeypatch: pytest.MonkeyPatch, environment: dict[str, str], folder: str | None
) -> None:
    monkeypatch.setattr(cache_store.sys, "platform", "linux")
    for name in ("RIGMINT_CACHE", "XDG_CACHE_HOME", "HOME"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environment.items():
        monkeypatch.setenv(name, value)

    assert (open_store()._folder, open_store().is_on) == (folder, folder is not None)
