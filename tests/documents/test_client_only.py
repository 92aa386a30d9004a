"""A document for the client can only be made of what the client may read.

``ClientText`` is made nowhere but in ``domain.reading``; these tests hold the documents room to that.
"""

from __future__ import annotations

import ast
import dataclasses
import datetime as dt
import inspect
from pathlib import Path
from typing import get_args, get_type_hints

import journal_tui.documents as documents
from journal_tui.domain.document import ChangeFact, ClientFact, TermsFact, UpdateFacts
from journal_tui.domain.reading import ClientText

ROOM = Path(inspect.getfile(documents)).parent


def test_an_update_takes_facts_for_the_client_and_nothing_else() -> None:
    hints = get_type_hints(documents.update_markdown)
    assert hints["facts"] is UpdateFacts
    takes = set(inspect.signature(documents.update_markdown).parameters)
    assert takes == {"facts", "words", "length"}


def test_every_text_of_the_facts_has_passed_reading() -> None:
    whole = get_type_hints(UpdateFacts)
    texts = {"title", "address"}
    assert all(whole[name] is ClientText for name in texts)
    other = {"as_of", "since", "visits", "changes", "terms", "finish"}
    groups = {f.name for f in dataclasses.fields(UpdateFacts)} - texts - other
    assert all(get_args(whole[name]) == (ClientFact, ...) for name in groups)
    assert get_args(whole["changes"]) == (ChangeFact, ...)
    fact = get_type_hints(ClientFact)
    assert fact["text"] is ClientText and fact["area"] is ClientText
    assert fact["held"] == ClientText | None
    assert get_type_hints(ChangeFact)["title"] is ClientText
    # Money and days, no words.
    assert set(get_type_hints(TermsFact).values()) == {int, dt.date | None}


def test_no_module_of_the_room_makes_client_text_or_knows_an_entry_or_a_job() -> None:
    for path in ROOM.glob("*.py"):
        named = {
            getattr(node, "id", getattr(node, "attr", getattr(node, "name", "")))
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        }
        assert not named & {"ClientText", "for_client", "Entry", "Job", "Visit", "cast"}, path.name
        if path.name == "update.py":
            assert "PunchItem" not in named
