"""From a recording's captions, or a typed line, to drafts: one small pass a module."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.draft import Draft, JobWords, Repair
from journal_tui.domain.kinds import Kind
from journal_tui.domain.reading import first_audience
from journal_tui.domain.recording import Captions, Cue
from journal_tui.domain.text import one_line
from journal_tui.walkthrough.drafting.hazards import hazards_in
from journal_tui.walkthrough.drafting.kinds import Span, likeliest_kind, spans_of
from journal_tui.walkthrough.drafting.measures import measures_in
from journal_tui.walkthrough.drafting.notices import looks_english
from journal_tui.walkthrough.drafting.place import area_named, place_of
from journal_tui.walkthrough.drafting.repair import repaired
from journal_tui.walkthrough.drafting.utterances import Utterance, utterances_of
from journal_tui.walkthrough.drafting.who import party_of
from journal_tui.walkthrough.drafting.wording import text_of
from journal_tui.walkthrough.drafting.words import words_of


def draft_entries(captions: Captions, words: JobWords = JobWords()) -> tuple[Draft, ...]:  # noqa: B008
    """Return the drafts of a recording in order of start.

    Untimed text gives drafts at 0.0 in the order said. The same captions always give the same drafts.
    """
    said = repaired(words_of(captions))
    if not looks_english(said):
        return ()
    utterances = utterances_of(said)
    in_hand: str | None = None
    spans = {span.first: span for span in spans_of(utterances)}
    drafts: list[Draft] = []
    for at, utterance in enumerate(utterances):
        if at in spans:
            span = spans[at]
            drafts.append(_draft(utterances[span.first : span.last + 1], span, in_hand, words))
        in_hand = area_named(utterance.keys, words) or in_hand
    return tuple(sorted(drafts, key=lambda d: d.start))


def draft_note(text: str, words: JobWords = JobWords()) -> tuple[Draft, ...]:  # noqa: B008
    """Return the draft of one typed line: same path as talk, text kept as typed, never nothing.

    A blank line gives no draft.
    """
    line = one_line(text)
    cue = Cue(0.0, 0.0, line)
    utterances = utterances_of(
        words_of(Captions("typed note", "untimed text", (cue,), line, "", timed=False))
    )
    if not line:
        return ()
    best = likeliest_kind(utterances) if utterances else Span(0, 0, Kind.OBSERVATION, ())
    draft = _draft(utterances, best, None, words, text=line)
    return (draft,)


def _draft(
    said: Sequence[Utterance], span: Span, in_hand: str | None, words: JobWords, *, text: str | None = None
) -> Draft:
    spoken = [word for utterance in said for word in utterance.words]
    keys = [key for utterance in said for key in utterance.keys]
    place = place_of(keys, in_hand, words)
    heard = " ".join(utterance.said for utterance in said)
    shown = text or text_of(spoken)
    return Draft(
        start=said[0].start if said else 0.0,
        end=said[-1].end if said else 0.0,
        kind=span.kind,
        phase=place.phase,
        area=place.area,
        text=shown,
        open=span.kind is Kind.NEXT_STEP
        or (span.kind is Kind.OBSERVATION and any("fault" in sign for sign in span.signs)),
        who=party_of(keys, span.kind),
        hazards=hazards_in(keys),
        why=_why(span, place.phase_words, place.learned),
        heard=heard or (text or ""),
        measures=measures_in(shown),
        repairs=tuple(dict.fromkeys(Repair(w.heard, w.text) for w in spoken if w.heard)),
        learned=place.learned,
        audience=first_audience(text or heard).audience,
    )


def _why(span: Span, phase_words: tuple[str, ...], learned: tuple[str, ...]) -> str:
    said = ", ".join(s.replace("_", " ") for s in span.signs) or "no sign of work or choice"
    phase = ", ".join(phase_words) or "no trade word"
    own = f"; your own word: {', '.join(learned)}" if learned else ""
    return f"{span.kind.plain}: {said}; phase: {phase}{own}"
