"""Level 4: what must be true, one small function per rule."""
