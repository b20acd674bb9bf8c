"""Level 7: what changed between two builds, for a person to read."""
