"""Level 1: files that people wrote become records, every mistake with its line."""
