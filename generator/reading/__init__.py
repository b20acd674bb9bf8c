"""Level 1: files that people wrote become records, every mistake with its line."""

from generator.reading.catalogue import load_catalogue
from generator.reading.room import read_room

__all__ = ["load_catalogue", "read_room"]
