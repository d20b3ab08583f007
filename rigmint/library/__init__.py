"""Reads files: YAML with positions, schemas, the catalogue, house settings, assembly into a Rig."""
