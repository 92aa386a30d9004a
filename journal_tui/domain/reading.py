"""Who may read what: the one place where text becomes fit for a client or a crew.

Documents take ``ClientText`` and ``CrewText``, which only this module makes. Nothing marked
private becomes either; a door, gate or alarm code never does, whoever the entry is marked for;
and names of people the journal knows are replaced by what they are to the reader.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import NewType

from journal_tui.domain.kinds import Audience
from journal_tui.domain.secrecy import private_reason, secret_spans
from journal_tui.domain.text import storable

ClientText = NewType("ClientText", str)
CrewText = NewType("CrewText", str)

WITHHELD = "[withheld]"


@dataclass(frozen=True, slots=True)
class AudienceGuess:
    """Who a new entry should be readable by, and the reason when it is not everyone."""

    audience: Audience
    reason: str = ""


def first_audience(text: str) -> AudienceGuess:
    """Return who may read a freshly spoken or typed entry until its owner says otherwise.

    Codes and passwords, sums of money, where a key is and when nobody is home, talk about the client
    and things said in confidence start private; all else the client may read.
    """
    reason = "holds a code or a password" if has_code(text) else private_reason(text)
    return AudienceGuess(Audience.PRIVATE, reason) if reason else AudienceGuess(Audience.CLIENT)


def has_code(text: str) -> bool:
    """True when ``text`` seems to give a code or password that opens or disarms something."""
    return bool(secret_spans(text))


def _hide_codes(text: str) -> str:
    for start, end in reversed(secret_spans(text)):
        text = text[:start] + WITHHELD + text[end:]
    return text


#: Given names that are also words of the trade or of every day; these hide only when capitalised
#: as the journal has them, so that "will" and "mark" stay where they are verbs.
_WORDS_TOO = frozenset(
    "art bill bob brook chase chip cliff dale dean don drew faith frank gene glen grace grant gray hope "
    "jack joy june mark may miles pat penny ray reed rich rob rose rusty sandy skip stone sue violet wade "
    "will wood young".split()
)


#: What is printed for a given name nobody has told the journal of.
SOMEONE = "someone"
NEIGHBOR = "the neighbor"

#: Words written with a capital that are no surname, though they stand where one would.
_NO_NAMES = frozenset(
    "monday tuesday wednesday thursday friday saturday sunday mon tue tues wed thu thur thurs fri sat sun "
    "january february march april may june july august september october november december "
    "i we you he she it they the a an this that and or but so then there here if when no not is are was has "
    "will can right just from guy lady people everyone everybody somebody someone nobody anyone family house "
    "place home unit apartment bath bathroom kitchen room hall closet door wall roof basement garage attic "
    "inspector plumber electrician framer painter tiler roofer sub crew client owner homeowner supplier "
    "engineer architect designer neighbor neighbour city county state code plan drawing label sticker "
    "need needs ask call tell order move cap cut set hang check tile paint street avenue road lane".split()
)
_SURNAME = r"[A-Z][a-z]+(?:[-'’][A-Z][a-z]+)?"
#: "Hruska next door", with what may be a title or given name before it.
_NEXT_DOOR = re.compile(
    rf"(?<!\w)(?:(?i:mr|mrs|ms|miss|dr)\.? )?(?:({_SURNAME}) )?({_SURNAME})"
    r"(?= (?:next door|across the (?:street|road|hall)))"
)
#: "the neighbor Hruska"; "so Hruska says"; "I called Hruska": who stands there is a person.
_NEIGHBOR_NAMED = re.compile(rf"(?i:(\bneighbou?rs?)),? ({_SURNAME})(?!\w)")
_SPEAKS = re.compile(rf"(?<=[a-z,;] )({_SURNAME})(?= (?:says|said|told|thinks)\b)")
_CALLED = re.compile(
    rf"\b((?i:i|we|you|he|she|they|guy|man|woman|lady|neighbou?r) called) ({_SURNAME})(?!\w)"
)
#: What is left of "Dan P. Hruska" once the given name is gone.
_LEFT_OVER = re.compile(rf"(?<!\w)({SOMEONE})(?: [A-Z]\.)? ({_SURNAME})(?!\w)")


def _without_names(text: str, roles: Mapping[str, str]) -> str:
    if not roles:
        return text
    told = {name: role for name, role in roles.items() if name.strip() and role != SOMEONE}
    strangers = len(told) < len(roles)
    if strangers:
        text = _without_neighbors(text, roles)
    folded_roles = {name.casefold(): role for name, role in told.items()}

    def role_of(match: re.Match[str]) -> str:
        title, known, other = match.groups()
        if known:
            return told.get(known) or folded_roles[known.casefold()]
        if roles.get(other) == SOMEONE or (title and title[0].isupper() and other not in told):
            return SOMEONE
        return match.group()

    text = _names_pattern(frozenset(told)).sub(role_of, text)
    if strangers:
        text = _LEFT_OVER.sub(lambda m: m.group(1) if _is_name(m.group(2)) else m.group(), text)
    return text


def _is_name(word: str) -> bool:
    return word.casefold() not in _NO_NAMES


def _without_neighbors(text: str, roles: Mapping[str, str]) -> str:
    """Return ``text`` without the names of neighbors and of people who are said to speak.

    Only words that cannot be taken for others count: the journal's own names are left for their roles.
    """

    def stranger(word: str) -> bool:
        return _is_name(word) and roles.get(word, SOMEONE) == SOMEONE

    def next_door(match: re.Match[str]) -> str:
        first, last = match.groups()
        if not stranger(last):
            return match.group()
        stays = first and roles.get(first) != SOMEONE
        begins = not text[: match.start()].rstrip(" ") or text[: match.start()].rstrip(" ")[-1] in ".!?\n"
        who = NEIGHBOR if stays or not begins else NEIGHBOR.capitalize()
        return f"{first} {who}" if stays else who

    def speaker(match: re.Match[str]) -> str:
        return SOMEONE if stranger(match.group(1)) else match.group()

    def called(match: re.Match[str]) -> str:
        return f"{match.group(1)} {SOMEONE}" if stranger(match.group(2)) else match.group()

    text = _NEXT_DOOR.sub(next_door, text)
    text = _NEIGHBOR_NAMED.sub(lambda m: m.group(1) if stranger(m.group(2)) else m.group(), text)
    return _CALLED.sub(called, _SPEAKS.sub(speaker, text))


@lru_cache(64)
def _names_pattern(known: frozenset[str]) -> re.Pattern[str]:
    """Return a pattern of a title, then one of the ``known`` names or any word with a capital.

    Known names count however they are written, except those that are words of every day.
    """
    written = [
        re.escape(name) if name.casefold() in _WORDS_TOO else f"(?i:{re.escape(name)})"
        for name in sorted(known, key=lambda name: (-len(name), name))
    ]
    names = "|".join(written) or "(?!)"
    titles = r"(?:((?i:mr|mrs|ms|miss|missus|mister|dr|doctor)\.?)\s+)?"
    return re.compile(rf"(?<!\w){titles}(?:({names})(?!\w)|([A-Z]\w+))")


def for_client(text: str, audience: Audience, roles: Mapping[str, str]) -> ClientText | None:
    """Return ``text`` as the client may read it, or None when it is not for the client.

    ``roles`` maps names the journal knows to what is printed instead ("Rui" to "the crew"); a name
    mapped to ``SOMEONE`` hides only as written, and so does any after a title ("Mr. Alder").
    """
    if audience is not Audience.CLIENT:
        return None
    return ClientText(_without_names(_hide_codes(storable(text)), roles))


def for_crew(text: str, audience: Audience, roles: Mapping[str, str]) -> CrewText | None:
    """Return ``text`` as the crew may read it, or None when it is private."""
    if audience is Audience.PRIVATE:
        return None
    shown = _without_names(_hide_codes(storable(text)), roles)
    # "Ada wants" begins a sentence, and so does "The client wants".
    return CrewText(shown[:1].upper() + shown[1:] if text[:1].isupper() else shown)


def client_heading(text: str) -> ClientText:
    """Return a job's own name or address line for the head of a client document, codes withheld."""
    return ClientText(_hide_codes(storable(text)))


#: What joins a name to the rest of a title, and stays behind alone when the name goes.
_JOINTS = re.compile(
    r"^(?:[\W_]|(?:and|of|for|at|the)\b)+|(?:[^\w)\]]|\b(?:and|of|for|at|the))+$", re.IGNORECASE
)


def crew_heading(name: str, client: str) -> CrewText:
    """Return a job's name for the head of a crew sheet: the client's name left out, codes withheld.

    "Ferris kitchen" of Ann Ferris becomes "Kitchen"; a name that is nothing but theirs, "The job".
    """
    text = _hide_codes(storable(name))
    parts = frozenset(name_parts(re.split(r"\s*(?:&|,|\band\b)\s*", client)))
    if parts:
        text = re.sub(rf"{_names_pattern(parts).pattern}(?:['’]s)?", _unnamed, text)
    title = " ".join(text.split())
    if title != " ".join(name.split()):
        title = _JOINTS.sub("", title.replace(" ,", ","))
    return CrewText(title[:1].upper() + title[1:] or "The job")


def _unnamed(match: re.Match[str]) -> str:
    return "" if match.group(2) or match.group(1) else match.group()


def name_parts(names: Iterable[str]) -> list[str]:
    """Return each full name and each of its words of three letters or more that begins a name."""
    parts: list[str] = []
    for name in names:
        whole = " ".join(name.split())
        if whole:
            parts.append(whole)
            parts.extend(w for w in re.findall(r"[^\W\d_]{3,}", whole) if w[0].isupper() and w != whole)
    return parts
