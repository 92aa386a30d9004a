"""An update looked over, as lines of text: words to think of, what is left out, and single differences."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from journal_tui.cli.tables import paragraph, width
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    from journal_tui.journal.update_changes import Change, Check, LeftOut, Remark


def remark_lines(remarks: Sequence[Remark]) -> list[str]:
    """Return a line for each word the reader should not find, with where it stands and what to do."""
    return [f"line {one.line}: “{one_line(one.words)}” {one.advice}" for one in remarks]


def check_lines(check: Check) -> list[str]:
    """Return all that is to be thought of before an update is sent, nothing when there is nothing."""
    from journal_tui.journal.update_changes import parts

    lines: list[str] = []
    if check.remarks:
        lines += [f"Words to think of ({len(check.remarks)}):"]
        lines += [row for line in remark_lines(check.remarks) for row in paragraph(line, 2)]
    if check.not_told_line:
        lines += [*([""] if lines else []), f"{check.not_told_line}."]
    for title, some in parts(check):
        lines += [*([""] if lines else []), *paragraph(f"{title} ({len(some)}):")]
        lines += [row for one in some for row in _named(one)]
    return lines


def _named(one: LeftOut) -> list[str]:
    from journal_tui.journal.update_changes import SUMMED_UP

    place = f"{one_line(one.area)}: " if one.area.strip() else ""
    why = [] if one.why == SUMMED_UP else paragraph(f"({one.why})", 6)
    return [*paragraph(place + one_line(one.words), 2), *why]


def difference_lines(changes: Sequence[Change]) -> list[str]:
    """Return every difference with its number: "-" is the writer's, "+" the journal's."""
    from journal_tui.journal.formats import wrapped
    from journal_tui.journal.update_changes import rows

    lines: list[str] = []
    if changes:
        lines = paragraph(
            "- only you have it; + only the journal has it; ~ both, [-yours-] {+the journal's+}"
        )
    for number, change in enumerate(changes, 1):
        lines += ["", f"{number:>3}  {change.what}"]
        for row in rows(change):
            first, *rest = wrapped(one_line(row.text), width() - 7) or [""]
            lines += [f"     {row.sign} {first}", *(f"       {line}" for line in rest)]
    return lines
