"""How a client update looks on the screen: as it reads, or as the Markdown it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.cells import cell_len
from textual.content import Content

from journal_tui.domain.document import Block, BlockKind, SentDocument
from journal_tui.domain.text import visible
from journal_tui.domain.times import short_day
from journal_tui.journal.update_changes import Check
from journal_tui.journal.updates import Reading, UpdateDraft, cut_note, shown_part
from journal_tui.screens.lines import pieces
from journal_tui.screens.wrapping import hanging, wrapped

#: A line of prose longer than this is hard to follow from its end to the next one's beginning.
_MEASURE = 72
_MARGIN = "  "
#: Lines that begin like this set two wordings apart until one is chosen.
_CONFLICT = "[[ "


def page_lines(blocks: Sequence[Block], width: int) -> list[Content]:
    """Return a document as it reads, in lines for a width in cells."""
    lines: list[Content] = []
    room = max(8, min(width - 2 * len(_MARGIN), _MEASURE))
    under_heading = False
    for block in blocks:
        if block.kind is BlockKind.HEADING:
            lines += _heading(block, width)
            under_heading = block.level > 1
            continue
        if not under_heading:
            lines.append(Content(""))
        under_heading = False
        if block.kind is BlockKind.RULE:
            lines.append(pieces((_MARGIN + "─" * room, "$tick")))
        else:
            lines += _paragraph(block, room)
    return lines


def _heading(block: Block, width: int) -> list[Content]:
    text = "".join(run.text for run in block.runs)
    if block.level == 1:
        rows = wrapped(text, width - 2 * len(_MARGIN)) or [""]
        return [
            *(pieces((_MARGIN + row, "$mark bold")) for row in rows),
            pieces((_MARGIN + "━" * cell_len(rows[-1]), "$mark")),
        ]
    if block.level == 2:
        rows = wrapped(text, width - 8) or [""]
        rule = "─" * max(0, width - cell_len(rows[-1]) - 3)
        last = pieces((f" {rows[-1]} ", "$owed bold"), (rule, "$tick"))
        return [Content(""), *(pieces((f" {row}", "$owed bold")) for row in rows[:-1]), last]
    return [Content(""), *(pieces((_MARGIN + row, "$ink bold")) for row in wrapped(text, width - 4) or [""])]


def _paragraph(block: Block, room: int) -> list[Content]:
    if block.kind is BlockKind.CODE:
        return [pieces((_MARGIN + line, "$soft")) for line in wrapped(block.runs[0].text, room) or [""]]
    indent = _MARGIN + "  " * max(0, block.depth - 1)
    hang = " " * (3 if block.depth else 0)
    mark = block.mark.ljust(len(hang))
    parts = [(run.text, _style(run.strong, run.emphasis)) for run in block.runs]
    text = pieces(*parts)
    if text.plain.startswith(_CONFLICT):
        text = pieces((text.plain, "$care bold"))
    lines: list[Content] = []
    for stretch in text.split("\n"):
        lines += stretch.wrap(max(8, room - len(indent) - len(hang) + len(_MARGIN)))
    return [
        Content.assemble((indent, ""), (mark if at == 0 else hang, "$mark bold"), line)
        for at, line in enumerate(lines)
    ]


def _style(strong: bool, emphasis: bool) -> str:
    if emphasis:
        return "$soft italic"
    return "$ink bold" if strong else "$ink"


def source_lines(markdown: str, width: int) -> list[Content]:
    """Return the Markdown itself in lines for a width in cells; of a very long one, its beginning."""
    lines: list[Content] = []
    part = shown_part(markdown)
    for line in visible(part).split("\n"):
        head = line.startswith("#")
        shown = hanging(_MARGIN, line, width - len(_MARGIN)) if line.strip() else [""]
        lines += [pieces((row, "$ink bold" if head else "$ink")) for row in shown]
    if part != markdown:
        lines += page_lines([cut_note(markdown)], width)
    return lines


@dataclass(frozen=True, slots=True)
class Beside:
    """What is shown with an update: how it reads, what to think of, how many differences there are."""

    reading: Reading
    check: Check
    differences: int


def facts_lines(draft: UpdateDraft, beside: Beside, width: int) -> list[Content]:
    """Return what is to be known of an update not yet sent, in words."""
    visits = len(draft.facts.visits)
    since = f"since {short_day(draft.facts.since)}" if draft.facts.since else "the first one"
    told = f"{since}, {visits} visit{'s' if visits != 1 else ''}"
    facts = [("not sent", "$owed bold"), (told, "$soft"), _grade(beside.reading)]
    if draft.left_out:
        facts.append((f"{draft.left_out} kept private", "$soft"))
    check = beside.check
    if check.not_told:
        facts.append((f"{check.not_told_words}: c", "$soft"))
    if check.remarks:
        count = len(check.remarks)
        facts.append((f"{count} {'words' if count > 1 else 'word'} to think of: c", "$care"))
    if draft.edited:
        facts.append(("edited by you", "$ink"))
    if beside.differences:
        count = beside.differences
        facts.append((f"{count} {'differences' if count > 1 else 'difference'}: d", "$ink"))
    lines = joined(facts, width)
    if draft.conflicts:
        places = "one place" if draft.conflicts == 1 else f"{draft.conflicts} places"
        lines += [
            pieces((row, "$care bold"))
            for row in wrapped(
                f"In {places} both you and the journal changed the words; both stand in the text, marked. "
                "e: keep one of each, take out the marks.",
                width,
            )
        ]
    return lines


def _grade(reading: Reading) -> tuple[str, str]:
    if not reading.words:
        return ("nothing to read yet", "$soft")
    if reading.plain:
        return (f"reads at grade {reading.grade:.1f}, plain", "$soft")
    return (f"reads at grade {reading.grade:.1f}: over 8, shorten the long sentences", "$care")


def sent_lines(sent: SentDocument, reading: Reading, files: Sequence[Path], width: int) -> list[Content]:
    """Return what is to be known of a sent update: when, how it reads, and the files just written."""
    facts = [(f"sent {short_day(sent.sent_on)}", "$chose bold"), ("as it was, never changed", "$soft")]
    lines = joined([*facts, _grade(reading)], width)
    if files:
        lines += [pieces((row, "$ink")) for row in hanging("written to ", str(files[0].parent), width)]
        lines += [pieces((row, "$ink")) for file in files for row in hanging("  ", file.name, width)]
    return lines


def joined(facts: Sequence[tuple[str, str]], width: int) -> list[Content]:
    """Return short facts side by side, on as many lines as they need."""
    lines: list[list[tuple[str, str]]] = [[]]
    taken = 0
    for text, style in facts:
        wide = cell_len(text)
        if lines[-1] and taken + 3 + wide > width:
            lines.append([])
            taken = 0
        if lines[-1]:
            lines[-1].append((" · ", "$tick"))
            taken += 3
        lines[-1].append((text, style))
        taken += wide
    return [pieces(*line) for line in lines]
