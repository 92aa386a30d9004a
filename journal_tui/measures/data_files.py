"""Reading the tables that come with the package."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def table(name: str) -> dict[str, Any]:
    """Return the package's data file ``name`` (without ``.toml``), read once."""
    text = files("journal_tui.measures").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)
