"""What is to be done and what was done, told as sentences: "strap the supply", "We strapped the supply."

Only the words of ``verbs.toml`` are turned. A note that does not begin with one of them is left as it is,
so that nothing is said of it that it does not say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache

from journal_tui.documents.clauses import clauses
from journal_tui.documents.matching import any_of, one_of, plain
from journal_tui.documents.wording import DAYS, data_table
from journal_tui.domain.text import one_line

#: What may follow a verb that stands second in a note, so that "ring and seal" stays two things.
_OBJECT = (
    r"(?:the|a|an|it|them|that|this|these|those|all|each|every|both|new|old|in|out|off|up|down|back|one|two"
    r"|three|four|everybody|everyone|nobody|somebody|someone|our|your|any|some|another|more|us|you)"
    r"\b"
)


#: "Still to do after tile, hang the bar": the work is what follows.
_STILL_TO_DO = r"(?:still )?to do(?: (?:after|before|on) \w+| \w+day)?[,;:]\s+"


#: "To do after tile" names no work.
_WHEN_ONLY = re.compile(r"\s*(?:$|(?:after|before|on|by)\b|\w+day\b|[,;:])", re.IGNORECASE)


#: What work to come hangs on.
_CONDITION = re.compile(
    r",? (?:once|as soon as|until|till|unless|if|before|when)\b(?! and\b)[^,;.]*$", re.IGNORECASE
)


_HANGS = re.compile(r"\b(?:once|as soon as|until|till|unless|if|when)\b", re.IGNORECASE)
#: A second piece of work on a thing named before.
_MORE = re.compile(r",? and (?P<verb>[a-z]+) (?:it|them)\b")


@dataclass(frozen=True, slots=True)
class Deed:
    """Work named in a note: who does it ("We", "You", "The plumber"), and the note from its verb on."""

    who: str
    verb: str
    rest: str

    @property
    def simple(self) -> bool:
        """True when it is one short piece of work, which can share a sentence with others."""
        said = f"{self.verb} {self.rest}"
        return len(said.split()) <= 7 and not re.search(r"[,;:.!?()]|\b(?:and|or|so|then|if|because)\b", said)

    def to_do(self) -> str:
        """Return it as it is done: ``strap the supply``."""
        return f"{self.verb}{self.rest}"

    def done(self) -> str:
        """Return it as it was done: ``strapped the supply``."""
        past = {**data_table("verbs.toml")["past"], **data_table("verbs.toml")["follow"]}

        def turn(match: re.Match[str]) -> str:
            return f"{match.group(1)}{past[match.group(2)]}"

        # What it waited for is over.
        rest = _CONDITION.sub("", self.rest)
        rest = _rules().last.sub(turn, _rules().second.sub(turn, rest))
        unknown = _MORE.search(rest)
        # A second piece of work we have no word for is not told half in the past; that it is done is.
        if unknown and unknown.group("verb") not in {*past, *past.values()}:
            rest = rest[: unknown.start()]
        return f"{past[self.verb]}{rest}"


@dataclass(frozen=True, slots=True)
class _Rules:
    lead: re.Pattern[str]
    deed: re.Pattern[str]
    second: re.Pattern[str]
    last: re.Pattern[str]
    ended: re.Pattern[str]
    not_yet: re.Pattern[str]
    order: re.Pattern[str]
    ours: re.Pattern[str]
    result: re.Pattern[str]
    open: re.Pattern[str]


@cache
def _rules() -> _Rules:
    data = data_table("verbs.toml")
    others, done = data["others"], data["done"]
    verbs = one_of(data["past"])
    days = [day.casefold() for day in DAYS]
    plainly_now = one_of(verb for verb, past in data["past"].items() if verb != past)
    followers = one_of({**data["past"], **data["follow"]})
    who = rf"(?P<other>(?:the )?{one_of(others['names'])})|(?P<ours>{one_of(others['ours'])})"
    duty = (
        "(?:"
        + "|".join(
            re.escape(d) if d.startswith("'") else rf"\s+{re.escape(d)}"
            for d in sorted(others["duties"], key=lambda word: (-len(word), word))
        )
        + ")"
    )
    subs = rf"(?:we|i|the crew|(?:the )?{one_of(others['names'])})"
    tail = (
        r"(?=\s*(?:[.,;:!?]|$|(?:and|now|today|but|as of|at|for|in here)\b"
        rf"|(?:upstairs|downstairs)\b|on (?:(?:the )?(?:long|back|both|all)|{one_of(days)})\b))"
    )
    return _Rules(
        lead=re.compile(rf"^(?:{one_of(others['lead'])}\s+|{_STILL_TO_DO})+", re.IGNORECASE),
        deed=re.compile(
            rf"^(?:(?:(?:we|i) (?:want|need) (?=the ))?(?:{who}|(?P<you>you))"
            rf"(?P<how> with (?:the|a) \w+(?: \w+)?)?{duty}\s+|the crew\s+"
            r"|(?:still )?(?:need to|have to|got to|gotta|going to|gonna|to)\s+)?"
            rf"(?:(?:(?:come|go) )?back and |(?:go|come) (?!back\b)|please )?"
            rf"(?P<verb>{verbs})(?P<rest>\s.*|$)",
            re.IGNORECASE | re.DOTALL,
        ),
        last=re.compile(rf"(,? and )({one_of(set(data['past']) - set(others['things']))})(?=\s*(?:[,;.]|$))"),
        second=re.compile(rf"((?:,|,? and(?: then)?|, then)\s)({followers})(?=\s{_OBJECT})"),
        ended=re.compile(
            rf"(?:\b(?:is|are|was|were|has been|have been|got)|'s|'re)(?: (?:all|both|now|finally|already))*"
            rf" (?:{one_of(done['ends'])}{tail}|{one_of(done['made'])}\b)"
            rf"|\b{subs}(?:'ve| have| has)?(?: (?:already|just|also))? {one_of(done['hands'])}\b"
            rf"|\b{one_of(done['passed'])}\b"
        ),
        order=re.compile(
            # "Cut" and "set" may as well tell of what was: only behind "when" and the like they do not.
            rf"(^(?:{one_of(others['before_order'])})\b[^,;.]*,\s+(?=(?:{verbs})\b)|;\s+(?={plainly_now}\b))"
            rf"(?P<verb>{verbs})(?=\s{_OBJECT})",
            re.IGNORECASE,
        ),
        ours=re.compile(rf"^we (?:already |just |also )?{one_of(data['past'].values())}\b", re.IGNORECASE),
        result=re.compile(
            rf"\b{one_of(done['tests'])}\b[^.;]*?\b{one_of(done['results'])}\b"
            rf"|^(?:it|that|we) {one_of(done['results'])}\b"
        ),
        open=re.compile(rf"\b{one_of(done['undecided'])}\b"),
        not_yet=re.compile(rf"\b{one_of(done['not_yet'])}\b"),
    )


@lru_cache(4096)
def deed_in(text: str) -> Deed | None:
    """Return the work a note names, None when it does not begin with work we know the words for."""
    rules = _rules()
    line = rules.lead.sub("", one_line(text)).rstrip(" .")
    found = rules.deed.match(line.replace("’", "'"))
    if found is None:
        return None
    if not _is_work(found):
        return None
    other = found.group("other")
    who = "You" if found.group("you") else "We" if other is None else _named(other)
    who += found.group("how") or ""
    return Deed(who, found.group("verb").lower(), found.group("rest"))


def _is_work(found: re.Match[str]) -> bool:
    """True unless the note only begins with a word that may name a thing: "drain and vent passed"."""
    others = data_table("verbs.toml")["others"]
    if found.group("verb").lower() == "do" and _WHEN_ONLY.match(found.group("rest")):
        return False
    if found.start("verb") > 0 or found.group("verb").lower() not in others["things"]:
        return True
    following = found.group("rest").split()
    if not following or len(following) == 1:
        return True
    first = following[0].lower()
    return first in others["before"] or first.split("-")[0] in others["before"] or first[0].isdigit()


def _named(other: str) -> str:
    name = other.lower()
    return "The " + (name[4:] if name.startswith("the ") else name)


def told_to_reader(text: str) -> str:
    """Return a note with the orders inside it told as what we will do: "when we trim, set the stop"."""
    return _rules().order.sub(lambda m: f"{m.group(1)}we will {m.group('verb').lower()}", text)


def tells_what_we_did(text: str) -> bool:
    """True when a note begins with what we did: "we shut that breaker off"."""
    return _rules().ours.match(text) is not None


def tells_what_we_only_did(text: str) -> bool:
    """True when a note of a choice tells of work behind us, not of choosing: "we doubled up the joist"."""
    found = _rules().ours.match(text)
    if found is None:
        return False
    word = found.group().split()[-1].lower()
    data = data_table("verbs.toml")
    # "We set it lower" may as well be the plan.
    return word not in data["past"] and word not in data["done"]["choosing"]


def told_result(text: str) -> bool:
    """True when a note tells how an inspection or test came out, which nobody decided."""
    line = plain(text)
    rules = _rules()
    return rules.result.search(line) is not None and rules.open.search(line) is None


def tells_of_done_work(text: str) -> bool:
    """True when an observation tells of work that is finished, not of something found."""
    rules = _rules()
    line = plain(text)
    return rules.ended.search(line) is not None and rules.not_yet.search(line) is None


def names_work_to_come(text: str) -> bool:
    """True when a note has a word of what is still to be done: "it wants", "has to", "let's"."""
    return any_of(data_table("verbs.toml")["others"]["to_come"]).search(plain(text)) is not None


def tells_only_what_is_behind(text: str) -> bool:
    """True when a step on the list names no work to come: "framing passed", "the drain is in"."""
    parts = [clause.alone for clause in clauses(one_line(text))]
    if _HANGS.search(text) or not any(told_result(part) or tells_of_done_work(part) for part in parts):
        return False
    return not any(names_work_to_come(part) or deed_in(part) for part in parts)


def is_errand(deed: Deed) -> bool:
    """True when work is only to fetch, ask or look."""
    return deed.verb in data_table("verbs.toml")["others"]["errands"]
