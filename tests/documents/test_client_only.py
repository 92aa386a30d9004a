"""A document for the client can only be made of what the client may read.

``ClientText`` is made nowhere but in ``domain.reading``; these tests hold the documents room to that.
"""

from __future__ import annotations

import ast
import dataclasses
import inspect
from pathlib import Path
from typing import get_args, get_type_hints

import journal_tui.documents as documents
from journal_tui.domain.document import ClientFact, UpdateFacts
from journal_tui.domain.reading import ClientText

ROOM = Path(inspect.getfile(documents)).parent


def test_an_update_takes_facts_for_the_client_and_nothing_else() -> None:
    hints = get_type_hints(documents.update_markdown)
    assert hints["facts"] is UpdateFacts
    takes = set(inspect.signature(documents.update_markdown).parameters)
    assert takes == {"facts", "words"}


def test_every_text_of_the_facts_has_passed_reading() -> None:
    whole = get_type_hints(UpdateFacts)
    texts = {"title", "address"}
    assert all(whole[name] is ClientText for name in texts)
    groups = {f.name for f in dataclasses.fields(UpdateFacts)} - texts - {"as_of", "since", "visits"}
    assert all(get_args(whole[name]) == (ClientFact, ...) for name in groups)
    fact = get_type_hints(ClientFact)
    assert fact["text"] is ClientText and fact["area"] is ClientText


def test_no_module_of_the_room_makes_client_text_or_knows_an_entry_or_a_job() -> None:
    for path in ROOM.glob("*.py"):
        named = {
            getattr(node, "id", getattr(node, "attr", getattr(node, "name", "")))
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        }
        assert not named & {"ClientText", "for_client", "Entry", "Job", "Visit", "cast"}, path.name
        if path.name == "update.py":
            assert "PunchItem" not in named
