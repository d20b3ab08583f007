"""Physics and search applied to a rig in a setup; each study is computed once, on first use, and shared by rules."""
