"""A document as blocks for the terminal holds what its plain text holds."""

from __future__ import annotations

import re

import pytest
from hypothesis import given

from journal_tui.documents import plain_text, update_markdown
from journal_tui.documents.blocks import blocks
from journal_tui.domain.document import BlockKind, Run, UpdateFacts
from journal_tui.domain.text import one_line
from tests.documents.samples import HOSTILE, update_facts


def _text(markdown: str) -> str:
    return "".join(block.mark + "".join(run.text for run in block.runs) for block in blocks(markdown))


@given(update_facts)
def test_the_words_are_those_of_the_plain_text(some: UpdateFacts) -> None:
    made = update_markdown(some)
    assert "".join(_text(made).split()) == "".join(plain_text(made).split())


@pytest.mark.parametrize("markdown", HOSTILE)
def test_no_character_acts(markdown: str) -> None:
    for block in blocks(markdown):
        for run in block.runs:
            assert one_line(run.text).replace(" ", "") == re.sub(r"\s", "", run.text)


def test_each_kind_of_block() -> None:
    made = blocks("# A\n\nOne *two*\n**three**\n\n1. x\n2. y\n\n   more\n\n> q\n\n```\nc\nd\n```\n\n---\n")
    assert [(b.kind, b.mark, b.depth, b.level) for b in made] == [
        (BlockKind.HEADING, "", 0, 1),
        (BlockKind.PARAGRAPH, "", 0, 0),
        (BlockKind.PARAGRAPH, "1.", 1, 0),
        (BlockKind.PARAGRAPH, "2.", 1, 0),
        (BlockKind.PARAGRAPH, "", 1, 0),
        (BlockKind.PARAGRAPH, "", 1, 0),
        (BlockKind.CODE, "", 0, 0),
        (BlockKind.CODE, "", 0, 0),
        (BlockKind.RULE, "", 0, 0),
    ]
    assert [run for run in made[1].runs if run.text] == [
        Run("One "),
        Run("two", emphasis=True),
        Run(" "),
        Run("three", strong=True),
    ]
