"""Review of drafts without the screen: listed by number, then kept, dropped, changed or joined."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from typing import TYPE_CHECKING, TypeVar

from journal_tui.cli.command import (
    DONE,
    PROGRAM,
    Command,
    day_given,
    opened,
    takes_day,
    takes_job,
    takes_visit,
)
from journal_tui.cli.output import note, say
from journal_tui.cli.tables import columns, draft_lines, say_wrapped, width
from journal_tui.cli.visits import tell_others, visit_title
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Hazard, Kind, Party
from journal_tui.domain.text import folded, one_line
from journal_tui.domain.times import clock

if TYPE_CHECKING:
    from journal_tui.journal.opening import Journal
    from journal_tui.journal.review import Change, ReviewDraft

_KINDS = (
    {kind.spoken: kind for kind in Kind} | {kind.value: kind for kind in Kind} | {"next step": Kind.NEXT_STEP}
)
_T = TypeVar("_T")
_NOBODY = "nobody"
_YES_NO = {"yes": True, "no": False}
_FIELDS = ("kind", "phase", "area", "text", "who", "audience", "open", "hazard")
#: What a reviewer can change, for the help of every command that takes FIELD=VALUE.
FIELDS_HELP = (
    "kind (saw, chose, owed), phase, area, text, who (crew, client, inspector, supplier, nobody), audience "
    "(client, crew, private), open (yes, no) or hazard (electrical, structure, lead, asbestos, silica, mold, "
    "lifting, scald, gas, fire, fall, other; several with commas between, or none)"
)


def _review(args: argparse.Namespace) -> int:
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.review import DraftState, drafts, is_timed, visit_to_review

    with opened(args) as journal:
        job = find_job(journal, args.job)
        visit = visit_to_review(journal, job.id, day_given(args, journal), args.visit)
        timed = is_timed(journal, visit)
        listed = drafts(journal, visit.id)
        if args.said is not None:
            return _said(journal, _numbered(listed, args.said), timed)
        steps = _Steps(args, listed, job)
        done = steps.take(journal, visit.id) if steps.any else ""
        say_wrapped(job.name)
        say_wrapped(visit_title(visit))
        if done:
            say(done)
        else:
            _list(listed, timed)
        waiting = sum(d.state is DraftState.WAITING for d in drafts(journal, visit.id))
        say(f"{waiting} of {len(drafts(journal, visit.id))} drafts wait for review.")
        tell_others(args, journal, visit)
    return DONE


def _list(listed: Sequence[ReviewDraft], timed: bool) -> None:
    from journal_tui.journal.review import DraftState

    for number, draft in enumerate(listed, 1):
        mark = "" if draft.state is DraftState.WAITING else draft.state.value
        for text in draft_lines(number, draft.draft, mark, timed=timed):
            say(text)


def _said(journal: Journal, draft: ReviewDraft, timed: bool) -> int:
    from journal_tui.journal.review import said_around

    for line in said_around(journal, draft):
        mark = ">" if line.marked else " "
        speaker = f"{line.speaker}: " if line.speaker else ""
        text = one_line(f"{speaker}{line.text}")
        for row in columns([(mark, 1), (clock(line.start) if timed else "", -7), (text, width() - 12)]):
            say(row)
    say_wrapped(f"Why: {draft.draft.why}")
    return DONE


class _Steps:
    """What one call changes, all of it understood before any of it is done."""

    def __init__(self, args: argparse.Namespace, listed: Sequence[ReviewDraft], job: Job) -> None:
        self.changes = _all_changes(args.set, listed, job)
        self.joined = [_numbered(listed, text) for text in args.join]
        self.dropped = _several(listed, args.drop)
        self.kept = _several(listed, args.keep)
        self.rest: bool = args.keep_rest
        if any(draft is _first(listed) for draft in self.joined):
            raise BadInput("there is no draft before the first", "Join a later one to it.")
        both = {d.id for d in self.kept} & {d.id for d in self.dropped + self.joined}
        if both:
            number = next(n for n, d in enumerate(listed, 1) if d.id in both)
            raise BadInput(f"draft {number} is named twice", "Keep it, drop it or join it; one of them.")

    @property
    def any(self) -> bool:
        """True when there is anything to do."""
        return bool(self.changes or self.joined or self.dropped or self.kept or self.rest)

    def take(self, journal: Journal, visit_id: str) -> str:
        """Do all of it: changes, joins, drops, then what is kept; return what was done, in words."""
        from journal_tui.journal import review

        done = []
        for draft, change in self.changes:
            review.change(journal, draft.id, change)
        # The last first: a draft joined to one that is itself joined must still find it.
        for draft in sorted(self.joined, key=lambda d: d.draft.start, reverse=True):
            review.join_previous(journal, draft.id)
        for draft in self.dropped:
            review.drop(journal, draft.id)
        kept = review.keep(journal, [draft.id for draft in self.kept])
        kept += review.keep_rest(journal, visit_id) if self.rest else 0
        for word, number in (
            ("changed", len(self.changes)),
            ("joined", len(self.joined)),
            ("dropped", len(self.dropped)),
            ("kept", kept),
        ):
            if number:
                done.append(f"{number} {word}")
        return f"{', '.join(done).capitalize() or 'Nothing was left to do'}."


def _first(listed: Sequence[ReviewDraft]) -> ReviewDraft | None:
    from journal_tui.journal.review import DraftState

    return next((draft for draft in listed if draft.state is not DraftState.DROPPED), None)


def _numbered(listed: Sequence[ReviewDraft], text: str) -> ReviewDraft:
    word = text.strip()
    if not (word.isascii() and word.isdigit() and len(word) < 7 and 1 <= int(word) <= len(listed)):
        raise BadInput(
            f'there is no draft "{one_line(text)[:40]}"',
            f"They are numbered 1 to {len(listed)}. See them with: {PROGRAM} review JOB",
        )
    return listed[int(word) - 1]


def _several(listed: Sequence[ReviewDraft], lists: Sequence[str]) -> list[ReviewDraft]:
    """Return the drafts that lists such as ``1,3-5`` name, each once, in order."""
    found: dict[str, ReviewDraft] = {}
    for part in (part for text in lists for part in text.split(",")):
        first, dash, last = part.partition("-")
        low = listed.index(_numbered(listed, first))
        high = listed.index(_numbered(listed, last)) if dash else low
        if high < low:
            raise BadInput(f'"{one_line(part)[:40]}" runs backwards', "Write the lower number first.")
        found.update((d.id, d) for d in listed[low : high + 1])
    return list(found.values())


def _all_changes(
    sets: Sequence[Sequence[str]], listed: Sequence[ReviewDraft], job: Job
) -> list[tuple[ReviewDraft, Change]]:
    return [(_numbered(listed, number), change_typed(assignment, job)) for number, assignment in sets]


def change_typed(assignment: str, job: Job) -> Change:
    """Return what ``field=value`` changes of a draft or entry. Raises ``BadInput``."""
    from journal_tui.journal.jobs import phase_named
    from journal_tui.journal.review import Change

    field, sign, value = assignment.partition("=")
    field, word = folded(field), folded(value)
    if not sign or field not in _FIELDS:
        raise BadInput(
            f'"{one_line(assignment)[:40]}" changes nothing',
            f"Write field=value; the fields are {', '.join(_FIELDS)}.",
        )
    if field == "text" and not word:
        raise BadInput("an empty text", "Say what the entry should read, or drop the draft.")
    if field in ("area", "text"):
        return Change(area=value) if field == "area" else Change(text=value)
    if field == "phase":
        return Change(phase=phase_named(job, value))
    if field == "kind":
        return Change(kind=_one_of("kind", word, _KINDS))
    if field == "open":
        return Change(open=_one_of("open", word, _YES_NO))
    if field == "audience":
        return Change(audience=_one_of("audience", word, {a.value: a for a in Audience}))
    if field == "hazard":
        return Change(hazards=_hazards(word))
    if word == _NOBODY:
        return Change(nobody=True)
    return Change(who=party_named(value, also=(_NOBODY,)))


def _hazards(text: str) -> tuple[Hazard, ...]:
    choices: dict[str, Hazard | None] = {hazard.value: hazard for hazard in Hazard} | {"none": None}
    named = [_one_of("hazard", word.strip(), choices) for word in text.split(",")]
    return tuple(dict.fromkeys(hazard for hazard in named if hazard is not None))


def party_named(text: str, *, also: Sequence[str] = ()) -> Party:
    """Return whose move ``text`` says it is, a hired trade being crew. Raises ``BadInput``.

    ``also`` names what else may be said in its place, for the message.
    """
    from journal_tui.journal.review import hired_trade

    parties = {party.value: party for party in Party}
    word = folded(text)
    if word not in parties and hired_trade(text):
        note(f"{one_line(text)}: hired trades count as the crew, so it is the crew's move")
        return Party.CREW
    return _one_of("who", word, parties, also)


def _one_of(field: str, word: str, choices: dict[str, _T], also: Sequence[str] = ()) -> _T:
    if word not in choices:
        listed: dict[_T, str] = {}
        for name, choice in choices.items():  # of two spellings of one choice, the first
            listed.setdefault(choice, name)
        names = ", ".join([*listed.values(), *also])
        raise BadInput(f'{field} cannot be "{one_line(word)[:40]}"', f"It is one of {names}.")
    return choices[word]


def _arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_day(parser, "the visit of that day (else the newest with drafts that wait)")
    takes_visit(parser)
    parser.add_argument(
        "--said", metavar="N", help="print what was said around draft N, and why it is a draft"
    )
    parser.add_argument(
        "--keep", metavar="LIST", action="append", default=[], help="keep drafts by number, such as 1,3-5"
    )
    parser.add_argument("--keep-rest", action="store_true", help="keep every draft that still waits")
    parser.add_argument(
        "--drop", metavar="LIST", action="append", default=[], help="set drafts aside by number, such as 2,7"
    )
    parser.add_argument(
        "--set",
        metavar=("N", "FIELD=VALUE"),
        nargs=2,
        action="append",
        default=[],
        help=f"change draft N: {FIELDS_HELP}",
    )
    parser.add_argument(
        "--join", metavar="N", action="append", default=[], help="join draft N to the one before it"
    )


COMMANDS = (
    Command(
        "review",
        "List a visit's drafts; keep, drop, change and join them.",
        _review,
        'review elm\nreview elm --set 3 kind=owed --set 4 "area=tub wall" --drop 2,7 --keep-rest',
        _arguments,
        "Every list option can be given more than once. Numbers are those of the list as it was\n"
        f"printed; changes are made first, then joins, drops and keeps. Take one back: {PROGRAM} undo JOB",
    ),
)
