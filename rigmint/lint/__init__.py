"""Findings, rules, packs and the engine that runs them."""
