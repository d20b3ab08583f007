"""Plausibility of part files: what the format allows and is hardly meant so."""
