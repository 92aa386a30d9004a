"""What a letter says once though it was drafted twice."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from journal_tui.documents.clauses import clauses
from journal_tui.documents.deeds import deed_in
from journal_tui.documents.headings import names_its_place
from journal_tui.documents.news import has_verb, unclear
from journal_tui.documents.sentences import parts_of
from journal_tui.documents.story import SEEN_DONE, TWICE, LeftOut, Story, Told
from journal_tui.domain.kinds import Kind
from journal_tui.domain.text import folded, one_line

#: So many words are no chance likeness, also in another place.
_SAME_WORDS = 5


def tell_once(story: Story) -> None:
    """Take out of what was found and decided the parts that what is done or comes next tells as well."""
    said = {key for one in (*story.next, *story.done) for key in _part_keys(one)}
    for part in (story.decided, story.found):
        kept: list[Told] = []
        for one in part:
            left = [words for words in parts_of(one.text) if not _told_in(said, one, words)]
            text = "; ".join(left)
            again = len(left) < len(parts_of(one.text))
            if again and text and unclear(text, named=names_its_place(one.fact)):
                again = False
            if not again:
                kept.append(one)
            elif text:
                kept.append(replace(one, text=text))
            else:
                story.left_out.append(LeftOut(one.area, one_line(one.fact.text), TWICE))
        part[:] = kept
    story.found[:] = _without_echo(story.found)
    for one in [one for one in story.done if _seen_done(one, story.done)]:
        story.done.remove(one)
        story.left_out.append(LeftOut(one.area, one_line(one.fact.text), SEEN_DONE))


def _seen_done(one: Told, done: list[Told]) -> bool:
    """True for a step whose end was seen and is told in its place: "the floor is grouted"."""
    deed = deed_in(one.text) if one.kind is Kind.NEXT_STEP else None
    if deed is None:
        return False
    things = [word for word in re.findall(r"[a-z]{3,}", deed.rest.lower()) if word not in _LITTLE]
    seen = {deed.done().split()[0], *things[:1]}
    return bool(things) and any(
        seen <= set(re.findall(r"[a-z]+", folded(other.text)))
        for other in done
        if other.kind is not Kind.NEXT_STEP and folded(other.area) == folded(one.area)
    )


_LITTLE = frozenset(
    "the all two new old out off back down over and for with that this them its our your".split()
)


def _without_echo(part: list[Told]) -> list[Told]:
    """Return what was found without the clause at the front of a note that the note before it, of the
    same place, ends in: talk is drafted twice where one thought goes on."""
    kept: list[Told] = []
    for one in part:
        before = [other for other in kept if folded(other.area) == folded(one.area)]
        first, *rest = clauses(one.text)
        words = folded(first.words).strip(" ,;.")
        if before and rest and len(words.split()) >= _SAME_WORDS and words in folded(before[-1].text):
            left = "".join([rest[0].alone, *(clause.link + clause.words for clause in rest[1:])])
            one = replace(one, text=left) if has_verb(left) else one
        kept.append(one)
    return kept


def _part_keys(one: Told) -> Iterable[tuple[str, str]]:
    for words in parts_of(one.text):
        key = _words_of(words)
        yield folded(one.area), key
        if len(key.split()) >= _SAME_WORDS:
            yield "", key


def _told_in(said: set[tuple[str, str]], one: Told, words: str) -> bool:
    key = _words_of(words)
    return (folded(one.area), key) in said or ("", key) in said


def _words_of(words: str) -> str:
    # "Order it" and "we will order it" are the same work.
    deed = deed_in(words)
    return folded(deed.to_do() if deed and deed.who == "We" else words).rstrip(".! ")
