"""User text inside Markdown: what was typed is what is read, whatever characters it holds.

Only what could act is escaped, so that the remodeler who edits the preview meets few backslashes.
"""

from __future__ import annotations

import re

from journal_tui.domain.text import one_line

#: Act anywhere in a line: CommonMark 0.31.2 sections 2.4 (backslash), 6.1 (code), 6.2 (emphasis),
#: 6.3 and 6.4 (links, images: the bracket is enough), 6.5 and 6.6 (autolinks, raw HTML: the ``<``).
#: ``~`` and ``|`` are no CommonMark, but many renderers strike through and draw tables with them.
_ANYWHERE = re.compile(r"[\\`*_\[\]<~|]")
#: Section 2.5: an ampersand acts only when it begins a character reference.
_REFERENCE = re.compile(r"&(?=#[0-9]{1,7};|#[xX][0-9a-fA-F]{1,6};|[A-Za-z][A-Za-z0-9]{0,31};)")
#: Sections 4.1, 4.2, 4.3, 5.1, 5.2: what begins a block when it is first in a line.
_FIRST = re.compile(r"^(?:(?=[#>=+\-])|(?P<number>\d{1,9})(?=[.)](?:\s|$)))")
#: Section 4.2: a heading loses a run of ``#`` at its end.
_LAST = re.compile(r"#+$")


def escape_inline(text: str) -> str:
    """Return ``text`` as CommonMark that renders to ``domain.text.one_line(text)``, in any position.

    The result is one line without leading or trailing blanks: line breaks and tabs are blanks in it,
    control characters are shown, and no mark-up, link, HTML or character reference in it acts.
    """
    line = one_line(text).strip(" ")
    line = _ANYWHERE.sub(lambda m: "\\" + m.group(), line)
    line = _REFERENCE.sub(r"\\&", line)
    line = _LAST.sub(lambda m: "\\#" * len(m.group()), line)
    if line.startswith("\\"):
        return line
    return _FIRST.sub(lambda m: (m.group("number") or "") + "\\", line)
