"""``python -m journal_tui``, the same as the command ``journal-tui``."""

from journal_tui.cli import main

if __name__ == "__main__":
    main()
