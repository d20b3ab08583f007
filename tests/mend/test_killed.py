"""Broken off at any moment while it writes, mending leaves the old file or the new one, whole: the process is killed,
and the call refused, at each step that goes to the operating system."""

from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from rigmint.library.write_file import NotWritten, encode_text, replace_file

OLD = ("rig: Saltmarsh\nsettings: {head.follow_pan: on}\n" * 3000).encode()
NEW = ("rig: Saltmarsh\nsettings: {head.follow_pan: off}\n" * 3000).encode()
STEPS = ("open", "write", "fchown", "fchmod", "fsync", "close", "replace", "unlink", "stat")
"""What replace_file calls of `os`; Path.stat and Path.read_bytes come by os.stat and io.open."""

CHILD = """
import os, sys, errno
from pathlib import Path
from rigmint.library import write_file
target, count, how, old, new = Path(sys.argv[1]), int(sys.argv[2]), sys.argv[3], Path(sys.argv[4]), Path(sys.argv[5])
held, fresh = old.read_bytes(), new.read_bytes()
real = {name: getattr(os, name) for name in STEPS}
seen = 0

def step(name):
    def call(*args, **keys):
        global seen
        seen += 1
        if seen == count:
            if how == "raise":
                raise OSError(errno.EIO, "the disk fails")
            if how == "half" and name == "write":
                real["write"](args[0], bytes(args[1])[: len(args[1]) // 2])
            if how == "after":
                real[name](*args, **keys)
            os._exit(77)
        if name == "write":  # a little at a time, so that there are moments between
            return real["write"](args[0], bytes(args[1])[:40000])
        return real[name](*args, **keys)
    return call

for name in STEPS:
    setattr(os, name, step(name))
try:
    write_file.replace_file(target, held, fresh)
except write_file.NotWritten as error:
    print(error)
    sys.exit(3)
sys.exit(0 if seen < count else 4)
"""


def run_child(folder: Path, count: int, how: str) -> int:
    """Replace the file in another process, which fails at step `count`."""
    for name, data in (("old", OLD), ("new", NEW), ("x.rig.yaml", OLD)):
        (folder / name).write_bytes(data)
    code = CHILD.replace("STEPS", repr(STEPS))
    arguments = [str(folder / "x.rig.yaml"), str(count), how, str(folder / "old"), str(folder / "new")]
    return subprocess.run([sys.executable, "-c", code, *arguments], check=False, capture_output=True).returncode


@pytest.mark.parametrize("how", ["before", "after", "half"])
def test_a_killed_process_leaves_the_old_file_or_the_new_one(tmp_path: Path, how: str) -> None:
    """`before` and `after`: at each call, before or after it has done its work; `half`: in the middle of a write."""
    outcomes = []
    for count in range(1, 100):
        status = run_child(tmp_path, count, how)
        found = (tmp_path / "x.rig.yaml").read_bytes()
        assert found in (OLD, NEW), f"step {count}"
        outcomes.append(found == NEW)
        if status == 0:
            break

    assert len(outcomes) > 8
    assert (outcomes[0], outcomes[-1]) == (False, True)
    assert outcomes == sorted(outcomes)


def test_a_call_that_fails_leaves_the_old_file_and_nothing_beside_it(tmp_path: Path) -> None:
    """Once the name is changed, the new file stands, whatever fails then."""
    for count in range(1, 100):
        status = run_child(tmp_path, count, "raise")
        found = (tmp_path / "x.rig.yaml").read_bytes()
        assert found == (OLD if status == 3 else NEW), f"step {count}"
        assert list(tmp_path.glob(".*.tmp")) == [], f"step {count}"
        if status == 0:
            break

    assert count > 8


def test_what_is_left_beside_it_after_a_failure(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "x.rig.yaml"
    path.write_bytes(OLD)

    def fail(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(NotWritten, match=r"was not changed: no space left on device"):
        replace_file(path, OLD, NEW)

    assert [one.name for one in tmp_path.iterdir()] == ["x.rig.yaml"]
    assert path.read_bytes() == OLD


def test_a_file_that_somebody_else_changed_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "x.rig.yaml"
    path.write_bytes(b"rig: theirs\n")

    with pytest.raises(NotWritten, match="changed by somebody else"):
        replace_file(path, OLD, NEW)

    assert path.read_bytes() == b"rig: theirs\n"
    assert len(list(tmp_path.iterdir())) == 1


@pytest.mark.parametrize("mode", [0o600, 0o644, 0o664, 0o755])
def test_the_mode_is_kept(tmp_path: Path, mode: int) -> None:
    path = tmp_path / "x.rig.yaml"
    path.write_bytes(OLD)
    path.chmod(mode)

    replace_file(path, OLD, NEW)

    assert stat.S_IMODE(path.stat().st_mode) == mode


def test_a_link_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    path = tmp_path / "real" / "x.rig.yaml"
    path.write_bytes(OLD)
    link = tmp_path / "link.rig.yaml"
    link.symlink_to(Path("real") / "x.rig.yaml")

    replace_file(link, OLD, NEW)

    assert link.is_symlink()
    assert path.read_bytes() == NEW


def test_what_is_no_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(NotWritten, match="no regular file"):
        replace_file(tmp_path, b"", NEW)
    with pytest.raises(NotWritten, match="no such file"):
        replace_file(tmp_path / "x", b"", NEW)


def test_a_write_protected_file_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "x.rig.yaml"
    path.write_bytes(OLD)
    monkeypatch.setattr(os, "access", lambda *_: False)  # whoever runs this may be allowed everything

    with pytest.raises(NotWritten, match="write-protected"):
        replace_file(path, OLD, NEW)

    assert path.read_bytes() == OLD


def test_a_byte_order_mark_is_kept() -> None:
    assert encode_text("rig: é", b"\xef\xbb\xbfrig: e") == "\ufeffrig: é".encode()
    assert encode_text("rig: é", b"rig: e") == "rig: é".encode()
