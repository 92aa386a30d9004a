"""The client update: its facts, its working copy, and what was sent."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from journal_tui.domain.document import Block, BlockKind, DocumentKind, Length, Run, SentDocument, UpdateFacts
from journal_tui.domain.entry import Entry
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.text import storable
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.update_facts import update_facts
from journal_tui.store import queries
from journal_tui.store.store import Writer

if TYPE_CHECKING:
    from journal_tui.documents.story import LeftOut

_KIND = DocumentKind.CLIENT_UPDATE
_TYPED = "update/{}"
#: More letters of an update than this, some hundred pages, are not laid out or measured at once.
MOST_SHOWN = 200_000


@dataclass(frozen=True, slots=True)
class UpdateDraft:
    """A client update not yet sent.

    ``made`` is what the facts say now; ``markdown`` is that with the writer's own edits kept;
    ``conflicts`` counts places where both changed and both stand in the text; ``left_out`` counts
    entries and open items it would tell of were they not kept from the client; ``unsaid`` names what
    the client may read and is not told all the same, and what is told but may not be clear.
    """

    job: Job
    facts: UpdateFacts
    made: str
    markdown: str
    edited: bool
    conflicts: int
    left_out: int
    unsaid: tuple[LeftOut, ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """How an update reads: its Flesch-Kincaid school ``grade``, its ``words``, and whether it is plain."""

    grade: float
    words: int
    plain: bool


def client_update(
    journal: Journal, job_id: str, as_of: dt.date | None = None, length: Length = Length.STANDARD
) -> UpdateDraft:
    """Return the update that would be sent now: everything saved since the last one that was.

    Each ``length`` keeps the writer's edits of its own.
    """
    from journal_tui.documents.edits import merge_edits
    from journal_tui.documents.update import update_letter

    job = get_job(journal, job_id)
    facts = update_facts(journal, job, as_of)
    letter = update_letter(facts, length=length)
    made = letter.markdown
    hidden = left_out(journal, job, facts.as_of)
    working = working_copy(journal, job.id, length)
    if working is None:
        return UpdateDraft(job, facts, made, made, False, 0, hidden, letter.left_out)
    text = merge_edits(*working, made).text
    return UpdateDraft(job, facts, made, text, text != made, _to_settle(text), hidden, letter.left_out)


def _to_settle(markdown: str) -> int:
    """Return how many places hold two wordings, also where marks are left from an earlier edit."""
    from journal_tui.documents.edits import YOURS_MARK, unsettled

    pairs = sum(line.strip() == YOURS_MARK for line in markdown.split("\n"))
    return max(pairs, int(unsettled(markdown)))


def working_copy(journal: Journal, job_id: str, length: Length) -> tuple[str, str] | None:
    """Return (what it was made from, the writer's version), with what is being typed right now."""
    typed = queries.typed(journal.store, typing_place(job_id, length))
    if typed:
        made, edited = json.loads(typed)
        return made, edited
    row = queries.working_document(journal.store, job_id, _kept_as(length))
    return (row["made"], row["edited"]) if row else None


def _kept_as(length: Length) -> str:
    """Return the kind under which the edit of a length is kept."""
    return _KIND.value if length is Length.STANDARD else f"{_KIND.value}, {length.value}"


def shown_part(markdown: str) -> str:
    """Return as much of an update as a screen lays out: whole paragraphs, ``MOST_SHOWN`` letters in all."""
    if len(markdown) <= MOST_SHOWN:
        return markdown
    end = markdown.rfind("\n\n", 0, MOST_SHOWN)
    return markdown[: end if end > 0 else MOST_SHOWN]


def page(markdown: str) -> tuple[Block, ...]:
    """Return an update as it reads: its headings, paragraphs and list items in order.

    Of one that is far too long for a screen it is the beginning; the last block then says so.
    """
    from journal_tui.documents.blocks import blocks

    part = shown_part(markdown)
    return blocks(part) if part == markdown else (*blocks(part), cut_note(markdown))


def cut_note(markdown: str) -> Block:
    """Return what stands below the part of a very long update that is shown."""
    left = len(markdown) - len(shown_part(markdown))
    words = f"The page is cut here: {left:,} more letters. The files written from it hold them all."
    return Block(BlockKind.PARAGRAPH, (Run(words, emphasis=True),))


def reading(markdown: str) -> Reading:
    """Return how hard an update is to read, a very long one by its beginning."""
    from journal_tui.documents import readability

    measured = readability(shown_part(markdown))
    return Reading(measured.grade, measured.words, measured.plain)


def left_out(journal: Journal, job: Job, as_of: dt.date) -> int:
    """Return how many entries since the last update, and open items typed in, the client may not read."""
    since = queries.last_sent_at(journal.store, job.id, _KIND)
    entries = [e for e in queries.entries_since(journal.store, job.id, since) if e.day <= as_of]
    items = queries.punch_items(journal.store, job.id, PunchState.OPEN.value)
    told = {e.id for e in entries}
    things: list[Entry | PunchItem] = [*entries]
    things += [i for i in items if i.since <= as_of and i.entry_id not in told]
    return sum(thing.audience is not Audience.CLIENT for thing in things)


def typing_place(job_id: str, length: Length = Length.STANDARD) -> str:
    """Return the place (see ``typed.remember``) where the writer's version is kept while it is typed."""
    place = _TYPED.format(job_id)
    return place if length is Length.STANDARD else f"{place}/{length.value}"


def typing_text(made: str, edited: str) -> str:
    """Return what is kept in ``typing_place`` at every key: both texts, without history.

    ``client_update`` reads it like a saved edit, so a killed program has lost nothing.
    """
    return json.dumps([storable(made), storable(edited)], ensure_ascii=False)


def save_edit(
    journal: Journal, job_id: str, made: str, edited: str, length: Length = Length.STANDARD
) -> None:
    """Keep the writer's version of the update; the one it was made from is kept with it."""
    job = get_job(journal, job_id)
    kind = _kept_as(length)
    working = queries.working_document(journal.store, job.id, kind)
    if working and (working["made"], working["edited"]) == (storable(made), storable(edited)):
        with journal.store.write("keep the client update as edited") as w:
            _forget_typed(w, job.id, length)
        return
    # No job on the action: typing is not what undo on a job's lists should take back.
    with journal.store.write("edit the client update") as w:
        if working:
            w.change("working_documents", working["id"], made=made, edited=edited)
        else:
            w.insert("working_documents", {"job_id": job.id, "kind": kind, "made": made, "edited": edited})
        _forget_typed(w, job.id, length)


def _forget_typed(w: Writer, job_id: str, length: Length) -> None:
    w.conn.execute("DELETE FROM typed WHERE id = ?", [typing_place(job_id, length)])


def discard_edit(journal: Journal, job_id: str, length: Length = Length.STANDARD) -> None:
    """Go back to what the facts say; the edited text stays in the history."""
    edit = working_copy(journal, job_id, length)
    if edit is None:
        return
    save_edit(journal, job_id, *edit, length)
    working = queries.working_document(journal.store, job_id, _kept_as(length))
    with journal.store.write("set aside the edited client update") as w:
        w.remove("working_documents", working["id"] if working else "")


def send(journal: Journal, job_id: str, markdown: str, sent_on: dt.date | None = None) -> SentDocument:
    """Freeze the update as sent: this exact text, this date. The next one starts from here.

    Raises ``BadInput`` for an empty text and for one where a wording is still to be chosen.
    """
    from journal_tui.documents import unsettled

    job = get_job(journal, job_id)
    if not markdown.strip():
        raise BadInput("an empty update", "There is nothing to send.")
    if unsettled(markdown):
        raise BadInput(
            "two wordings still stand side by side in the update",
            "Edit it: keep one of each pair and take out the marked lines between them.",
        )
    working = [queries.working_document(journal.store, job.id, _kept_as(length)) for length in Length]
    markdown = storable(markdown)
    day = sent_on or journal.today()
    # No job on the action: what was sent cannot be unsent by undo.
    with journal.store.write(f"send the client update of {day.isoformat()}") as w:
        document_id = w.insert(
            "documents",
            {
                "job_id": job.id,
                "kind": _KIND.value,
                "sent_on": day.isoformat(),
                "markdown": markdown,
                "sha256": hashlib.sha256(markdown.encode()).hexdigest(),
            },
        )
        # What was told is told, at whatever length: no edit of it is left over.
        for row in working:
            if row:
                w.remove("working_documents", row["id"])
        for length in Length:
            _forget_typed(w, job.id, length)
    return next(d for d in sent_updates(journal, job.id) if d.id == document_id)


def send_draft(journal: Journal, draft: UpdateDraft, sent_on: dt.date | None = None) -> SentDocument:
    """Freeze an update as it stands.

    Raises ``BadInput`` while places changed on both sides are unsettled and ``NothingFound`` when
    there is nothing to tell.
    """
    if draft.conflicts:
        raise BadInput(
            f"{draft.conflicts} places in the update are not settled",
            "Keep one of the two versions of each, then send it.",
        )
    if draft.facts.empty and not draft.edited:
        raise NothingFound(
            "there is nothing to send", "Nothing the client may read is new since the last one."
        )
    return send(journal, draft.job.id, draft.markdown, sent_on)


def sent_updates(journal: Journal, job_id: str) -> list[SentDocument]:
    """Return the updates sent for a job, newest first."""
    return queries.documents(journal.store, job_id, _KIND)
