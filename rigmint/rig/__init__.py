"""What a rig is: frozen dataclasses in SI units. Knows nothing of files."""
