"""What differs between two rigs, by what it does: kit, settings, volts, hands, reach, runtime.

Each module compares one study of two rigs and gives back frozen records, in the order in which they are shown.
"""
