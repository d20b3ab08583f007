"""Reports: pure functions from results to text. They compute nothing."""
