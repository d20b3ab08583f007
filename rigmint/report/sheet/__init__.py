"""The prep sheet: one self-contained page. Each module gathers one section's view; `templates/` lays it out."""
