"""Level 2: where everything goes, and why."""
