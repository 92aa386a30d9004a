"""Generated documents are CommonMark: two independent libraries read the same structure from them.

markdown-it-py is what the package itself renders with; commonmark is a port of commonmark.js, the
reference implementation of the standard. What they render is read by an HTML parser and compared as
trees. (Two other libraries that were tried misread a backslash before a backtick, CommonMark 0.31.2
section 2.4, or before a line's end, section 6.7.)
"""

from __future__ import annotations

from typing import Any

import commonmark
from hypothesis import given
from markdown_it import MarkdownIt

from journal_tui.documents import punch_markdown, update_markdown
from journal_tui.documents.deeds import deed_in
from journal_tui.documents.sentences import sentences
from journal_tui.documents.told import story_of
from journal_tui.domain.document import Length, UpdateFacts
from journal_tui.domain.punch import PunchList
from journal_tui.domain.text import folded, one_line
from tests.documents.samples import DAY, HOSTILE, fact, facts, item, plist, punch_lists, update_facts
from tests.documents.trees import text_of, tree

#: All an update or a punch list is built of; a link, a picture or code could only come from user text.
_UPDATE_PARTS = {"h1", "h2", "h3", "p", "strong", "em", "ol", "ul", "li"}
_PUNCH_PARTS = {"h1", "h2", "p", "strong", "ul", "li"}


def _agreed(markdown: str, parts: set[str]) -> str:
    """Check that both libraries read ``markdown`` alike, of ``parts`` only; return what is read."""
    first, second = MarkdownIt("commonmark").render(markdown), commonmark.commonmark(markdown)
    assert tree(first) == tree(second)
    assert _names(tree(first)) <= parts
    return _squeezed(text_of(first))


def _names(node: tuple[Any, ...]) -> set[str]:
    names: set[str] = set()
    for child in node:
        if not isinstance(child, str):
            names |= {child[0], *_names(child[2])}
    return names


def _squeezed(text: str) -> str:
    return "".join(text.split())


def _check_update(some: UpdateFacts) -> None:
    read = _agreed(update_markdown(some, length=Length.FULL), _UPDATE_PARTS)
    assert _squeezed(one_line(some.title)) in read
    story = story_of(some)
    for group in (*story.parts, story.waiting, story.notes):
        for told in group:
            # Work is told in other words: "We will strap the supply".
            assert deed_in(told.text) or all(_squeezed(line) in read for line in sentences(told.text))
    for asked in story.needed:
        assert all(_squeezed(line) in read for line in asked.ask.lines or sentences(asked.text))


def _told_apart(some: UpdateFacts) -> bool:
    # Two facts of one place that differ in nothing but capitals and blanks are told once.
    told = [f.text for group in (some.found, some.decided, some.done, some.next) for f in group]
    told += [f.text for group in (some.needed, some.waiting) for f in group]
    return len({folded(t) for t in told}) == len(told)


@given(update_facts.filter(_told_apart))
def test_updates_of_any_text(some: UpdateFacts) -> None:
    _check_update(some)


def test_updates_of_every_metacharacter() -> None:
    for text in HOSTILE:
        told = (fact(text, text, phase=text),)
        _check_update(
            facts(title=text, address=text, found=told, decided=told, done=told, next=told, needed=told)
        )


@given(punch_lists)
def test_punch_lists_of_any_text(some: PunchList) -> None:
    read = _agreed(punch_markdown(some, title="t", as_of=DAY), _PUNCH_PARTS)
    for owed in [*some.waiting, *(i for group in some.phases for i in group.items)]:
        assert _squeezed(one_line(owed.text)) in read
        assert _squeezed(one_line(owed.area)) in read


def test_punch_lists_of_every_metacharacter() -> None:
    for text in HOSTILE:
        read = _agreed(
            punch_markdown(plist(item(text, text, phase=text)), title=text, as_of=DAY), _PUNCH_PARTS
        )
        assert read.count(_squeezed(one_line(text))) >= 3
