"""`kestrel:no-asset`: what is said. Its rigs are in rigs/."""

from __future__ import annotations

from rigmint.testing import BenchRig, assert_finds, check_text

LENS = "generic/lens-prime-compact"


def test_lists_what_has_no_number() -> None:
    rig = BenchRig("Saltmarsh, on the bench").put("lens_a", LENS, here=True).put("lens_b", LENS)
    finding = assert_finds(check_text(rig.text), "kestrel:no-asset", line=rig.line, at="lens_a", cause="lens_a")

    assert (finding.also, finding.says) == (("lens_b",), "No asset number for lens_a and lens_b.")
