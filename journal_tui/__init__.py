"""journal_tui: a remodeler's site journal over one SQLite file."""

__version__ = "0.1.0"
