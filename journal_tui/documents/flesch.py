"""How hard a document is to read: the Flesch and Flesch-Kincaid measures on its prose.

What is counted: paragraphs and list items. What is not: headings, the bold label a paragraph begins
with (it is a heading in all but form, and as a one-word sentence would flatter the grade), code, and
where links lead. A sentence ends at ``. ! ?`` before a blank or the end of its paragraph, not after an
abbreviation or an initial; a paragraph or list item also ends one. (Flesch himself ends sentences at
colons and semicolons too; counting fewer sentences makes the grade higher, never lower.) A word is what
stands between blanks and holds a letter or a digit; a number is one syllable, as Flesch counted.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from journal_tui.documents.syllables import abbreviations, syllables_in
from journal_tui.domain.text import one_line

#: The grade a home owner's letter should not pass.
PLAIN_GRADE = 8.0

_END = re.compile(r"[.!?…]+[)\]\"'”’]*(?=\s|$)")


@dataclass(frozen=True, slots=True)
class Readability:
    """Counts of a text's prose, its Flesch-Kincaid school ``grade`` and its Flesch reading ``ease``.

    All are 0 for a text without words.
    """

    words: int
    sentences: int
    syllables: int
    grade: float
    ease: float

    @property
    def plain(self) -> bool:
        """True when the grade is at most 8 (as printed, to one decimal)."""
        return round(self.grade, 1) <= PLAIN_GRADE

    def __str__(self) -> str:
        return f"grade {self.grade:.1f}, reading ease {self.ease:.0f}, {self.words} words"


def measured(words: int, sentences: int, syllables: int) -> Readability:
    """Return the measures of a text from its counts.

    Grade: 0.39 w/s + 11.8 y/w - 15.59 (Kincaid, Fishburne, Rogers and Chissom 1975). Ease: 206.835 -
    1.015 w/s - 84.6 y/w (Flesch 1948); w words, s sentences, y syllables.
    """
    if words <= 0 or sentences <= 0:
        return Readability(0, 0, 0, 0.0, 0.0)
    per_sentence, per_word = words / sentences, syllables / words
    grade = 0.39 * per_sentence + 11.8 * per_word - 15.59
    ease = 206.835 - 1.015 * per_sentence - 84.6 * per_word
    return Readability(words, sentences, syllables, grade, ease)


def readability(markdown: str) -> Readability:
    """Return the measures of the prose of ``markdown``."""
    words = sentences = syllables = 0
    for paragraph in _prose(markdown):
        for sentence in sentences_in(paragraph):
            counted = [word for word in sentence.split() if any(c.isalnum() for c in word)]
            if counted:
                sentences += 1
                words += len(counted)
                syllables += sum(syllables_in(word) for word in counted)
    return measured(words, sentences, syllables)


def sentences_in(paragraph: str) -> list[str]:
    """Return the sentences of a paragraph of plain text."""
    text = one_line(paragraph)
    pieces, start = [], 0
    for match in _END.finditer(text):
        before = text[max(start, match.start() - 20) : match.start()].rsplit(" ", 1)[-1]
        # One blank at most stands before the next word.
        if match.group() == "." and _abbreviated(before, text[match.end() + 1 : match.end() + 2]):
            continue
        pieces.append(text[start : match.end()].strip())
        start = match.end()
    return [piece for piece in [*pieces, text[start:].strip()] if piece]


def _abbreviated(word: str, following: str) -> bool:
    """True when the full stop after ``word`` belongs to it and the sentence goes on."""
    if not following:
        return False
    bare = word.strip("([\"'“‘").casefold()
    if len(bare) == 1 and bare.isalpha() and word.strip("([\"'“‘").isupper():
        return True
    return bare in abbreviations() and not following[0].isupper()


def _prose(markdown: str) -> Iterator[str]:
    from markdown_it.tree import SyntaxTreeNode

    from journal_tui.documents.render import parser

    for node in SyntaxTreeNode(parser().parse(markdown)).walk():
        if node.type == "paragraph":
            yield "".join(_words(node.children[0], label=True))


def _words(node: Any, *, label: bool) -> Iterator[str]:
    for at, child in enumerate(node.children):
        # An opening strong span is preceded by an empty text token.
        leads = label and all(not c.content for c in node.children[:at])
        if child.type == "strong" and leads:
            continue
        if child.type == "text":
            yield child.content
        elif child.type in ("softbreak", "hardbreak"):
            yield " "
        else:
            yield from _words(child, label=False)
