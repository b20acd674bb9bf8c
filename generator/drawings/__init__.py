"""Level 5: one file per drawing, made for the person who reads it."""
