"""Facts, punch items and hostile text the tests of this folder share."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from hypothesis import strategies as st

from journal_tui.domain.document import ChangeFact, ClientFact, TermsFact, UpdateFacts
from journal_tui.domain.kinds import STANDARD_PHASES, Hazard, Kind, Party
from journal_tui.domain.punch import PunchItem, PunchList, punch_list
from journal_tui.domain.reading import ClientText
from journal_tui.domain.text import storable

DAY = dt.date(2026, 3, 17)

#: Every way CommonMark 0.31.2 has to make a character act, by section, and what terminals obey.
HOSTILE = (
    "# heading",  # 4.2
    "trailing # ##",
    "###### six",
    "=====",  # 4.3 setext underline
    "---",
    "- - -",  # 4.1
    "***",
    "___",
    "    four blanks",  # 4.4
    "\ta tab",
    "```fence",  # 4.5
    "~~~",
    "<script>alert(1)</script>",  # 4.6
    "<!-- a comment -->",
    "</title></style></main><script>alert(2)</script>",
    "<img src=x onerror=alert(1)>",
    "<a href='javascript:alert(1)' onclick=x>press</a>",
    "[label]: http://a.example 'title'",  # 4.7
    "> quoted",  # 5.1
    "- item",  # 5.2
    "+ item",
    "* item",
    "1. first",
    "7) seventh",
    "0000000010. ten",
    "123456789. nine figures",
    "[ ] box",
    "back\\slash \\# \\",  # 2.4, 6.7
    "&amp; &#35; &#x23; &nbsp; &notareference; R&D",  # 2.5
    "`code` ``two``",  # 6.1
    "*emphasis* **strong** _under_ __both__ snake_case_word 2*3*4",  # 6.2
    "[text](http://a.example) [ref][x] [x] ![alt](y.png)",  # 6.3, 6.4
    "<http://a.example> <me@a.example>",  # 6.5
    "hard break  \nnext line\\\nthird",  # 6.7
    "| a | b |\n|---|---|",  # not CommonMark, but tables in many renderers
    "~~struck~~",
    "need [/] here, [/b] wall, [red]door[/red], [@click=app.quit]x[/]",
    "\x1b[31mred\x1b[0m \x07 \x00 \x9b1m \ud800",
    "\u202ereversed\u202c \u200bzero \u2028line\u2029para \ufeff",
    "\u05e9\u05dc\u05d5\u05dd right to left",
    "タイル 床 \u0301combining",
    "",
    "   ",
)

_MARKS = "\\`*_{}[]()<>#+-.!|~&;:=\"'/ \t\n0123456789ab?$%^,@é漢\u200b\x1b\xa0"
marks = st.text(alphabet=_MARKS, max_size=24)
lines = st.one_of(st.sampled_from(HOSTILE), marks, st.text(max_size=30))


def client_text(text: str) -> ClientText:
    """Return ``text`` as if it had passed ``domain.reading``, which makes it storable."""
    return ClientText(storable(text))


def fact(
    text: str,
    area: str = "floor",
    *,
    phase: str = "subfloor",
    kind: Kind = Kind.OBSERVATION,
    day: dt.date = DAY,
    who: Party | None = None,
    hazards: Iterable[Hazard] = (),
    begins: dt.date | None = None,
    ends: dt.date | None = None,
    by: dt.date | None = None,
    held: str | None = None,
) -> ClientFact:
    """Return a fact for the client with the rest filled in."""
    waits = client_text(held) if held is not None else None
    return ClientFact(
        kind, phase, client_text(area), client_text(text), day, who, tuple(hazards), begins, ends, by, waits
    )


def facts(
    *,
    title: str = "Upstairs hall bath",
    address: str = "27 Quince Street",
    since: dt.date | None = None,
    visits: tuple[dt.date, ...] = (),
    changes: tuple[ChangeFact, ...] = (),
    terms: TermsFact | None = None,
    finish: dt.date | None = None,
    **groups: tuple[ClientFact, ...],
) -> UpdateFacts:
    """Return the facts of an update of 17 March 2026."""
    return UpdateFacts(
        client_text(title),
        client_text(address),
        DAY,
        since,
        visits,
        **groups,
        changes=changes,
        terms=terms,
        finish=finish,
    )


_days = st.dates(dt.date(2024, 1, 1), DAY)
client_facts = st.builds(
    fact,
    lines,
    lines,
    phase=st.one_of(st.sampled_from(STANDARD_PHASES), lines),
    kind=st.sampled_from(Kind),
    day=_days,
    who=st.one_of(st.none(), st.sampled_from(Party)),
    hazards=st.lists(st.sampled_from(Hazard), max_size=2),
    begins=st.one_of(st.none(), _days),
    by=st.one_of(st.none(), _days),
    held=st.one_of(st.none(), st.none(), lines),
)
_changes = st.builds(
    ChangeFact,
    st.integers(1, 99),
    lines.map(client_text),
    st.integers(-10_000_00, 10_000_00),
    st.integers(-30, 30),
    _days,
    st.sampled_from([None, True, False]),
)
_groups = st.lists(client_facts, max_size=3).map(tuple)
update_facts = st.builds(
    facts,
    title=lines,
    address=lines,
    since=st.one_of(st.none(), _days),
    visits=st.lists(_days, max_size=6).map(tuple),
    found=_groups,
    decided=_groups,
    done=_groups,
    next=_groups,
    needed=_groups,
    waiting=_groups,
    changes=st.lists(_changes, max_size=2).map(tuple),
    terms=st.one_of(st.none(), st.builds(TermsFact, st.integers(0, 10**9), st.one_of(st.none(), _days))),
    finish=st.one_of(st.none(), _days),
)


def item(text: str, area: str = "floor", **rest: object) -> PunchItem:
    """Return an open punch item first owed on 11 March 2026, with the rest filled in."""
    fields: dict[str, object] = {
        "id": "0192",
        "job_id": "j",
        "phase": "subfloor",
        "area": area,
        "text": text,
        "since": dt.date(2026, 3, 11),
        **rest,
    }
    return PunchItem(**fields)  # type: ignore[arg-type]


punch_items = st.builds(
    PunchItem,
    id=st.uuids().map(str),
    job_id=st.just("j"),
    phase=st.one_of(st.sampled_from(STANDARD_PHASES), lines),
    area=lines,
    text=lines,
    since=_days,
    who=st.one_of(st.none(), st.sampled_from(Party)),
    kind=st.sampled_from(Kind),
    hazards=st.lists(st.sampled_from(Hazard), max_size=2).map(tuple),
    visit_day=st.one_of(st.none(), _days),
    said_at=st.one_of(st.none(), st.floats(0, 20_000)),
)
punch_lists = st.lists(punch_items, max_size=5).map(lambda items: punch_list(items, STANDARD_PHASES))


def plist(*items: PunchItem) -> PunchList:
    """Return the punch list of ``items`` over the standard phases."""
    return punch_list(items, STANDARD_PHASES)
