"""User text in Markdown, in every position, as two independent CommonMark libraries read it."""

from __future__ import annotations

import html
from typing import Any

import commonmark
import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from journal_tui.documents import escape_inline
from journal_tui.domain.text import one_line
from tests.documents.samples import HOSTILE, lines
from tests.documents.trees import tree

_MARKDOWN_IT = MarkdownIt("commonmark")

#: Where text of ours can stand, and what is read there.
POSITIONS = {
    "paragraph": ("{}", "{}"),
    "middle of a line": ("word {} word", "word {} word"),
    # Here ``===`` would make a heading of the line before.
    "second line": ("word\n{}", "word {}"),
    "heading": ("## {}", "{}"),
    "emphasis": ("word *a{}a* word", "word a{}a word"),
    "strong": ("**a{}a** word", "a{}a word"),
    "after strong": ("**word.** {}", "word. {}"),
    "item": ("- {}", "{}"),
    "second line of an item": ("1. word\n   {}", "word {}"),
}


def _literal(text: str, position: str) -> None:
    markdown, plain = POSITIONS[position]
    shown = one_line(text)
    for render in (_MARKDOWN_IT.render, commonmark.commonmark):
        read = tree(render(markdown.format(escape_inline(text))))
        assert _squeezed(_text(read)) == _squeezed(plain.format(shown))
        if shown:
            assert _names(read) == _names(tree(render(markdown.format("x"))))


def _text(node: tuple[Any, ...]) -> str:
    return " ".join(child if isinstance(child, str) else _text(child[2]) for child in node)


def _names(node: tuple[Any, ...]) -> list[Any]:
    return [(child[0], _names(child[2])) for child in node if not isinstance(child, str)]


def _squeezed(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("text", HOSTILE)
def test_every_metacharacter_is_read_as_typed(text: str, position: str) -> None:
    _literal(text, position)


@given(lines, st.sampled_from(sorted(POSITIONS)))
def test_any_text_is_read_as_typed(text: str, position: str) -> None:
    _literal(text, position)


@given(st.text())
def test_the_result_is_one_line_that_no_control_character_is_left_in(text: str) -> None:
    escaped = escape_inline(text)
    assert one_line(escaped) == escaped


@given(lines)
def test_blanks_inside_are_kept(text: str) -> None:
    # Squeezing would hide a lost blank between words.
    rendered = _MARKDOWN_IT.renderInline(escape_inline(text))
    assert html.unescape(rendered) == one_line(text)


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        ("3/4 inch plywood, glued & screwed", "3/4 inch plywood, glued & screwed"),
        ("R&D costs $5 (or 5%)!", "R&D costs $5 (or 5%)!"),
        ("set #4 - then #5", "set #4 - then #5"),
        ("2.5 in", "2.5 in"),
        ("1. first", "1\\. first"),
        ("AT&T; not &copy;", "AT\\&T; not \\&copy;"),
    ],
)
def test_what_cannot_act_is_left_readable(text: str, escaped: str) -> None:
    assert escape_inline(text) == escaped
