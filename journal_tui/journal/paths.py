"""Paths as people type them."""

from __future__ import annotations

from pathlib import Path


def expanded(path: Path) -> Path:
    """Return ``path`` with a leading ``~`` made the home folder; as it is when there is no such home."""
    try:
        return path.expanduser()
    except RuntimeError:
        return path
