"""What the journal says now against what its writer has, change by change, each settled by itself."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents.comparing import Change, Side, changes_between, rows, settled
from journal_tui.documents.edits import END_MARK, FRESH_MARK, YOURS_MARK, merge_edits, unsettled

BASE = "# Hall\n\nThe sill is dry.\nThe trap is new.\n\nWe grout on Friday.\n\nThank you."
HIS = "# Hall\n\nThe sill is bone dry.\nThe trap is new.\n\nWe grout on Friday.\n\nThank you, all."
FRESH = "# Hall\n\nThe sill is wet.\nThe trap is new.\nThe vent is in.\n\nWe grout on Friday.\n\nThank you."


def test_each_change_says_who_made_it() -> None:
    found = changes_between(BASE, HIS, FRESH)
    assert [(c.what, c.yours, c.journal) for c in found] == [
        ("both you and the journal changed this", ("The sill is bone dry.",), ("The sill is wet.",)),
        ("the journal added this", (), ("The vent is in.",)),
        ("you changed this", ("Thank you, all.",), ("Thank you.",)),
    ]


def test_words_are_marked_as_gnu_wdiff_marks_them() -> None:
    # GNU wdiff 1.2 manual, section 1: "[-" and "-]" around what is deleted, "{+" and "+}" around the new.
    both, added, yours = changes_between(BASE, HIS, FRESH)
    assert [(row.sign, row.text) for row in rows(both)] == [("~", "The sill is [-bone dry.-]{+wet.+}")]
    assert [(row.sign, row.text) for row in rows(added)] == [("+", "The vent is in.")]
    assert [(row.sign, row.text) for row in rows(yours)] == [("~", "Thank [-you, all.-]{+you.+}")]


def test_two_sentences_that_are_not_alike_stand_apart() -> None:
    change = Change(True, True, ("The door is late.",), ("We hung both windows today, plumb and level.",))
    assert [(row.sign, row.text) for row in rows(change)] == [
        ("-", "The door is late."),
        ("+", "We hung both windows today, plumb and level."),
    ]


@pytest.mark.parametrize(
    ("number", "side", "has", "hasnt"),
    [
        (1, Side.JOURNAL, "The sill is wet.", "bone"),
        (1, Side.YOURS, "The sill is bone dry.", "wet"),
        (2, Side.YOURS, "The trap is new.", "vent"),
        (2, Side.JOURNAL, "The vent is in.", "\x00"),
        (3, Side.JOURNAL, "Thank you.", "you, all"),
        (3, Side.YOURS, "Thank you, all.", "\x00"),
    ],
)  # fmt: skip
def test_one_change_is_settled_and_the_rest_stays(number: int, side: Side, has: str, hasnt: str) -> None:
    base, edited = settled(BASE, HIS, FRESH, number, side)
    merged = merge_edits(base, edited, FRESH).text
    assert has in merged and hasnt not in merged
    assert unsettled(merged) == (number != 1)
    if number != 3:
        assert "Thank you, all." in merged


def test_marks_he_saved_are_settled_too() -> None:
    marked = BASE.replace(
        "The sill is dry.", f"{YOURS_MARK}\n\nMine.\n\n{FRESH_MARK}\n\nTheirs.\n\n{END_MARK}"
    )
    (change,) = changes_between(BASE, marked, BASE)
    assert [line for line in change.yours if line] == ["Mine."]
    base, edited = settled(BASE, marked, BASE, 1, Side.YOURS)
    merged = merge_edits(base, edited, BASE).text
    assert "Mine." in merged and not unsettled(merged)


def test_a_number_there_is_not_is_refused() -> None:
    with pytest.raises(IndexError):
        settled(BASE, BASE, BASE, 1, Side.YOURS)


_text = st.lists(st.sampled_from(["a b c", "a c", "d", "", "e f", "g"]), max_size=7).map("\n".join)


@given(_text, _text, _text)
def test_a_document_whose_changes_are_all_settled_is_one_of_the_two(base: str, his: str, fresh: str) -> None:
    for side in Side:
        old, new = base, his
        for _ in range(30):
            open_ = [
                n
                for n, c in enumerate(changes_between(old, new, fresh), 1)
                if c.by_journal or side is Side.JOURNAL
            ]
            if not open_:
                break
            old, new = settled(old, new, fresh, open_[0], side)
        merged = merge_edits(old, new, fresh).text
        assert not unsettled(merged)
        if side is Side.JOURNAL:
            assert merged == fresh
        else:
            # Nothing he wrote is lost: each of his lines stands in it as often as he has it.
            assert all(merged.split("\n").count(line) >= 1 for line in his.split("\n") if line)


@given(_text, _text)
def test_both_wordings_can_be_read_off_the_rows(his: str, fresh: str) -> None:
    for change in changes_between(his, his, fresh) + changes_between(fresh, his, fresh):
        mine, theirs = [], []
        for row in rows(change):
            if row.sign in " -~":
                mine.append("".join(w.text for w in row.words if not w.only_journal))
            if row.sign in " +~":
                theirs.append("".join(w.text for w in row.words if not w.only_yours))
        assert [line for line in mine if line] == [line for line in change.yours if line.strip()]
        assert [line for line in theirs if line] == [line for line in change.journal if line.strip()]
        assert not re.search(r"\n", "".join(row.text for row in rows(change)))
