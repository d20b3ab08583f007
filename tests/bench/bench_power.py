"""How long the power studies of whole rigs take, and how that grows. Run from the top of the checkout:

    python tests/bench/bench_power.py            all sizes, one line each
    python tests/bench/bench_power.py 40 400     these sizes

A rig of N items is N/10 groups of battery, plate, breakout, camera, driver, two motors on its bus, sender, monitor and
lamp, with a lead to each and picture from each group to the next, so that shields make one circuit of all. Two setups,
one with the lamps off. CPU ms, best of several runs, imports done:

    solve     one operating point, from nothing
    points    the circuit and its three points with a margin each, one setup
    runtime   the discharge of all batteries together, one setup
    rig       both setups: network, points and runtime, which is all that rules and `rigmint power` ask
    growth    of `rig`, against the size before: the exponent
"""

from __future__ import annotations

import math
import sys
import time
from collections.abc import Callable

from rigmint.graph.build_pins import build_pin_network
from rigmint.graph.presence import Presence
from rigmint.library.build_rig import assemble_rig
from rigmint.library.faults import FaultList
from rigmint.library.library_file import Library, load_library
from rigmint.library.yaml import parse_yaml
from rigmint.rig.rig import Rig
from rigmint.study.power import study_power
from rigmint.study.runtime import study_runtime

SIZES = (10, 40, 100, 400)
_RUNS = 5
_KIT = """\
  battery_N:  generic/battery-150wh-wedge
  plate_N:    generic/plate-wedge-two-tap
  breakout_N: generic/breakout-four-2pin
  camera_N:   generic/camera-compact
  driver_N:   generic/motor-driver-three
  motor_f_N:  {part: generic/lens-motor, set: {axis: focus}}
  motor_i_N:  {part: generic/lens-motor, set: {axis: iris}}
  sender_N:   generic/sender-5ghz-long
  monitor_N:  {part: generic/monitor-5in-loop, rides: tilt}
  lamp_N:     generic/light-on-board
"""
_LEADS = """\
  A_N: {part: generic/lead-tap-to-2pin, from: plate_N.tap_1, to: breakout_N.in}
  B_N: {part: generic/lead-2pin, from: breakout_N.out_1, to: camera_N.dc_in}
  C_N: {part: generic/lead-2pin, from: breakout_N.out_2, to: driver_N.dc_in}
  D_N: {part: generic/lead-2pin-long, from: breakout_N.out_3, to: sender_N.dc_in}
  E_N: {part: generic/lead-2pin, from: breakout_N.out_4, to: monitor_N.dc_in}
  F_N: {part: generic/lead-tap-to-2pin, from: plate_N.tap_2, to: lamp_N.dc_in}
  G_N: {part: generic/lead-bus, from: driver_N.motor_1, to: motor_f_N.bus_1}
  H_N: {part: generic/lead-bus-short, from: motor_f_N.bus_2, to: motor_i_N.bus_1}
  I_N: {part: generic/lead-sdi, from: camera_N.sdi_1, to: monitor_N.sdi_in}
"""
_JOINT = "  J_N: {part: generic/lead-sdi-10m, from: monitor_N.sdi_out, to: sender_M.sdi_in}\n"


def write_rig(items: int) -> str:
    """The text of a rig of `items` items (a multiple of ten)."""
    groups = range(1, items // 10 + 1)
    kit = "".join(_KIT.replace("N", str(group)) for group in groups)
    leads = "".join(_LEADS.replace("_N", f"_{group}") for group in groups)
    leads += "".join(
        _JOINT.replace("_N", f"_{group}").replace("_M", f"_{group + 1}") for group in groups if group + 1 in groups
    )
    docks = "".join(f"  - battery_{group}.mount > plate_{group}.battery\n" for group in groups)
    lamps = ", ".join(f"lamp_{group}" for group in groups)
    setups = f"setups:\n  lit: {{}}\n  dark: {{off: [{lamps}]}}\n"
    return f"rigmint: 1\nrig: bench of {items}\nkit:\n{kit}docks:\n{docks}leads:\n{leads}{setups}"


def read_rig_text(text: str, library: Library) -> Rig:
    """The rig in a text. Raises ValueError where it has faults."""
    faults = FaultList()
    document = parse_yaml(text, "bench.rig.yaml", faults)
    rig = assemble_rig(document, library, faults).rig if document is not None else None
    if rig is None:
        msg = f"the bench's own rig has faults: {faults.found[:3]}"
        raise ValueError(msg)
    return rig


def measure(rig: Rig, library: Library) -> dict[str, float]:
    """CPU ms of each part of the work."""
    setup = next(iter(rig.setups.values()))
    house = library.house
    network = build_pin_network(rig, Presence.of(setup))
    power = study_power(rig, setup, network, house)

    def study_all() -> None:
        for one in rig.setups.values():
            pins = build_pin_network(rig, Presence.of(one))
            study_runtime(rig, one, study_power(rig, one, pins, house), house)

    return {
        "solve": time_best(lambda: power.network.solve()),
        "points": time_best(lambda: study_power(rig, setup, network, house)),
        "runtime": time_best(lambda: study_runtime(rig, setup, power, house)),
        "rig": time_best(study_all),
    }


def time_best(run: Callable[[], object]) -> float:
    """CPU ms, the best of a few runs."""
    best = math.inf
    for _ in range(_RUNS):
        start = time.process_time()
        run()
        best = min(best, 1e3 * (time.process_time() - start))
    return best


def main(sizes: tuple[int, ...]) -> None:
    """Print a line a size."""
    library = load_library(None)
    print("items     solve    points   runtime       rig    growth")
    before: tuple[int, float] | None = None
    for size in sizes:
        figures = measure(read_rig_text(write_rig(size), library), library)
        growth = math.log(figures["rig"] / before[1]) / math.log(size / before[0]) if before else math.nan
        print(f"{size:5}" + "".join(f"{value:10.2f}" for value in figures.values()) + f"{growth:10.2f}")
        before = (size, figures["rig"])


if __name__ == "__main__":
    main(tuple(int(word) for word in sys.argv[1:]) or SIZES)
