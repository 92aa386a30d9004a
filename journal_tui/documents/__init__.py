"""Facts to documents: the client update and the punch list as Markdown, HTML, text and tables.

Pure functions over the domain: nothing is read but the data files of this package, nothing written.
"""

from journal_tui.documents.edits import Conflict, MergedText, merge_edits, unsettled
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary, read_glossary, standard_glossary
from journal_tui.documents.punch import punch_markdown, punch_text
from journal_tui.documents.punch_table import punch_csv, punch_json
from journal_tui.documents.readability import Readability, readability
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
