"""Layout and purchase of boards: see `task` for the records."""

from generator.planning.layout.choose import choose_layout as choose_layout
