"""Level 1: files that people wrote become records, every mistake with its line."""

from generator.reading.catalogue import load_catalogue
from generator.reading.describe import Row, describe
from generator.reading.room import read_room
from generator.reading.schema import room_schema

__all__ = ["Row", "describe", "load_catalogue", "read_room", "room_schema"]
