"""`rigmint mend`: what it writes, what it says, what it refuses."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import rigmint.lint.packs
from rigmint.commands import main
from rigmint.lint.packs import PackSet

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
LIBRARY = "rigmint_library: 1\ntitle: Kestrel Hire\nparts: [parts]\n"
RIG = """\
# the second head
rigmint: 1
rig: "Saltmarsh, pan left in follow mode"
like: base.rig.yaml
settings:
  head.follow_pan: on       # from the last job
leads:
  P4: {from: breakout.out_2}
"""
TODAY = ("--today", "2026-05-02")


@pytest.fixture
def rig(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A rig with two faults that can be mended, in a library with the parts of the examples."""
    shutil.copytree(EXAMPLES / "parts", tmp_path / "parts")
    (tmp_path / "rigmint.yaml").write_text(LIBRARY, encoding="utf-8")
    base = (EXAMPLES / "rigs" / "saltmarsh-two-up.rig.yaml").read_text(encoding="utf-8")
    (tmp_path / "base.rig.yaml").write_text(base, encoding="utf-8")
    path = tmp_path / "head.rig.yaml"
    path.write_text(RIG, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return path


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, [*arguments, "--plain"])


def mend(*arguments: str) -> Result:
    return run("mend", "head.rig.yaml", *TODAY, *arguments)


def test_mends_the_worst_first_and_says_what_is_to_be_done(rig: Path) -> None:
    result = mend()

    assert result.exit_code == 0, result.output
    assert rig.read_text(encoding="utf-8") == RIG.replace("pan: on ", "pan: off ").replace("out_2", "out_3")
    assert [line for line in result.output.splitlines() if line.startswith("mended")] == [
        "mended fit:port-taken                                line 8",
        "mended follow:on                                     line 6",
    ]
    assert "       Done: Plug P4 into breakout.out_3, which is free." in result.output
    assert "2 mended, 0 left." in result.output
    assert "The file is mended, the rig is not" in result.output
    assert run("check", "head.rig.yaml").exit_code == 0


def test_mends_nothing_twice(rig: Path) -> None:
    mend()
    after = rig.read_bytes()

    assert "0 mended, 0 left." in mend().output
    assert rig.read_bytes() == after


def test_shows_the_change_as_a_diff_that_applies(rig: Path, tmp_path: Path) -> None:
    result = mend("--show")

    assert (result.exit_code, rig.read_text(encoding="utf-8")) == (0, RIG)
    (tmp_path / "change.diff").write_text(result.output, encoding="utf-8")
    subprocess.run(["patch", "-p0", "-i", "change.diff"], cwd=tmp_path, check=True, capture_output=True)
    shown = rig.read_text(encoding="utf-8")
    rig.write_text(RIG, encoding="utf-8")
    mend()
    assert rig.read_text(encoding="utf-8") == shown


@pytest.mark.parametrize("text", [RIG.replace("\n", "\r\n"), "\ufeff" + RIG, RIG.rstrip("\n")])
def test_keeps_line_ends_and_the_first_and_last_bytes(rig: Path, text: str) -> None:
    rig.write_bytes(text.encode())
    mend()

    assert rig.read_bytes() == text.replace("pan: on ", "pan: off ").replace("out_2", "out_3").encode()


def test_shows_a_last_line_without_its_end_as_such(rig: Path) -> None:
    rig.write_bytes(RIG.rstrip("\n").encode())

    assert "\\ No newline at end of file\n" in mend("--show").output


def test_one_setup_alone(rig: Path) -> None:
    rig.write_text(RIG.replace("  P4: {from: breakout.out_2}\n", "  P4: {}\n"), encoding="utf-8")
    result = run("mend", "head.rig.yaml", "--setup", "three_up", *TODAY)

    assert result.exit_code == 2
    assert "there is no setup `three_up`" in result.output


def test_mends_every_rig_of_a_folder(rig: Path, tmp_path: Path) -> None:
    result = run("mend", ".", *TODAY)

    assert result.exit_code == 0
    assert "base.rig.yaml   nothing to mend" in result.output
    assert "2 mended, 0 left." in result.output
    assert rig.read_text(encoding="utf-8") != RIG
    assert sorted(path.name for path in tmp_path.iterdir()) == [
        "base.rig.yaml",
        "head.rig.yaml",
        "parts",
        "rigmint.yaml",
    ]


def test_what_is_inherited_is_overridden_and_the_other_file_left_alone(rig: Path, tmp_path: Path) -> None:
    base = tmp_path / "base.rig.yaml"
    text = base.read_text(encoding="utf-8").replace("head.follow_pan: off", "head.follow_pan: on")
    base.write_text(text, encoding="utf-8")
    rig.write_text("rigmint: 1\nrig: Saltmarsh\nlike: base.rig.yaml\n", encoding="utf-8")
    result = mend()

    assert "1 mended, 0 left." in result.output
    assert rig.read_text(encoding="utf-8") == (
        "rigmint: 1\nrig: Saltmarsh\nlike: base.rig.yaml\nsettings: {head.follow_pan: off}\n"
    )
    assert base.read_text(encoding="utf-8") == text


def test_a_rig_that_others_start_from_is_mended_first(rig: Path, tmp_path: Path) -> None:
    base = tmp_path / "base.rig.yaml"
    text = base.read_text(encoding="utf-8")
    base.write_text(text.replace("head.follow_pan: off", "head.follow_pan: on"), encoding="utf-8")
    rig.rename(tmp_path / "above.rig.yaml").write_text(
        "rigmint: 1\nrig: Saltmarsh\nlike: base.rig.yaml\n", encoding="utf-8"
    )
    result = run("mend", ".", *TODAY)

    assert "1 mended, 0 left." in result.output
    assert base.read_text(encoding="utf-8") == text


def test_a_file_that_cannot_be_read_is_left_alone(rig: Path) -> None:
    rig.write_text(RIG.replace("head.follow_pan", "head.folow_pan"), encoding="utf-8")
    result = mend()

    assert result.exit_code == 2
    assert "did you mean `follow_pan`?" in " ".join(result.output.split())


def test_nothing_is_proved_without_a_standard_pack(rig: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rigmint.lint.packs, "load_packs", lambda: PackSet((), ()))
    result = mend()

    assert result.exit_code == 2
    assert "could not be judged whole" in result.output
    assert rig.read_text(encoding="utf-8") == RIG


SIGN = ("--accept", "follow:on", "--at", "head.set.follow_pan", "--why", "Pan is flown by hand: a joke", "--by", "prep")


def test_signs_for_a_finding(rig: Path) -> None:
    result = mend(*SIGN, "--until", "2026-06-30")

    assert result.exit_code == 0, result.output
    assert rig.read_text(encoding="utf-8") == RIG + (
        "accepted:\n"
        '  - {code: "follow:on", at: head.set.follow_pan, why: "Pan is flown by hand: a joke", by: prep, until: 2026-06-30}\n'
    )
    checked = run("check", "head.rig.yaml", *TODAY)
    assert "follow:on" not in checked.output
    assert "1 accepted" in checked.output
    late = run("check", "head.rig.yaml", "--today", "2026-07-01")
    assert "accepted:expired" in late.output
    assert "follow:on" in late.output


def test_what_is_signed_for_is_not_mended(rig: Path) -> None:
    mend(*SIGN)
    mend()

    assert "head.follow_pan: on " in rig.read_text(encoding="utf-8")


def test_an_entry_that_has_expired_is_signed_anew_in_its_place(rig: Path) -> None:
    mend(*SIGN, "--until", "2026-06-30")
    again = run(
        "mend", "head.rig.yaml", *SIGN[:6], "--by", "first AC", "--until", "2026-12-31", "--today", "2026-07-01"
    )

    assert again.exit_code == 0, again.output
    assert rig.read_text(encoding="utf-8").count("follow:on") == 1
    assert "by: first AC, until: 2026-12-31}" in rig.read_text(encoding="utf-8")


def test_a_stale_entry_is_taken_out(rig: Path) -> None:
    mend(*SIGN)
    rig.write_text(rig.read_text(encoding="utf-8").replace("pan: on ", "pan: off "), encoding="utf-8")
    result = mend()

    assert "mended accepted:stale" in result.output
    assert "accepted" not in rig.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("--accept", "follow:on", "--at", "head"), "--accept needs --why, --by too"),
        (("--at", "head"), "--at belongs to --accept CODE"),
        ((*SIGN[:2], "--at", "lens", *SIGN[4:]), "follow:on is not found at lens; it is found at head.pan (cause"),
        (("--accept", "folow:on", *SIGN[2:]), "did you mean follow:on?"),
        ((*SIGN, "--until", "2026-05-01"), "2026-05-01 is over"),
        ((*SIGN, "--setup", "three_up"), "is not found at head.set.follow_pan in the setup three_up"),
        ((*SIGN, "--up-to", "45 min"), "follow:on has no value that --up-to could be held against"),
        ((*SIGN, "--up-to", "45 apples"), "apples"),
        ((*SIGN[:-1], " "), "neither may be empty"),
    ],
)
def test_what_is_not_signed(rig: Path, arguments: tuple[str, ...], says: str) -> None:
    result = mend(*arguments)

    assert result.exit_code == 2, result.output
    assert says in result.output
    assert rig.read_text(encoding="utf-8") == RIG


def test_what_burns_is_signed_for_only_until_a_day(rig: Path) -> None:
    text = RIG.replace("  P4: {from: breakout.out_2}", "  P2: {part: generic/lead-2pin-plus-first}")
    rig.write_text(text, encoding="utf-8")
    sign = ("--accept", "polarity:shorted", "--at", "P2", "--why", "not plugged in", "--by", "prep")

    assert "it is signed for only until a day, with --until" in mend(*sign).output
    assert mend(*sign, "--until", "2026-05-03").exit_code == 0


def test_a_value_that_is_signed_for(rig: Path) -> None:
    text = RIG.replace("  P4: {from: breakout.out_2}\n", "  P4: {}\nneeds: {runtime: 5 h}\n")
    rig.write_text(text.replace("pan: on ", "pan: off "), encoding="utf-8")
    sign = ("--accept", "runtime:short", "--at", "battery", "--why", "Swapped at each reset", "--by", "prep")
    found = run("check", "head.rig.yaml", *TODAY).output
    assert "battery lasts about" in found

    assert "runtime:short is measured in s, and --up-to 16 V is not" in mend(*sign, "--up-to", "16 V").output
    assert "it is beyond --up-to 299 min already" in mend(*sign, "--up-to", "299 min").output
    assert mend(*sign, "--up-to", "20 min").exit_code == 0
    assert "battery lasts about" not in run("check", "head.rig.yaml", *TODAY).output
    rig.write_text(rig.read_text(encoding="utf-8").replace("up_to: 20 min", "up_to: 16 V"), encoding="utf-8")
    wrong = run("check", "head.rig.yaml", *TODAY)
    assert (wrong.exit_code, "file:wrong-unit" in wrong.output) == (2, True)
    assert "is given as a voltage, and it is measured in s" in " ".join(wrong.output.split())
