"""Misplugs: every wrong mating that the connectors allow, and what each of them would do.

- `mistakes`: one mistake, and the rig as it then is
- `moves`, `swaps`, `turns`: all mistakes of a kind
- `metal`, `wired`: the volts of one wiring, computed anew only where leads change
- `burns`: what can be destroyed; `losses`: what no longer works
- `study`: all of it
"""
