"""Level 4: ink on pages: lines, text, dimensions, and where they may stand."""
