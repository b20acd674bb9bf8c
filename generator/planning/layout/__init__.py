"""Layout and purchase of boards: see `task` for the records and `choose` for the one function."""
