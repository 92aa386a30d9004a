"""An update looked over before it is sent: words to think of, what is not told, what the facts changed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from journal_tui.documents.comparing import Change, Row, Side, changes_between, rows, settled
from journal_tui.documents.story import SUMMED_UP, LeftOut
from journal_tui.documents.tone import Remark, remarks
from journal_tui.domain.document import Length
from journal_tui.domain.errors import BadInput, NothingFound
from journal_tui.journal.opening import Journal
from journal_tui.journal.updates import (
    MOST_SHOWN,
    UpdateDraft,
    client_update,
    save_edit,
    shown_part,
    working_copy,
)

__all__ = [
    "SUMMED_UP",
    "Change",
    "Check",
    "LeftOut",
    "Remark",
    "Row",
    "Side",
    "changes",
    "check",
    "parts",
    "put_back",
    "rows",
    "settle",
]


@dataclass(frozen=True, slots=True)
class Check:
    """What to think of before an update is sent; none of it keeps anybody from sending it.

    ``remarks`` are words of the text as it stands, with their lines; ``untold`` is what is left out,
    ``summed_up`` what is only counted for want of room, ``unclear`` what is told all the same because it
    warns, asks or explains.
    """

    remarks: tuple[Remark, ...]
    untold: tuple[LeftOut, ...]
    summed_up: tuple[LeftOut, ...]
    unclear: tuple[LeftOut, ...]

    @property
    def not_told(self) -> int:
        """How many notes the client may read and is not told: left out, or only counted."""
        return len(self.untold) + len(self.summed_up)

    @property
    def not_told_line(self) -> str:
        """How many notes are not told, in words; "" when all are."""
        if not self.not_told:
            return ""
        return f"{self.not_told_words}: {len(self.untold)} left out, {len(self.summed_up)} only counted"

    @property
    def not_told_words(self) -> str:
        """The same number where there is little room: ``3 notes not told``."""
        return "1 note not told" if self.not_told == 1 else f"{self.not_told} notes not told"


def check(draft: UpdateDraft) -> Check:
    """Return what to think of before an update is sent."""
    return Check(
        tuple(remarks(shown_part(draft.markdown))),
        tuple(one for one in draft.unsaid if not one.kept and one.why != SUMMED_UP),
        tuple(one for one in draft.unsaid if one.why == SUMMED_UP),
        tuple(one for one in draft.unsaid if one.kept),
    )


def parts(found: Check) -> list[tuple[str, Sequence[LeftOut]]]:
    """Return what is left out or unclear, each kind under its title; a kind there is none of is not in it."""
    titled: list[tuple[str, Sequence[LeftOut]]] = [
        ("Left out, though the client may read it", found.untold),
        ("Told, but it may not be clear to somebody who was not there", found.unclear),
        ("Only counted, because a standard letter is short; the full one tells it", found.summed_up),
    ]
    return [(title, some) for title, some in titled if some]


def changes(journal: Journal, job_id: str, draft: UpdateDraft, length: Length) -> list[Change]:
    """Return what differs between the writer's version and what the journal says now, in order.

    Nothing while he has not edited it, and of a text far too long to compare.
    """
    working = working_copy(journal, job_id, length)
    if working is None or max(map(len, working)) > MOST_SHOWN:
        return []
    return changes_between(*working, draft.made)


def settle(
    journal: Journal,
    job_id: str,
    number: int,
    side: Side,
    length: Length = Length.STANDARD,
    as_of: dt.date | None = None,
    *,
    seen: Change | None = None,
) -> tuple[str, str]:
    """Settle the change of a number one way and keep that; return what was kept before, for ``put_back``.

    Raises ``NothingFound`` when there is no such change, and ``BadInput`` when it is not the one that
    was ``seen``, because the journal or the text changed meanwhile.
    """
    draft = client_update(journal, job_id, as_of, length)
    working = working_copy(journal, job_id, length)
    found = changes(journal, job_id, draft, length)
    if working is None or not 1 <= number <= len(found):
        raise NothingFound(f"there is no difference {number}", f"There are {len(found)}.")
    if seen is not None and found[number - 1] != seen:
        raise BadInput("the update changed meanwhile", "Look at the differences again.")
    save_edit(journal, job_id, *settled(*working, draft.made, number, side), length)
    return working


def put_back(
    journal: Journal, job_id: str, before: tuple[str, str], length: Length = Length.STANDARD
) -> None:
    """Keep again what was kept before a change was settled."""
    save_edit(journal, job_id, *before, length)
