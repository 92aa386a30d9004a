"""The optional packages: loaded when first needed, and what to install where one is missing."""

from __future__ import annotations

import importlib
import importlib.util
from types import ModuleType

from journal_tui.domain.errors import BadInput

VIDEO = "video"
SPEECH = "speech"


class NotInstalled(BadInput):
    """Something asked for needs an extra that is not installed; ``extra`` is its name."""

    def __init__(self, extra: str, purpose: str, instead: str = "") -> None:
        super().__init__(f"{purpose} needs the {extra} extra", f"{how_to_install(extra)}. {instead}".strip())
        self.extra = extra


def how_to_install(extra: str) -> str:
    """Return how to install an extra, in a few words."""
    return f'pip install "journal-tui[{extra}]" brings it'


def installed(*modules: str) -> bool:
    """True when every module named can be loaded; nothing is loaded to find out."""
    return all(importlib.util.find_spec(name) is not None for name in modules)


def needed(module: str, extra: str, purpose: str) -> ModuleType:
    """Return ``module``, loaded. Raises ``NotInstalled``, saying what for, when it cannot be."""
    try:
        return importlib.import_module(module)
    except ImportError:
        raise NotInstalled(extra, purpose) from None
