"""What tests tried, for the summary at the end of a run."""

from __future__ import annotations

from collections import Counter

TRIED: Counter[str] = Counter()
"""What, in words, to how many inputs were tried."""
