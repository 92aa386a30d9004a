"""Facts to documents: the client update and the punch list as Markdown, HTML, text and tables.

Pure functions over the domain: nothing is read but the data files of this package, nothing written.
Names are loaded when first used, so that a list on screen that only needs a column padded does not
wait for the letter writer.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from journal_tui.documents.edits import Conflict, MergedText, merge_edits, unsettled
    from journal_tui.documents.escape import escape_inline
    from journal_tui.documents.flesch import Readability, readability
    from journal_tui.documents.glossary import Glossary, read_glossary, standard_glossary
    from journal_tui.documents.punch import punch_markdown, punch_text
    from journal_tui.documents.punch_table import punch_csv, punch_json
    from journal_tui.documents.render import html_page, plain_text
    from journal_tui.documents.update import update_markdown

__all__ = [
    "Conflict",
    "Glossary",
    "MergedText",
    "Readability",
    "escape_inline",
    "html_page",
    "merge_edits",
    "plain_text",
    "punch_csv",
    "punch_json",
    "punch_markdown",
    "punch_text",
    "read_glossary",
    "readability",
    "standard_glossary",
    "unsettled",
    "update_markdown",
]

_HOME = {
    "edits": ("Conflict", "MergedText", "merge_edits", "unsettled"),
    "escape": ("escape_inline",),
    "flesch": ("Readability", "readability"),
    "glossary": ("Glossary", "read_glossary", "standard_glossary"),
    "punch": ("punch_markdown", "punch_text"),
    "punch_table": ("punch_csv", "punch_json"),
    "render": ("html_page", "plain_text"),
    "update": ("update_markdown",),
}


def __getattr__(name: str) -> object:
    for module, names in _HOME.items():
        if name in names:
            return getattr(import_module(f"{__name__}.{module}"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
