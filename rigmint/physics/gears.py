"""Spur gears: module and pitch, ratio, torque and travel; and a wheel of limited turn that drives a ring by speed.

Ring and motor gear are spur gears of standard teeth: pitch p = pi m, ratio i = z2 / z1, n1 z1 = n2 z2, T2 = T1 i
without losses. Modules are those of DIN 780-1 and JIS B 1701-2 (0.5, 0.8, 1.0 mm among them); m = 25.4 mm / DP.
"""

import math

_PITCH_TOLERANCE = 0.003
"""Share of the pitch: a module rounded to three digits passes, 32 DP (0.79375 mm) against 0.8 mm (0.8 %) does not."""


def find_module(diametral_pitch: float) -> float:
    """Module in m of a gear with so many teeth per m of its pitch diameter. Raises ValueError unless above zero."""
    if not diametral_pitch > 0.0:
        msg = f"no module follows from {diametral_pitch} teeth a metre"
        raise ValueError(msg)
    return 1.0 / diametral_pitch


def compute_pitch(module: float) -> float:
    """Distance in m from tooth to tooth along the pitch circle."""
    return math.pi * module


def do_mesh(module: float, other: float) -> bool:
    """Whether gears of these modules (m) run together: their pitches must be the same."""
    first, second = compute_pitch(module), compute_pitch(other)
    return abs(first - second) <= _PITCH_TOLERANCE * max(first, second)


def compute_ratio(ring_teeth: int, motor_teeth: int) -> float:
    """Turns of the motor's gear for one turn of the ring. Raises ValueError unless both have teeth."""
    if ring_teeth < 1 or motor_teeth < 1:
        msg = f"no ratio follows from {ring_teeth} and {motor_teeth} teeth"
        raise ValueError(msg)
    return ring_teeth / motor_teeth


def compute_travel_time(turn: float, ratio: float, speed: float) -> float:
    """s in which a motor of `speed` (rad/s) takes a ring through `turn` (rad). Raises ValueError without speed."""
    if not speed > 0.0:
        msg = f"a ring gets nowhere at {speed} rad/s"
        raise ValueError(msg)
    return turn * ratio / speed


def compute_coverage(lengths_a_turn: float, turn: float) -> float:
    """Ring lengths that a wheel covers within its `turn` (rad), at so many ring lengths for a full turn of it."""
    return lengths_a_turn * turn / math.tau


def compute_leftover(lengths_a_turn: float, turn: float) -> float:
    """rad of the wheel's turn that are left over once the ring is covered; 0 where it is not."""
    if not lengths_a_turn > 0.0:
        return 0.0
    return max(0.0, turn - math.tau / lengths_a_turn)


def compute_ring_steps(steps_a_turn: float, ratio: float, turn: float) -> float:
    """Motor steps from end to end of a ring that turns by `turn` (rad)."""
    return steps_a_turn * ratio * turn / math.tau


def compute_wheel_steps(ring_steps: float, lengths_a_turn: float) -> float:
    """Motor steps for each rad of a wheel, at so many ring lengths for a full turn of it."""
    return ring_steps * lengths_a_turn / math.tau
