"""Blocking: what is added between studs to carry bars, seats, glass, fittings and level seams."""
