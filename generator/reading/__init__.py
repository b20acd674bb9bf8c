"""From files to records: the room file, the profile files, and the schema of what is read."""

from generator.reading.catalogue import load_catalogue

__all__ = ["load_catalogue"]
