"""The things of the trade and their rules: no file, database or screen is known here."""
