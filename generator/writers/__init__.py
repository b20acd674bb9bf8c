"""Level 6: values become bytes, the same bytes every time."""
