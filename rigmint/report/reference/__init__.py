"""The whole reference, generated: codes from the rules, file keys from the schemas, the pack contract from the code."""
