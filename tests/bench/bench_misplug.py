"""How long the misplugs of a rig take, and the warning of them in a check. Run from the top of the checkout:

    python tests/bench/bench_misplug.py                     the rig below, and each example
    python tests/bench/bench_misplug.py examples/rigs       rig files, or folders of them

The rig below has 25 items and 40 leads: one battery, four breakouts in a tree, a camera with driver, three motors on
two ways of a bus and a range finder, eight monitors and two recorders in a chain of loops. CPU ms, imports and reading
done, nothing kept from one to the next:

    tried     misplugs: ends moved, leads swapped for those of the rig and of the installed catalogue, turned, forced
    all       every misplug with its outcome, first setup: at most 1000 for the rig below
    hazards   what `misplug:burns` asks in a check, every setup, once the rest of a check has its volts
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

from rigmint.library.build_rig import assemble_rig, read_rig
from rigmint.library.faults import FaultList
from rigmint.library.find_files import find_rig_files
from rigmint.library.library_file import Library, find_library_file, load_library
from rigmint.library.yaml import parse_yaml
from rigmint.rig.rig import Rig
from rigmint.study.misplug.study import study_misplugs
from rigmint.study.studies import Studies

EXAMPLES = Path(__file__).parents[2] / "examples"
_MONITORS = range(1, 9)
_KIT = """\
  battery:  generic/battery-150wh-wedge
  plate:    generic/plate-wedge-two-tap
  camera:   generic/camera-compact
  head:     {part: generic/head-handheld, set: {mode: custom, dial: none}}
  driver:   generic/motor-driver-three
  motor_f:  {part: generic/lens-motor, set: {axis: focus}}
  motor_i:  {part: generic/lens-motor, set: {axis: iris}}
  motor_z:  {part: generic/lens-motor, set: {axis: zoom}}
  finder:   generic/range-finder
  clock:    generic/timecode-box
  rec_1:    {part: generic/recorder-sdi, rides: tilt}
  rec_2:    {part: generic/recorder-sdi, rides: tilt}
  lamp:     generic/light-on-board
"""
_LEADS = """\
  T1: {part: generic/lead-tap-to-2pin, from: plate.tap_1, to: split_1.in}
  T2: {part: generic/lead-tap-to-2pin, from: plate.tap_2, to: split_2.in}
  T3: {part: generic/lead-2pin, from: split_1.out_4, to: split_3.in}
  T4: {part: generic/lead-2pin, from: split_2.out_4, to: split_4.in}
  P1: {part: generic/lead-2pin, from: split_1.out_1, to: camera.dc_in}
  P2: {part: generic/lead-2pin, from: split_1.out_2, to: driver.dc_in}
  P3: {part: generic/lead-2pin, from: split_1.out_3, to: rec_1.dc_in}
  P4: {part: generic/lead-2pin, from: split_2.out_1, to: rec_2.dc_in}
  P5: {part: generic/lead-2pin, from: split_2.out_2, to: lamp.dc_in}
  M1: {part: generic/lead-bus, from: driver.motor_1, to: motor_f.bus_1}
  M2: {part: generic/lead-bus-short, from: motor_f.bus_2, to: motor_i.bus_1}
  M3: {part: generic/lead-bus, from: driver.motor_2, to: motor_z.bus_1}
  M4: {part: generic/lead-bus-no-power, from: motor_i.bus_2, to: motor_z.bus_2}
  D1: {part: generic/loom-head-y, ends: {a: driver.head, b: head.accessory, c: head.record}}
  D2: {part: generic/lead-range-finder, from: driver.finder, to: finder.data}
  R1: {part: generic/lead-run, from: driver.run, to: camera.remote}
  K1: {part: generic/lead-timecode, from: clock.tc, to: camera.tc_in}
  S0: {part: generic/lead-sdi, from: camera.sdi_1, to: mon_1.sdi_in}
  S8: {part: generic/lead-sdi, from: mon_8.sdi_out, to: rec_1.sdi_in}
  S9: {part: generic/lead-sdi, from: camera.sdi_2, to: rec_2.sdi_in}
  C1: {part: generic/lead-usb-c-charge, from: head.usb, to: loose}
  X1: {part: generic/lead-2pin-long, from: split_4.out_4, to: loose}
  X2: {part: generic/lead-sdi-1m, from: rec_1.sdi_out, to: loose}
  X3: {part: generic/lead-sdi-1m, from: rec_2.sdi_out, to: loose}
  X4: {part: generic/lead-bus, from: driver.motor_3, to: loose}
"""


def write_rig() -> str:
    """The text of the rig of 25 items and 40 leads."""
    kit = _KIT + "".join(f"  split_{n}: {{part: generic/breakout-four-2pin, rides: tilt}}\n" for n in range(1, 5))
    kit += "".join(f"  mon_{n}: {{part: generic/monitor-5in-loop, rides: tilt}}\n" for n in _MONITORS)
    outs = ["split_2.out_3", *(f"split_{s}.out_{n}" for s in (3, 4) for n in range(1, 5))]
    leads = _LEADS + "".join(
        f"  F{n}: {{part: generic/lead-2pin, from: {outs[n - 1]}, to: mon_{n}.dc_in}}\n" for n in _MONITORS
    )
    leads += "".join(
        f"  S{n}: {{part: generic/lead-sdi, from: mon_{n}.sdi_out, to: mon_{n + 1}.sdi_in}}\n" for n in _MONITORS[:-1]
    )
    return f"rigmint: 1\nrig: bench\nkit:\n{kit}docks: [battery.mount > plate.battery]\nleads:\n{leads}"


def read_rig_text(text: str, library: Library) -> Rig:
    """The rig in a text. Raises ValueError where it has faults."""
    faults = FaultList()
    document = parse_yaml(text, "bench.rig.yaml", faults)
    rig = assemble_rig(document, library, faults).rig if document is not None else None
    if rig is None:
        msg = f"the bench's own rig has faults: {faults.found[:3]}"
        raise ValueError(msg)
    return rig


def measure(rig: Rig, library: Library, runs: int) -> tuple[int, float, float]:
    """Misplugs tried, CPU ms of all of them, and of the hazards: the best of a few runs."""
    leads = library.catalogue.list_leads()
    tried, all_ms, hazard_ms = 0, float("inf"), float("inf")
    for _ in range(runs):
        start = time.process_time()
        tried = study_misplugs(Studies(rig, library.house), list(rig.setups)[:1], leads).tried
        all_ms = min(all_ms, 1e3 * (time.process_time() - start))
        studies = Studies(rig, library.house)
        for setup in rig.setups.values():
            studies.certain_volts(setup)
            studies.tied_sources(setup)
            studies.backfeeds(setup)
        start = time.process_time()
        for setup in rig.setups.values():
            studies.hazards(setup)
        hazard_ms = min(hazard_ms, 1e3 * (time.process_time() - start))
    return tried, all_ms, hazard_ms


def main(paths: list[Path]) -> None:
    """Print a line a rig."""
    print(f"{'rig':32}{'items':>7}{'leads':>7}{'tried':>7}{'all':>9}{'hazards':>9}")
    if not paths:
        library = load_library(None)
        _print_rig("bench", read_rig_text(write_rig(), library), library)
        paths = [EXAMPLES / "rigs"]
    for path in find_rig_files(paths)[0]:
        library = load_library(find_library_file(path))
        rig = read_rig(path, library).rig
        if rig is not None:
            _print_rig(path.name.removesuffix(".rig.yaml"), rig, library)


def _print_rig(name: str, rig: Rig, library: Library) -> None:
    tried, all_ms, hazard_ms = measure(rig, library, 3)
    print(f"{name:32}{len(rig.items):7}{len(rig.leads):7}{tried:7}{all_ms:9.0f}{hazard_ms:9.1f}")


if __name__ == "__main__":
    main([Path(word) for word in sys.argv[1:]])
