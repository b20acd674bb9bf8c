"""Level 2: what a person is asked about a room, as data; the paper form and the dialogue are made from the one list."""
