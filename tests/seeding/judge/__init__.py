"""What is wrong with a rig, told from its YAML and the parts' data by brute force: no code of rigmint is used here."""
