"""Why what was found matters, and what a family should know of the work ahead: two reviewed data files."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import islice
from re import Pattern

from journal_tui.documents.deeds import deed_in, is_errand
from journal_tui.documents.matching import Signs, any_of, line_of, signs
from journal_tui.documents.wording import data_table

#: More reasons than this for one note would bury it.
MOST_FOR_ONE = 2


@dataclass(frozen=True, slots=True)
class Condition:
    """Something known about what was found.

    ``say`` is why it matters, ``left`` what it comes to if nothing is done, ``source`` where that is
    written (empty: common practice), ``explains`` the trade words ``say`` makes plain already.
    """

    name: str
    signs: Signs
    say: str
    left: str
    source: str
    standing: str
    explains: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FamilyNote:
    """What living in the house is like while some work goes on; ``phase`` is work that always brings it.

    ``brief`` is what a letter with little room tells of it; ``where`` is what the work, its place or the
    job must be of (None: anything); ``errand`` when also what is only fetched or ordered brings it.
    """

    label: str
    signs: Signs
    phase: str
    say: str
    brief: str
    source: str
    standing: str
    where: Pattern[str] | None = None
    errand: bool = False


@cache
def conditions() -> tuple[Condition, ...]:
    """Return every condition of the library, in its order."""
    return tuple(
        Condition(
            row["name"],
            signs(row["when"], row.get("unless", ())),
            row["say"],
            row["left"],
            row["source"],
            row["standing"],
            tuple(row["explains"]),
        )
        for row in data_table("conditions.toml")["condition"]
    )


@cache
def family_notes() -> tuple[FamilyNote, ...]:
    """Return every note to the family, in the order they are told."""
    return tuple(
        FamilyNote(
            row["label"],
            signs(row["when"], row.get("unless", ())),
            row.get("phase", ""),
            row["say"],
            row["brief"],
            row["source"],
            row["standing"],
            any_of(row["where"]) if "where" in row else None,
            row.get("errand", False),
        )
        for row in data_table("family.toml")["note"]
    )


def conditions_in(text: str, place: str = "") -> list[Condition]:
    """Return what is known about what a note tells, at most two, in the order of the library."""
    return list(_conditions_in(text, place))


@lru_cache(4096)
def _conditions_in(text: str, place: str) -> tuple[Condition, ...]:
    line = line_of(text, place)
    return tuple(islice((c for c in conditions() if c.signs.found_in(line)), MOST_FOR_ONE))


def notes_for(works: Iterable[tuple[str, str, str]], job: str = "") -> list[FamilyNote]:
    """Return the notes that work ahead, each given as (phase, place, text), calls for in a ``job`` so named.

    The name of a place does not tell what is done there: "supply lines" is where a kit is fetched for.
    """
    told = [(phase, place, text, deed_in(text)) for phase, place, text in works]
    return [
        note
        for note in family_notes()
        if any(
            (note.phase == phase or note.signs.fit(text))
            and (note.errand or deed is None or not is_errand(deed))
            and (note.where is None or note.where.search(line_of(text, f"{job}. {place}")))
            for phase, place, text, deed in told
        )
    ]
