"""Fault seeding: one real mistake at a time in sound rigs, an independent judgement of each, and what rigmint says.

    python -m tests.seeding [--seed N] [--each N] [--rigs N]

`bases` are the sound rigs as plain trees; `kinds/` make mistakes in a tree; `judge/` says what a tree's wiring, hands,
picture, radio and mechanics do wrong, from the YAML alone, by brute force and by ngspice; `compare` holds that against
the findings; `table` counts. Nothing under `judge/` imports rigmint.
"""
