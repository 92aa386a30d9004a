"""From a recording's captions, or a typed line, to drafts: one small pass a module."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace

from journal_tui.domain.draft import Draft, JobWords, Repair
from journal_tui.domain.kinds import WHOLE_ROOM, Kind, Party
from journal_tui.domain.reading import first_audience
from journal_tui.domain.recording import Captions, Cue
from journal_tui.domain.text import one_line
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.alike import repeated, with_likes
from journal_tui.walkthrough.drafting.attributes import (
    Stretch,
    entry_features,
    judged,
    phase_of,
    place_between,
)
from journal_tui.walkthrough.drafting.confidence import audience_of, private_in
from journal_tui.walkthrough.drafting.hazards import hazards_named, likely_hazards, with_dangers
from journal_tui.walkthrough.drafting.kinds import (
    Leaning,
    Span,
    leanings_of,
    likeliest_kind,
    spans_of,
    weighed,
)
from journal_tui.walkthrough.drafting.linear import Linear, Models, trained
from journal_tui.walkthrough.drafting.measures import measures_in
from journal_tui.walkthrough.drafting.merging import said_once, settled
from journal_tui.walkthrough.drafting.notices import looks_english
from journal_tui.walkthrough.drafting.place import area_of, own_words_in
from journal_tui.walkthrough.drafting.reasons import InHand, why
from journal_tui.walkthrough.drafting.remembered import forget_talk
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.things import subjects_of_talk
from journal_tui.walkthrough.drafting.utterances import Utterance, utterances_of
from journal_tui.walkthrough.drafting.wording import text_of, without_coarse_words
from journal_tui.walkthrough.drafting.words import words_of

#: Hears the share of a recording drafted so far, 0 to 1; may raise to stop.
Reached = Callable[[float], None]
#: How many drafts are made between two reports of how far it is.
_BETWEEN_REPORTS = 50


def draft_entries(
    captions: Captions,
    words: JobWords = JobWords(),  # noqa: B008
    reached: Reached | None = None,
) -> tuple[Draft, ...]:
    """Return the drafts of a recording in order of start.

    Untimed text gives drafts at 0.0 in the order said. The same captions always give the same drafts.
    """
    return drafts_by(trained(), captions, words, reached)


def drafts_by(
    models: Models, captions: Captions, words: JobWords, reached: Reached | None = None
) -> tuple[Draft, ...]:
    """Return the drafts of a recording as ``models`` weigh it."""
    with _uncollected():
        return _drafts_of(models, captions, words, reached)


@contextmanager
def _uncollected() -> Iterator[None]:
    """Leave the collector of garbage out meanwhile: drafting makes many small things and no cycles of
    them, and a sixth of its time would go into looking through them again and again."""
    collects = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        forget_talk()
        if collects:
            gc.enable()


def _drafts_of(
    models: Models, captions: Captions, words: JobWords, reached: Reached | None
) -> tuple[Draft, ...]:
    said = repaired(words_of(captions))
    if not looks_english(said):
        return ()
    utterances = utterances_of(said, models["boundary"])
    spans, leanings = entries_in(utterances, models["kind"])
    likes = {utterances[span.first].start for span in spans if span.like is not None}
    drafts = _drafts(utterances, spans, words, models, leanings=leanings, reached=reached)
    return tuple(said_once(drafts, likes))


def entries_in(utterances: Sequence[Utterance], kind: Linear) -> tuple[list[Span], list[Leaning]]:
    """Return the entries to draft from ``utterances``, and what each utterance leans to, as ``kind``
    weighs them."""
    features, rows = weighed(utterances, kind)
    found = settled(utterances, spans_of(features, rows, kind))
    return with_dangers(utterances, with_likes(utterances, found)), leanings_of(rows)


def draft_note(text: str, words: JobWords = JobWords()) -> tuple[Draft, ...]:  # noqa: B008
    """Return the draft of one typed line: same path as talk, text kept as typed, never nothing.

    A blank line gives no draft.
    """
    line = one_line(text)
    if not line:
        return ()
    cue = Cue(0.0, 0.0, line)
    models = trained()
    note = Captions("typed note", "untimed text", (cue,), line, "", timed=False)
    utterances = utterances_of(words_of(note), models["boundary"])
    if not utterances:
        return (_wordless(line),)
    spans = [likeliest_kind(utterances, models["line"])]
    return tuple(_own_work(d, utterances) for d in _drafts(utterances, spans, words, models, text=line))


def _own_work(draft: Draft, utterances: Sequence[Utterance]) -> Draft:
    """Return a typed draft as the typist's own work, unless the line names who it waits on and does
    not say that it is his own."""
    beginnings = vocabulary.data("speech.toml")["own_work"]["beginnings"]
    own = f"{' '.join(utterances[0].keys)} ".startswith(tuple(f"{words} " for words in beginnings))
    named = not own and any(vocabulary.parties().found(utterance.keys) for utterance in utterances)
    return draft if named or draft.who in (None, Party.CREW) else replace(draft, who=Party.CREW)


def _wordless(line: str) -> Draft:
    return Draft(
        start=0.0,
        end=0.0,
        kind=Kind.OBSERVATION,
        phase="other",
        area=WHOLE_ROOM,
        text=line,
        open=False,
        who=None,
        hazards=(),
        why="observation: no words in it to go by",
        heard=line,
        audience=first_audience(line).audience,
    )


def _drafts(
    utterances: Sequence[Utterance],
    spans: Sequence[Span],
    words: JobWords,
    models: Models,
    *,
    leanings: Sequence[Leaning] = (),
    text: str | None = None,
    reached: Reached | None = None,
) -> list[Draft]:
    talk = subjects_of_talk(utterances)
    private = private_in(utterances)
    drafts: list[Draft] = []
    made: dict[int, Draft] = {}
    phase, in_hand, read = "", InHand(), 0
    stretches = [Stretch(utterances, span.first, span.last, span.kind) for span in spans]
    for number, (span, stretch) in enumerate(zip(spans, stretches, strict=True)):
        if reached and number % _BETWEEN_REPORTS == 0:
            reached(number / len(spans))
        while read < span.first:
            named = area_of(utterances[read].keys, words)
            in_hand = InHand(named, utterances[read].start) if named else in_hand
            read += 1
        phase = phase_of(stretch, phase, talk, models) if span.like is None else made[span.like].phase
        place = place_between(
            stretch,
            stretches[number - 1] if number else None,
            stretches[number + 1] if number + 1 < len(stretches) else None,
            leanings,
        )
        features = entry_features(stretch, place)
        draft = _draft(stretch, span, features, phase, in_hand, words, models, private, text)
        if span.like is not None:
            alone = Stretch(utterances[span.first : span.last + 1], 0, span.last - span.first, span.kind)
            draft = replace(draft, text=text_of(alone, frozenset()))
            draft = repeated(draft, made[span.like], area_of(stretch.keys, words) is not None)
        made[span.first] = draft
        drafts.append(draft)
        in_hand = InHand(draft.area, draft.start) if draft.area != in_hand.area else in_hand
        read = span.last + 1
    return drafts


def _draft(
    stretch: Stretch,
    span: Span,
    features: Sequence[str],
    phase: str,
    in_hand: InHand,
    words: JobWords,
    models: Models,
    private: frozenset[int],
    text: str | None,
) -> Draft:
    inside = stretch.utterances[stretch.first : stretch.last + 1]
    spoken = [word for utterance in inside for word in utterance.words]
    keys = stretch.keys
    named = area_of(keys, words)
    area = named or in_hand.area
    learned = own_words_in(keys, words)
    for own in learned:
        area, phase = own.area or area, own.phase or phase
    made_of_it = judged(features, span.kind, models)
    heard = text or " ".join(utterance.said for utterance in inside)
    shown = without_coarse_words(text) if text else text_of(stretch, private)
    return Draft(
        start=inside[0].start,
        end=inside[-1].end,
        kind=span.kind,
        phase=phase,
        area=area,
        text=shown,
        open=made_of_it.open,
        who=made_of_it.who,
        # A danger that is named is always shown; one that is only likely, when the model leans to it.
        hazards=likely_hazards(keys) if made_of_it.dangerous else hazards_named(keys),
        why=why(stretch, span, phase, area, in_hand, learned, named is not None),
        heard=heard,
        measures=measures_in(heard),
        repairs=tuple(dict.fromkeys(Repair(w.heard, w.text) for w in spoken if w.heard)),
        learned=tuple(own.phrase for own in learned),
        audience=audience_of(stretch.utterances, stretch.first, stretch.last, private),
    )
