"""How a review looks: the words said along a rule, the draft with its keys, the list, the course.

Functions from what the journal gives to lines of text; no widget is touched here.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content

from journal_tui.domain.draft import Draft
from journal_tui.domain.kinds import Audience, Kind
from journal_tui.domain.text import one_line
from journal_tui.domain.times import clock
from journal_tui.journal.review import DraftState, ReviewDraft, ReviewSummary, SaidLine
from journal_tui.screens.lines import Piece, cut, fit, pieces
from journal_tui.screens.wrapping import MOST_SHOWN, hanging, wrapped, wrapped_runs

_WORD = re.compile(r"\S+")
KIND_STYLE = {Kind.OBSERVATION: "$ink", Kind.DECISION: "$chose", Kind.NEXT_STEP: "$owed"}
STATE_STYLE = {DraftState.WAITING: "$soft", DraftState.KEPT: "$chose", DraftState.DROPPED: "$faded"}
_TILE = {DraftState.KEPT: "▓", DraftState.DROPPED: "╳", DraftState.WAITING: "░"}
#: The state column: "dropped" and a blank.
_STATE_WIDTH = 8
_PHASE_WIDTH = 15
_AREA_WIDTH = 13
_NOTHING_DRAFTED = (
    "No drafts: nothing in this recording sounded like something found, chosen or owed. What was said is "
    "kept word for word; type what you want from it on the timeline (esc)."
)
#: Narrower than this a list line keeps only number, state, kind and text.
NARROW = 60


def said_lines(said: Sequence[SaidLine], width: int, *, timed: bool) -> tuple[list[Content], int]:
    """Return the words said as lines along a rule, and the index of the first marked one.

    Time runs down the rule at a tick a caption. Beside the words a draft rests on the rule is drawn
    heavy and the words are bold; both say the same.
    """
    lines: list[Content] = []
    first_marked = -1
    margin = 7 if timed else 0
    for line in said:
        when = f"{clock(line.start):>{margin - 1}} " if timed else ""
        for at, runs in enumerate(wrapped_runs(_words(line), width - margin - 2) or [[("", False)]]):
            marked = any(words_marked for _words_here, words_marked in runs)
            if marked and first_marked < 0:
                first_marked = len(lines)
            tick, rule = ("┣", "┃") if marked else ("├", "│")
            edge = (tick if at == 0 else rule, "$owed bold" if marked else "$tick")
            head = (when if at == 0 else " " * margin, "$soft")
            said_here = [(words, "$ink bold" if bold else "$soft") for words, bold in runs]
            lines.append(pieces(head, edge, (" ", ""), *said_here))
    return lines, max(first_marked, 0)


def _words(line: SaidLine) -> list[tuple[str, bool]]:
    """Return a caption's words, each with whether the draft rests on it."""
    words: list[tuple[str, bool]] = [(f"{cut(line.speaker, 12)}:", False)] if line.speaker else []
    spans = line.spans or (((0, len(line.text)),) if line.marked else ())
    start = max(0, min((low for low, _high in spans), default=0) - MOST_SHOWN // 2)
    for match in _WORD.finditer(line.text, start, start + MOST_SHOWN):
        marked = any(low < match.end() and match.start() < high for low, high in spans)
        words.append((one_line(match.group()), marked))
    return words


def reader_words(audience: Audience, reason: str) -> str:
    """Return who may read a thing, in words."""
    who = {
        Audience.CLIENT: "the client may read it",
        Audience.CREW: "crew only",
        Audience.PRIVATE: "private",
    }[audience]
    return f"{who}: {reason}" if reason else who


def card_fields(draft: Draft, reason: str, width: int) -> list[Content]:
    """Return a draft's kind, phase, place and readers, each behind the key that changes it."""
    who = draft.who.value if draft.who else "nobody"
    rows: list[list[tuple[str, str, str]]] = [
        [
            ("k", draft.kind.spoken, KIND_STYLE[draft.kind]),
            ("p", draft.phase, "$ink"),
            ("o", "open" if draft.open else "closed", "$owed" if draft.open else "$soft"),
        ],
        [("a", draft.area, "$ink"), ("w", who, "$ink")],
    ]
    reader = behind_key("t", reader_words(draft.audience, reason), width, "$care" if reason else "$ink")
    return [*(_keyed(row, width) for row in rows), *reader]


def _keyed(row: list[tuple[str, str, str]], width: int) -> Content:
    room = width - 5 * len(row) + 2
    parts: list[Piece] = []
    for at, (key, value, style) in enumerate(row):
        shown = cut(value, max(4, room - sum(cell_len(v) for _k, v, _s in row[at + 1 :])))
        room -= cell_len(shown)
        parts += [(f"{key} ", "$mark bold"), (shown, style), ("   " if at + 1 < len(row) else "", "")]
    return pieces(*parts)


def card_notes(draft: Draft, width: int) -> list[Content]:
    """Return what else a draft has to say for itself: hazards, words set right, words learned, why."""
    named = f"hazard: {', '.join(draft.hazards)}" if draft.hazards else "no hazard"
    lines = behind_key("h", named, width, "$care" if draft.hazards else "$soft")
    notes = [("heard ", f"“{r.heard}”, shown “{r.shown}”", "$ink") for r in draft.repairs]
    if draft.learned:
        notes.append(("your words: ", ", ".join(draft.learned), "$ink"))
    if draft.why:
        notes.append(("because ", draft.why, "$soft"))
    for label, text, style in notes:
        first, *rest = wrapped(label + text, width)
        lines.append(pieces((first[: len(label)], "$soft"), (first[len(label) :], style)))
        lines += [pieces((line, style)) for line in rest]
    return lines


def behind_key(key: str, text: str, width: int, style: str) -> list[Content]:
    """Return ``text`` wrapped behind the key that changes it."""
    first, *rest = hanging(f"{key} ", text, width)
    return [pieces((first[:2], "$mark bold"), (first[2:], style)), *(pieces((r, style)) for r in rest)]


def unfinished_lines(text: str, width: int) -> list[Content]:
    """Return words left half edited, so that they are not forgotten."""
    first, *rest = wrapped(f"half edited (e goes on): {text}", width)
    return [pieces((line, "$owed")) for line in (first, *rest[:1])]


def list_line(number: int, draft: ReviewDraft, width: int) -> Content:
    """Return one line of the list of drafts."""
    faded = draft.state is DraftState.DROPPED
    body = "$faded" if faded else "$ink"
    d = draft.draft
    parts: list[Piece] = [
        (f"{number:>3} ", "$soft"),
        (fit(draft.state.value, _STATE_WIDTH), STATE_STYLE[draft.state]),
        (fit(d.kind.spoken, 6), "$faded" if faded else KIND_STYLE[d.kind]),
    ]
    taken = 4 + _STATE_WIDTH + 6
    if width >= NARROW:
        parts += [(fit(d.phase, _PHASE_WIDTH - 1) + " ", "$faded" if faded else "$soft")]
        parts += [(fit(d.area, _AREA_WIDTH - 1) + " ", body)]
        taken += _PHASE_WIDTH + _AREA_WIDTH
    return pieces(*parts, (fit(d.text[:MOST_SHOWN], width - taken), body))


def course(states: Sequence[DraftState], current: int, width: int) -> Content:
    """Return the drafts as one course of tiles: laid, cut out, still to lay, and the one in hand.

    With more drafts than cells a tile stands for several and shows the least finished of them.
    """
    if not states or width < 1:
        return Content("")
    count = min(len(states), width)
    parts: list[Piece] = []
    for cell in range(count):
        low, high = cell * len(states) // count, (cell + 1) * len(states) // count
        group = states[low:high]
        if low <= current < high:
            parts.append(("█", "$mark"))
            continue
        worst = next(s for s in (DraftState.WAITING, DraftState.KEPT, DraftState.DROPPED) if s in group)
        parts.append((_TILE[worst], STATE_STYLE[worst] if worst is not DraftState.WAITING else "$tick"))
    return pieces(*parts)


def tally(states: Sequence[DraftState], current: int) -> str:
    """Return where the review stands, in words."""
    kept, dropped = states.count(DraftState.KEPT), states.count(DraftState.DROPPED)
    return f"{min(current + 1, len(states))} of {len(states)}   kept {kept}   dropped {dropped}"


def summary_lines(found: ReviewSummary, width: int) -> list[Content]:
    """Return what a finished review came to, and the keys that lead on."""
    total = found.kept + found.dropped + found.joined
    if not total:
        return [pieces((line, "$ink")) for line in wrapped(_NOTHING_DRAFTED, width)]
    lines = [pieces((f"All {total} drafts read." if total != 1 else "The one draft is read.", "$ink bold"))]
    states = [("kept", found.kept), ("dropped", found.dropped), ("joined to another", found.joined)]
    lines += [Content(""), pieces((", ".join(f"{n} {word}" for word, n in states if n), "$ink"))]
    owed = sum(n for _party, n in found.open_by_party)
    if owed:
        whose = ", ".join(f"{n} for the {party.value}" for party, n in found.open_by_party)
        lines += [pieces((line, "$owed")) for line in wrapped(f"They leave {owed} open: {whose}.", width)]
    else:
        lines.append(pieces(("They leave nothing open.", "$chose")))
    if found.not_for_client:
        lines.append(pieces((f"{found.not_for_client} kept that the client will not read.", "$soft")))
    lines.append(Content(""))
    for key, words in (("enter", "the punch list"), ("u", "the client update"), ("up", "go back over them")):
        lines.append(pieces((f"{key:>6}  ", "$mark bold"), (words, "$ink")))
    return lines
