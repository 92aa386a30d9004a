"""What a letter tells, in the words it tells it in, and what it leaves out with the reason for it."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import replace

from journal_tui.documents.asking import Ask, ask_in, asks_reader, without_past_days
from journal_tui.documents.clear_parts import clear_part, is_empty
from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.deeds import deed_in, told_result, told_to_reader
from journal_tui.documents.headings import (
    hurts,
    is_behind,
    is_finished,
    is_only_seen,
    is_order,
    is_told_as_change,
    is_told_as_done,
    key_of,
    names_its_place,
    only_done,
    relieved_in,
    told_once,
)
from journal_tui.documents.news import puts_right, says_nothing, unclear, warns, without_talk
from journal_tui.documents.once import tell_once
from journal_tui.documents.plain_speech import plainly
from journal_tui.documents.sentences import parts_of
from journal_tui.documents.settled import tells_what_sub_does, told_as_past
from journal_tui.documents.story import (
    BEHIND,
    NO_CLEAR_REQUEST,
    NO_REQUEST,
    NOT_NEWS,
    NOT_ON_LIST,
    OVER,
    SAYS_NOTHING,
    TONE,
    LeftOut,
    Story,
    Told,
)
from journal_tui.documents.tone import calmed
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.kinds import Kind, Party
from journal_tui.domain.text import one_line


def story_of(facts: UpdateFacts) -> Story:
    """Return what a letter of ``facts`` may tell, nothing twice, each in plain words."""
    story = Story(facts)
    today = facts.as_of
    asked = [fact for fact in told_once(facts.next) if asks_reader(fact.text)]
    needed = [fact for fact in told_once([*facts.needed, *asked]) if _asks(story, fact)]
    noted = [fact for fact in facts.needed if fact.kind is Kind.OBSERVATION and not _is_request(fact, today)]
    # What the reader or others have to move is told there, not twice.
    elsewhere = {key_of(fact) for fact in (*facts.needed, *facts.waiting)} - {key_of(fact) for fact in noted}
    # How an inspection came out, or what we did, was nobody's choice.
    results = [fact for fact in facts.decided if told_result(fact.text) or only_done(fact)]
    found = [fact for fact in told_once([*facts.found, *noted, *results]) if key_of(fact) not in elsewhere]
    seen = [fact for fact in told_once(facts.next) if fact not in asked and is_only_seen(fact)]
    behind = [fact for fact in told_once(facts.next) if fact not in asked and is_behind(fact)]
    found = told_once([*found, *behind, *seen])
    finished = [fact for fact in found if is_finished(fact)]
    story.finished = frozenset(map(id, finished))
    story.relieved = relieved_in(facts)
    orders = [fact for fact in found if is_order(fact)]
    for fact in found:
        if fact not in finished and fact not in orders:
            _take(story, story.found, fact)
    for fact in told_once(facts.decided):
        if fact not in results:
            _take(story, story.decided, fact)
    for fact in told_once([*finished, *(fact for fact in facts.done if not is_told_as_change(fact, facts))]):
        _take(story, story.done if is_told_as_done(fact, finished) else story.settled, fact, done=True)
    for fact in told_once(facts.next):
        if fact in behind:
            story.left_out.append(LeftOut(fact.area, one_line(fact.text), BEHIND, kept=True))
        elif fact not in (*asked, *seen):
            _take(story, story.next, fact, ahead=True)
    for fact in orders:
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), NOT_ON_LIST, kept=True))
        _take(story, story.next, fact, ahead=True)
    _need(story, needed)
    for fact in told_once(facts.waiting):
        _wait(story, fact)
    tell_once(story)
    return story


# What is asked ---------------------------------------------------------------------------------------------


def _ask(fact: ClientFact, today: dt.date) -> tuple[str, list[str], Ask]:
    """Return a request in a letter's words, what its tone left out of it, and how it is asked."""
    # Whom a request speaks to, it says itself: "client to pick" is told as "please pick".
    calm, loud = calmed(plainly(fact, today, ahead=True))
    said_on = fact.said_on or fact.day
    return calm, loud, ask_in(calm, said_on, today, named=names_its_place(fact))


def _is_request(fact: ClientFact, today: dt.date) -> bool:
    ask = _ask(fact, today)[2]
    return bool(ask.over or (ask.lines and not ask.quoted))


def _asks(story: Story, fact: ClientFact) -> bool:
    """True when there is something left to ask for; what there is not is named to the remodeler."""
    today = story.facts.as_of
    if fact.kind is Kind.OBSERVATION and not _is_request(fact, today):
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), NO_REQUEST, kept=True))
        return False
    ask = _ask(fact, today)[2]
    if ask.over and not ask.lines:
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), OVER))
        return False
    return True


def _need(story: Story, needed: Sequence[ClientFact]) -> None:
    """Put each request where requests are told, one made in the same words on the same day only once."""
    merged: dict[tuple[object, ...], Told] = {}
    for number, fact in enumerate(needed):
        text, loud, ask = _ask(fact, story.facts.as_of)
        _note(story, fact, loud, TONE)
        _note(story, fact, ask.over, OVER)
        if ask.quoted:
            story.left_out.append(LeftOut(fact.area, one_line(fact.text), NO_CLEAR_REQUEST, kept=True))
        told = Told(fact, " ".join(ask.lines) or text, bool(fact.hazards), ask)
        # What was typed stands as often as it was typed; talk is drafted twice where it names two places.
        once = ask.lines if fact.spoken and ask.lines else number
        key = (once, fact.said_on or fact.day, fact.by, fact.held)
        same = merged.get(key)
        if same is not None:
            by = max(filter(None, (same.ask.asked_by, ask.asked_by)), default=None)
            told = replace(same, ask=replace(same.ask, asked_by=by), places=(*same.places, fact.area))
        merged[key] = told
    story.needed += merged.values()


_WILL = re.compile(r"\bwill\b", re.IGNORECASE)
#: "He wants" behind the name of a party: he is that party.
_HE = re.compile(r"^(?:he|she)(?=['’ ])", re.IGNORECASE)
_PARTY = {Party.INSPECTOR: "The inspector", Party.SUPPLIER: "The supplier"}


def _wait(story: Story, fact: ClientFact) -> None:
    calm, loud = calmed(plainly(fact, story.facts.as_of, ahead=True))
    _note(story, fact, loud, TONE)
    if fact.who in _PARTY:
        calm = _HE.sub(_PARTY[fact.who], calm)
    calm = _without_empty(story, fact, calm)
    told = Told(fact, calm or one_line(fact.text), bool(fact.hazards))
    why = unclear(calm, named=bool(fact.area.strip()))
    if why:
        # What others owe may carry the only word of a day: better told as noted than not told.
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why, kept=True))
    story.waiting.append(told)


def _take(
    story: Story, part: list[Told], fact: ClientFact, *, ahead: bool = False, done: bool = False
) -> None:
    """Put a fact where it is told, and what of it is not told among what is left out."""
    # Work to come is a danger by its words; what it may hurt is warned of under its place all the same.
    danger = (warns(fact.text) or (hurts(fact) and not ahead)) and not done
    # On which day a step was done is not told by the plan; how a test came out is told with its day.
    whole = plainly(fact, story.facts.as_of, ahead=ahead, done=done and not is_behind(fact))
    if not done:
        whole = told_to_reader(whole)
    if ahead:
        whole = _NEED.sub("We need ", whole)
    if ahead or (fact.kind is Kind.DECISION and (deed_in(whole) or _WILL.search(whole))):
        whole = without_past_days(whole, fact.said_on or fact.day, story.facts.as_of)
    text, talk = without_talk(whole)
    if not text and warns(whole):
        text, talk = whole, []
    calm, loud = calmed(text)
    named = names_its_place(fact)
    calm = calm if named else _without_empty(story, fact, calm)
    why = calm and (unclear(calm, named=named) or (SAYS_NOTHING if is_empty(calm, named) else ""))
    # Of work to come the part behind may be what it hangs on: "nothing goes on it until he signs".
    if why and not (done or danger or ahead):
        calm, rest = clear_part(calm, named=named)
        story.left_out += [LeftOut(fact.area, part, why) for part in rest if calm]
        calm, why = (calm, "") if calm else (" ".join(rest), why)
    told = Told(fact, calm, danger)
    known = bool(conditions_in(fact.text, fact.area)) and not ahead and "run together" not in why
    known = known and not puts_right(fact.text)
    if why and not done and (danger or known or fact.held or hurts(fact)):
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why, kept=True))
    elif why:
        story.left_out.append(LeftOut(fact.area, one_line(fact.text), why))
        story.notes.append(told)
        return
    if part is story.done and fact.kind is Kind.NEXT_STEP and tells_what_sub_does(calm):
        told = replace(told, text=told_as_past(calm, fact) or calm)
    if part is story.settled and calm:
        past = told_as_past(calm, fact)
        told = replace(told, text=past or calm, quoted=past is None)
    _note(story, fact, talk, NOT_NEWS)
    _note(story, fact, loud, TONE)
    if calm:
        part.append(told)


#: "Need a wall cap": we do.
_NEED = re.compile(
    r"^need (?=(?:an?|the|some|more|another|one|two|three|four|five|six|\d+)\b)", re.IGNORECASE
)


def _without_empty(story: Story, fact: ClientFact, text: str) -> str:
    """Return a note without the parts that say nothing by themselves, those named; whole when all do."""
    parts = parts_of(text)
    kept = [part for part in parts if not says_nothing(part)]
    if not kept or len(kept) == len(parts):
        return text
    _note(story, fact, [part for part in parts if says_nothing(part)], NOT_NEWS)
    return "; ".join(kept)


def _note(story: Story, fact: ClientFact, words: Sequence[str], why: str) -> None:
    story.left_out += [LeftOut(fact.area, part, why) for part in words if part]
