"""Review: each draft kept, dropped, changed or joined, beside the words it rests on."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any

from journal_tui.domain.draft import Draft, OwnWord
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.domain.job import Visit
from journal_tui.domain.kinds import WHOLE_ROOM, Audience, Hazard, Kind, Party
from journal_tui.domain.reading import first_audience
from journal_tui.domain.text import folded
from journal_tui.journal.keeping import add_item, keep_draft, leaves_open
from journal_tui.journal.opening import Journal
from journal_tui.journal.said import Span, spans_heard
from journal_tui.journal.typed import measured
from journal_tui.journal.visits import called, find_visit, get_visit
from journal_tui.store import queries, rows
from journal_tui.store.store import Writer


class DraftState(StrEnum):
    """Where a draft stands in review."""

    WAITING = "waiting"
    KEPT = "kept"
    DROPPED = "dropped"
    JOINED = "joined"


@dataclass(frozen=True, slots=True)
class ReviewDraft:
    """A draft in review."""

    id: str
    visit_id: str
    draft: Draft
    state: DraftState
    entry_id: str | None = None


@dataclass(frozen=True, slots=True)
class SaidLine:
    """A caption as shown beside a draft; ``marked`` when the draft rests on it.

    ``spans`` are the very words it rests on, from and to (not included) in ``text``, where they were
    found.
    """

    start: float
    end: float
    text: str
    speaker: str | None
    marked: bool
    spans: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """What a reviewer changes of a draft; None leaves a thing as it is."""

    kind: Kind | None = None
    phase: str | None = None
    area: str | None = None
    text: str | None = None
    who: Party | None = None
    audience: Audience | None = None
    open: bool | None = None
    nobody: bool = False
    hazards: tuple[Hazard, ...] | None = None


@dataclass(frozen=True, slots=True)
class ReviewSummary:
    """What became of a visit's drafts, and what the kept ones leave open, by whose move it is."""

    kept: int
    dropped: int
    joined: int
    waiting: int
    not_for_client: int
    open_by_party: tuple[tuple[Party, int], ...]


def drafts(journal: Journal, visit_id: str) -> list[ReviewDraft]:
    """Return a visit's drafts in the order said, whatever became of them; joined ones are left out."""
    found = (_review_draft(row) for row in queries.drafts(journal.store, visit_id))
    return [draft for draft in found if draft.state is not DraftState.JOINED]


def _review_draft(row: Any) -> ReviewDraft:
    return ReviewDraft(row["id"], row["visit_id"], rows.draft(row), DraftState(row["state"]), row["entry_id"])


def visit_to_review(
    journal: Journal, job_id: str, day: dt.date | None = None, name: str | None = None
) -> Visit:
    """Return a job's newest visit (of ``day``) with drafts that wait, else its newest with any drafts.

    With ``name``, the one ``visits.find_visit`` finds by it. Raises ``NothingFound`` when no such visit
    has drafts.
    """
    found = [v for v in queries.drafted_visits(journal.store, job_id) if day in (None, v.day)]
    if name is not None:
        named = find_visit(journal, job_id, day, name)
        found = [v for v in found if v.id == named.id]
    if not found:
        when = f" of {day.isoformat()}" if day else ""
        which = f" {called(named)}" if name is not None else ""
        raise NothingFound(
            f"no visit{when}{which} has drafts", "Log a recording with: journal-tui log JOB FILE"
        )
    waiting = queries.waiting_counts(journal.store, [v.id for v in found])
    return next((v for v in found if waiting.get(v.id)), found[0])


#: Who speaks of the crew without naming a trade.
_SELF = ("i", "we", "me", "us")


def hired_trade(text: str) -> bool:
    """True when ``text`` is a trade hired for the job, such as plumber: crew, as the punch list counts."""
    from journal_tui.walkthrough.drafting import vocabulary

    keys = folded(text).replace("'", "").replace("-", " ").split()
    return (
        keys != []
        and " ".join(keys) not in _SELF
        and (0, len(keys), "crew") in vocabulary.parties().found(keys)
    )


def is_timed(journal: Journal, visit: Visit) -> bool:
    """True when a visit's recording says when each thing was said."""
    return bool(visit.recording_id) and _timed(journal, visit)


def get_draft(journal: Journal, draft_id: str) -> ReviewDraft:
    """Return the draft with this id. Raises ``NothingFound``."""
    row = queries.draft(journal.store, draft_id)
    if row is None:
        raise NothingFound("no such draft", "It may have been taken out by undo, here or in another copy.")
    return _review_draft(row)


def draft_of_entry(journal: Journal, entry_id: str) -> ReviewDraft | None:
    """Return the draft that became an entry; None when the entry was typed."""
    found = queries.drafts_of_entry(journal.store, entry_id)
    return _review_draft(found[0]) if found else None


def keep(journal: Journal, draft_ids: Sequence[str]) -> int:
    """Make drafts entries, all together; those already kept stay as they are. Return how many."""
    waiting = [d for d in (get_draft(journal, i) for i in draft_ids) if d.state is not DraftState.KEPT]
    if not waiting:
        return 0
    visit = get_visit(journal, waiting[0].visit_id)
    label = "keep a draft" if len(waiting) == 1 else f"keep {len(waiting)} drafts"
    with journal.store.write(label, visit.job_id) as w:
        for draft in waiting:
            _keep_one(journal, w, draft, visit)
    return len(waiting)


def _keep_one(journal: Journal, w: Writer, draft: ReviewDraft, visit: Visit) -> None:
    timed = bool(visit.recording_id) and _timed(journal, visit)
    entry_id = keep_draft(w, draft.draft, visit.job_id, visit.id, visit.day, timed=timed)
    w.change("drafts", draft.id, state=DraftState.KEPT.value, entry_id=entry_id)


def _timed(journal: Journal, visit: Visit) -> bool:
    return queries.timed(journal.store, visit.recording_id or "")


def keep_rest(journal: Journal, visit_id: str) -> int:
    """Keep every draft of a visit still waiting; return how many."""
    return keep(journal, [d.id for d in drafts(journal, visit_id) if d.state is DraftState.WAITING])


def drop(journal: Journal, draft_id: str) -> None:
    """Set a draft aside; it can be kept later. A kept one is taken back out of the journal."""
    draft = get_draft(journal, draft_id)
    visit = get_visit(journal, draft.visit_id)
    with journal.store.write("drop a draft", visit.job_id) as w:
        _take_entry_out(journal, w, draft)
        w.change("drafts", draft.id, state=DraftState.DROPPED.value, entry_id=None)


def _take_entry_out(journal: Journal, w: Writer, draft: ReviewDraft) -> None:
    if draft.entry_id is None:
        return
    item = queries.item_of_entry(journal.store, draft.entry_id)
    w.change("drafts", draft.id, entry_id=None)
    if item:
        for change in queries.item_changes(journal.store, item.id):
            w.remove("punch_changes", change["id"])
        w.remove("punch_items", item.id)
    w.remove("entries", draft.entry_id)


def change(journal: Journal, draft_id: str, changes: Change) -> ReviewDraft:
    """Change a draft, and its entry and punch item when it is already kept.

    A changed area or phase is learned: the next visit of this job is drafted with it.
    Raises ``BadInput`` for an empty text.
    """
    before = get_draft(journal, draft_id)
    after = changed(before.draft, changes)
    if not after.text.strip():
        raise BadInput("an empty text", "Type what the entry should say, or drop the draft.")
    if after == before.draft:
        return before
    visit = get_visit(journal, before.visit_id)
    with journal.store.write("change a draft", visit.job_id) as w:
        w.change("drafts", draft_id, **fields(after), open=int(after.open))
        if before.entry_id:
            w.change("entries", before.entry_id, **fields(after))
            follow(journal, w, before.entry_id, after, visit)
        _learn(journal, w, before.draft, after, visit.job_id)
    return get_draft(journal, draft_id)


def changed(draft: Draft, changes: Change) -> Draft:
    """Return a draft with ``changes`` made and what follows from them (a next step is open and someone's)."""
    kind = changes.kind or draft.kind
    opened = draft.open if changes.open is None else changes.open
    if changes.kind and changes.kind is not draft.kind and changes.open is None:
        # A next step is owed by its nature and a decision is not; an observation keeps what it had.
        opened = {Kind.NEXT_STEP: True, Kind.DECISION: False}.get(changes.kind, draft.open)
    who = None if changes.nobody else changes.who or draft.who
    if kind is Kind.NEXT_STEP and who is None and not changes.nobody:
        who = Party.CREW
    return replace(
        draft,
        kind=kind,
        open=opened,
        who=who,
        phase=" ".join((changes.phase or draft.phase).split()).lower(),
        area=" ".join(measured(changes.area, "the area").split()) if changes.area is not None else draft.area,
        text=measured(changes.text, "the text").strip() if changes.text is not None else draft.text,
        audience=changes.audience or draft.audience,
        hazards=draft.hazards if changes.hazards is None else changes.hazards,
    )


def hazards_with(hazards: Sequence[Hazard], named: Hazard | None) -> Change:
    """Return the change that adds a hazard, or takes it away when it is there; None takes all away."""
    if named is None:
        return Change(hazards=())
    left = tuple(h for h in hazards if h is not named)
    return Change(hazards=left if len(left) < len(hazards) else (*left, named))


def fields(draft: Draft) -> dict[str, str | None]:
    """Return the fields a reviewer can change as a row keeps them."""
    return {
        "kind": draft.kind.value,
        "phase": draft.phase,
        "area": draft.area,
        "text": draft.text,
        "who": draft.who.value if draft.who else None,
        "audience": draft.audience.value,
        "hazards": rows.listed(draft.hazards),
    }


def follow(journal: Journal, w: Writer, entry_id: str, draft: Draft, visit: Visit) -> None:
    """Have the punch list say what a changed entry says: an item added, changed or taken off."""
    item = queries.item_of_entry(journal.store, entry_id)
    if item is None and leaves_open(draft):
        add_item(w, draft, visit.job_id, entry_id, visit.day, visit.id)
    elif item and leaves_open(draft):
        said = fields(draft)
        w.change("punch_items", item.id, **{**said, "who": said["who"] or Party.CREW.value})
    elif item:
        for row in queries.item_changes(journal.store, item.id):
            w.remove("punch_changes", row["id"])
        w.remove("punch_items", item.id)


def _learn(journal: Journal, w: Writer, before: Draft, after: Draft, job_id: str) -> None:
    if (before.area, before.phase) == (after.area, after.phase):
        return
    from journal_tui.walkthrough.drafting import learned_from

    word = learned_from(before.heard, before, after)
    if word is None:
        return
    for word_id, known in queries.own_words(journal.store, job_id):
        if known.phrase == word.phrase:
            if known == word:
                return
            w.change("own_words", word_id, in_use=0)
            word = OwnWord(word.phrase, word.area or known.area, word.phase or known.phase)
    w.insert(
        "own_words",
        {"job_id": job_id, "phrase": word.phrase, "area": word.area, "phase": word.phase, "in_use": 1},
    )


def join_previous(journal: Journal, draft_id: str) -> ReviewDraft:
    """Join a draft to the one before it (dropped ones skipped) and return what they became.

    Raises ``BadInput`` when there is none before it.
    """
    listed = drafts(journal, get_draft(journal, draft_id).visit_id)
    here = next(i for i, d in enumerate(listed) if d.id == draft_id)
    earlier = [d for d in listed[:here] if d.state is not DraftState.DROPPED]
    if not earlier:
        raise BadInput("there is no draft before this one", "The first one has nothing to join.")
    first, second = earlier[-1], listed[here]
    joined = _together(first.draft, second.draft)
    visit = get_visit(journal, first.visit_id)
    with journal.store.write("join two drafts", visit.job_id) as w:
        _take_entry_out(journal, w, second)
        w.change("drafts", second.id, state=DraftState.JOINED.value, joined_into=first.id, entry_id=None)
        w.change(
            "drafts",
            first.id,
            text=joined.text,
            heard=joined.heard,
            end=joined.end,
            open=int(joined.open),
            hazards=rows.listed(joined.hazards),
            measures=rows.listed(joined.measures),
            audience=joined.audience.value,
        )
        if first.entry_id:
            w.change(
                "entries",
                first.entry_id,
                text=joined.text,
                end=joined.end,
                hazards=rows.listed(joined.hazards),
                audience=joined.audience.value,
            )
            follow(journal, w, first.entry_id, joined, visit)
    return get_draft(journal, first.id)


def _together(first: Draft, second: Draft) -> Draft:
    mark = "" if first.text.rstrip().endswith((".", "!", "?", ";", ":")) else "."
    narrow = [Audience.CLIENT, Audience.CREW, Audience.PRIVATE]
    return replace(
        first,
        text=f"{first.text.rstrip()}{mark} {second.text.lstrip()}",
        heard=f"{first.heard}\n{second.heard}",
        end=max(first.end, second.end),
        open=first.open or second.open,
        hazards=tuple(dict.fromkeys(first.hazards + second.hazards)),
        measures=first.measures + second.measures,
        # Of two, the one fewer people may read decides.
        audience=max(first.audience, second.audience, key=narrow.index),
    )


def said_around(journal: Journal, draft: ReviewDraft, seconds: float = 20.0) -> list[SaidLine]:
    """Return what was said within ``seconds`` of a draft, the words it rests on marked."""
    visit = get_visit(journal, draft.visit_id)
    if visit.recording_id is None:
        return []
    start, end = draft.draft.start, draft.draft.end
    timed = _timed(journal, visit)
    if timed:
        cues = queries.cues_between(journal.store, visit.recording_id, start - seconds, end + seconds)
    else:
        cues = queries.cues(journal.store, visit.recording_id)
    during = [not timed or (c["start"] < end and c["end"] > start) for c in cues]
    spans = spans_heard(
        [c["text"] if d else "" for c, d in zip(cues, during, strict=True)], draft.draft.heard
    )
    # Where the words are not found as they were heard, the time they were said at has to do.
    named = [bool(found) for found in spans] if any(spans) else [timed and d for d in during]
    return [
        SaidLine(c["start"], c["end"], c["text"], c["speaker"], marked, found)
        for c, marked, found in zip(cues, named, spans, strict=True)
    ]


def summary(journal: Journal, visit_id: str) -> ReviewSummary:
    """Return what became of a visit's drafts so far."""
    found = [_review_draft(row) for row in queries.drafts(journal.store, visit_id)]
    states = Counter(d.state for d in found)
    kept = [d.draft for d in found if d.state is DraftState.KEPT]
    owed = Counter(d.who or Party.CREW for d in kept if leaves_open(d))
    return ReviewSummary(
        kept=states[DraftState.KEPT],
        dropped=states[DraftState.DROPPED],
        joined=states[DraftState.JOINED],
        waiting=states[DraftState.WAITING],
        not_for_client=sum(d.audience is not Audience.CLIENT for d in kept),
        open_by_party=tuple((party, owed[party]) for party in Party if owed[party]),
    )


def area_choices(journal: Journal, visit_id: str) -> list[str]:
    """Return areas a draft may be put in: the job's own, most used first, then this visit's, no doubles."""
    job_id = get_visit(journal, visit_id).job_id
    named = [*queries.areas(journal.store, job_id), *(d.draft.area for d in drafts(journal, visit_id))]
    by_name: dict[str, str] = {}
    for area in filter(str.strip, [*named, WHOLE_ROOM]):
        by_name.setdefault(folded(area), area)
    return list(by_name.values())


def reader_reason(draft: Draft) -> str:
    """Return why a draft is not for the client, "" when it is."""
    if draft.audience is Audience.CLIENT:
        return ""
    guess = first_audience(f"{draft.text}\n{draft.heard}")
    return guess.reason if guess.audience is draft.audience else "you said so"


def own_words(journal: Journal, job_id: str) -> list[tuple[str, OwnWord]]:
    """Return (id, word) of what this job's reviews have taught the drafter."""
    return queries.own_words(journal.store, job_id)


def forget_word(journal: Journal, job_id: str, word_id: str) -> None:
    """Stop using a learned word."""
    with journal.store.write("forget a learned word", job_id) as w:
        w.change("own_words", word_id, in_use=0)
