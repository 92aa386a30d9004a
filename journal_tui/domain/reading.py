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
from journal_tui.domain.text import storable

ClientText = NewType("ClientText", str)
CrewText = NewType("CrewText", str)

WITHHELD = "[withheld]"

#: A code that opens something, the number standing near the word: "lockbox is 4471",
#: "1234 on the garage keypad", "alarm code eight eight two one". The words are common practice, no source.
_CODE_WORD = (
    r"(?:lock\s?box(?:es)?|key\s?pads?|pass\s?(?:code|word)s?|pin (?:number|code|is)|combination|combo|"
    r"alarm|security|"
    r"(?:door|gate|garage|house|entry|access|key)\s+code|code)"
)
_SPELLED = r"(?:zero|oh|one|two|three|four|five|six|seven|eight|nine|\w+teen|ten|eleven|twelve|\w+ty)"
_DIGITS = rf"(?:[#*]?\d(?:[\s\-.,]{{0,2}}\d){{2,7}}[#*]?|\b{_SPELLED}(?:[\s\-,]{{1,2}}{_SPELLED}){{1,7}}\b)"
#: A number with a unit is a size, not a code.
_NO_UNIT = (
    r"(?!\d|-?\w*\s*(?:[\"'\u2032\u2033%]|(?:in|inch(?:es)?|ft|f(?:oo|ee)t|by|x|sq|square|amps?|volts?|psi|"
    r"gauge|degrees?|pounds?|lbs?|gallons?|gpm|cfm|minutes?|hours?|days?|cents?|dollars?|bucks)\b))"
)
_CODE_AFTER = re.compile(rf"\b{_CODE_WORD}\b[^.!?\n\d]{{0,40}}?({_DIGITS}){_NO_UNIT}", re.IGNORECASE)
_CODE_BEFORE = re.compile(rf"({_DIGITS})[^.!?\n\d]{{0,25}}?\b{_CODE_WORD}\b", re.IGNORECASE)
#: "per code 2021" and "code calls for 1500" speak of the building code.
_BUILDING_CODE = re.compile(
    r"\b(?:building|plumbing|electrical|residential|energy|fire|local|to|by|per|meets?)\s+code\b",
    re.IGNORECASE,
)
_NUMBER = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty(?:-\w+)?|hundred)"
_SUM = (
    rf"(?:\d[\d,]{{2,}}|(?:{_NUMBER}\s+){{0,4}}(?:hundred|thousand|grand)(?:\s+(?:and\s+)?{_NUMBER}){{0,4}})"
)
_NOT_A_SUM = r"(?!\s*(?:pounds?|square|f(?:ee|oo)t|inch|psi|pieces?|tiles?|days?|hours?|degrees?))"
_PRICED = r"(?:bid|quoted?|charg(?:e|ed|ing)|paid|paying|price[ds]?|costs?|worth|invoiced?|allowance|deposit)"
_COST_OF = r"(?:labou?r|materials?|electric(?:al)?|plumbing|profit|subs?|tile work)"
_MONEY = re.compile(
    rf"[$€£]\s?\d|\b(?:\d[\d,.]*|{_NUMBER})\s?(?:dollars?|bucks|grand)\b|"
    r"\b(?:mark\s?up|my cost|our cost|margin|over budget)\b|"
    # A bare sum counts beside a word of pricing: "bid it at 650", "nine thousand of labor in this".
    rf"\b{_PRICED}\b[^.!?\d]{{0,25}}?\b{_SUM}\b{_NOT_A_SUM}|"
    rf"\b{_SUM}\s+(?:of|in|for|on)\s+(?:\w+\s+){{0,2}}{_COST_OF}\b",
    re.IGNORECASE,
)
_CONFIDENCE = re.compile(
    r"\b(?:between (?:you and me|us)|off the record|don'?t (?:tell|mention|show)|do not (?:tell|mention)|"
    r"keep (?:this|that|it) (?:to (?:our|your|my)sel(?:f|ves)|quiet|between)|not for the client|"
    r"private(?:ly)?(?: note)?:|note to self)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class AudienceGuess:
    """Who a new entry should be readable by, and the reason when it is not everyone."""

    audience: Audience
    reason: str = ""


def first_audience(text: str) -> AudienceGuess:
    """Return who may read a freshly spoken or typed entry until its owner says otherwise.

    Codes, sums of money and things said in confidence start private; all else the client may read.
    """
    if has_code(text):
        return AudienceGuess(Audience.PRIVATE, "holds a door, gate or alarm code")
    if in_confidence(text):
        return AudienceGuess(Audience.PRIVATE, "said in confidence")
    if _MONEY.search(text):
        return AudienceGuess(Audience.PRIVATE, "holds a sum of money")
    return AudienceGuess(Audience.CLIENT)


def in_confidence(text: str) -> bool:
    """True when ``text`` says that what is told is not for the client: "between us", "off the record"."""
    return _CONFIDENCE.search(text) is not None


def has_code(text: str) -> bool:
    """True when ``text`` seems to give a code that opens or disarms something."""
    return _hide_codes(text) != text


def _hide_codes(text: str) -> str:
    masked = _BUILDING_CODE.sub(lambda m: "\x00" * len(m.group()), text)
    spans = [m.span(1) for rx in (_CODE_AFTER, _CODE_BEFORE) for m in rx.finditer(masked)]
    for start, end in sorted(spans, reverse=True):
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


def _without_names(text: str, roles: Mapping[str, str]) -> str:
    if not roles:
        return text
    told = {name: role for name, role in roles.items() if name.strip() and role != SOMEONE}
    folded_roles = {name.casefold(): role for name, role in told.items()}

    def role_of(match: re.Match[str]) -> str:
        title, known, other = match.groups()
        if known:
            return told.get(known) or folded_roles[known.casefold()]
        if roles.get(other) == SOMEONE or (title and title[0].isupper() and other not in told):
            return SOMEONE
        return match.group()

    return _names_pattern(frozenset(told)).sub(role_of, text)


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
    return CrewText(_without_names(_hide_codes(storable(text)), roles))


def client_heading(text: str) -> ClientText:
    """Return a job's own name or address line for the head of a client document, codes withheld."""
    return ClientText(_hide_codes(storable(text)))


def name_parts(names: Iterable[str]) -> list[str]:
    """Return each full name and each of its words of three letters or more that begins a name."""
    parts: list[str] = []
    for name in names:
        whole = " ".join(name.split())
        if whole:
            parts.append(whole)
            parts.extend(w for w in re.findall(r"[^\W\d_]{3,}", whole) if w[0].isupper() and w != whole)
    return parts
