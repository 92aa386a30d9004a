"""What words give away: codes and passwords, sums, where a key is, what is said about the client.

Every pattern is common practice, no source. Each repetition is bounded, so that a text is read in time
that grows with its length and no faster.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from functools import cache
from itertools import accumulate
from typing import NamedTuple

from journal_tui.domain.text import plain_letters


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


class Sign(NamedTuple):
    """A pattern, and strings of letters of which every text it is found in has one.

    Most texts have none, and to look for letters is a tenth of the work of looking for the pattern.
    """

    letters: tuple[str, ...]
    pattern: str


def sign(letters: str, *patterns: str) -> Sign:
    """Return the sign of a pattern written in parts, its letters apart by blanks."""
    return Sign(tuple(letters.split()), "".join(patterns))


class Texts:
    """Many texts looked through as one, which is quicker than one by one."""

    def __init__(self, texts: Sequence[str]) -> None:
        self.all = texts
        # No letters looked for hold a line end, so that none are found across two texts.
        folded = [plain_letters(text) for text in texts]
        self._whole = "\n".join(folded)
        self._begins = list(accumulate((len(text) + 1 for text in folded), initial=0))

    def with_letters(self, letters: str) -> Iterator[int]:
        """Yield the number of each text with ``letters``, in order."""
        at = self._whole.find(letters)
        while at >= 0:
            number = bisect_right(self._begins, at) - 1
            yield number
            at = self._whole.find(letters, self._begins[number + 1])


class Signs:
    """Signs of one thing, told apart by their letters before any pattern is looked for."""

    def __init__(self, *signs: Sign) -> None:
        self.all = signs
        self._with: dict[str, list[int]] = {}
        for number, one in enumerate(signs):
            for letters in one.letters:
                self._with.setdefault(letters, []).append(number)

    def likely_in(self, text: str) -> list[re.Pattern[str]]:
        """Return the patterns, in order, that ``text`` has the letters of."""
        folded = plain_letters(text)
        numbers = {
            number
            for letters in [some for some in self._with if some in folded]
            for number in self._with[letters]
        }
        return [_compiled(self.all[number].pattern) for number in sorted(numbers)]

    def likely_among(self, texts: Texts) -> dict[int, set[int]]:
        """Return which of ``texts`` have the letters of which patterns, both by number."""
        found = dict[int, set[int]]()
        for letters, signs in self._with.items():
            for number in texts.with_letters(letters):
                found.setdefault(number, set()).update(signs)
        return found

    def found_among(self, texts: Texts) -> set[int]:
        """Return which of ``texts`` one of the patterns is found in."""
        return {
            number
            for number, signs in self.likely_among(texts).items()
            if any(_compiled(self.all[sign].pattern).search(texts.all[number]) for sign in signs)
        }

    def any_in(self, text: str) -> bool:
        """True when one of the patterns is found in ``text``."""
        return any(pattern.search(text) for pattern in self.likely_in(text))


# Codes and passwords: withheld from every document ------------------------------------------------

_CODE_WORD = (
    r"(?:lock\s?box(?:es)?|key\s?pads?|pass\s?(?:code|word)s?|pin (?:number|code|is)|combination|combo|"
    r"alarm|security|"
    r"(?:door|gate|garage|house|entry|access|key)\s+code|code)"
)
_DOOR_CODE = r"(?:door|gate|garage|house|entry|access|key|alarm|lock\s?box|key\s?pad|opener)\s+(?:code|pin)"
_SPELLED = r"(?:zero|oh|one|two|three|four|five|six|seven|eight|nine|\w+teen|ten|eleven|twelve|\w+ty)"
_DIGITS = rf"(?:[#*]?\d(?:[\s\-.,#*]{{0,2}}\d){{2,7}}[#*]?|\b{_SPELLED}(?:[\s\-,]{{1,2}}{_SPELLED}){{1,7}}\b)"
#: A number with a unit is a size, not a code; "4471 in the back" and "4471 by the door" are no sizes.
_NO_UNIT = (
    r"(?!\d|-?\w{0,20}\s{0,3}(?:[\"'\u2032\u2033%]|(?:in(?!\s+(?:the|back|front|case|a|my|her|his|there)\b)|"
    rf"inch(?:es)?|ft|f(?:oo|ee)t|by(?=\s+(?:\d|{_SPELLED}\b))|x|sq|square|amps?|volts?|psi|gauge|degrees?|"
    r"pounds?|lbs?|gallons?|gpm|cfm|minutes?|hours?|days?|cents?|dollars?|bucks)\b))"
)
#: What may follow "password" without being one.
_NO_PASSWORD = (
    r"(?:is|was|are|on|in|under|behind|at|by|of|or|and|but|so|for|from|to|the|a|an|that|this|with|works?|"
    r"needs?|needed|has|had|have|will|would|can|may|changed?|reset|protected|please|later|still|not|never|"
    r"wrong|missing|written|lock|list|manager|we|you|he|she|they|it|i|when|if|before|after|again|yet|too)\b"
)
_TOKEN = r"[^\s]{1,40}"

_CODE_LETTERS = "lock key pass pin comb alarm secur code"

#: The group of each is what is withheld: "lockbox is 4471", "1234 on the garage keypad".
CODES = Signs(
    sign(_CODE_LETTERS, rf"\b{_CODE_WORD}\b[^.!?\n\d]{{0,40}}?({_DIGITS}){_NO_UNIT}"),
    sign(_CODE_LETTERS, rf"({_DIGITS})[^.!?\n\d]{{0,25}}?\b{_CODE_WORD}\b"),
    # "the code for gate 2 is 4471": a door's own code may have a number on the way to it.
    sign(
        "lock code pin",
        rf"\b(?:lock\s?box|{_DOOR_CODE}|code for)\b[^.!?\n]{{0,40}}?\b(?:is|now)\s+({_DIGITS}){_NO_UNIT}",
    ),
    # Short or mixed, said to be the code: "gate code is 12B4".
    sign(
        "code pin",
        rf"\b{_DOOR_CODE}(?:['’]s|\s+is|\s+was|\s?[:=])\s{{0,3}}"
        rf"(?=[^\s\d]{{0,12}}\d)({_TOKEN})(?<![.,;!?]){_NO_UNIT}",
    ),
    # "pin 1234", "opener, 4 4 7 1"; a nail pinned 1 1/2 in off is shorter.
    sign(
        "pin opener",
        r"\b(?:pin|opener)\b(?:\s{0,2}(?:is|number|code|to|[:=#,])){0,2}\s{0,2}"
        rf"(\d(?:[ \-]?\d){{3,7}}){_NO_UNIT}",
    ),
    sign(
        "pin opener",
        rf"\b(?:pin|opener)\s+(?:(?:is|number|code)\s+){{0,2}}({_SPELLED}(?:[\s\-,]{{1,2}}{_SPELLED}){{3}})\b",
    ),
    sign("gate door alarm", rf"\b(?:gate|door|alarm)(?:['’]s|\s+is)\s+(\d{{4,8}}\b){_NO_UNIT}"),
    # A password is any word, or a few up to the next mark.
    sign(
        "pass",
        rf"\b(?:pass\s?(?:word|code|phrase|key)s?|wi-?fi\s+pass)\b(?:['’]s|\s{{0,2}}(?:is|are|was|[:=])){{0,2}}\s{{1,3}}(?!{_NO_PASSWORD})"
        rf"({_TOKEN}(?:(?<![.,;:!?])\s{{1,3}}(?!(?:and|but|so|for|on|in)\b){_TOKEN}){{0,4}})",
    ),
    sign(
        "wifi wi-fi",
        rf"\bwi-?fi\b(?:['’]s|\s{{0,2}}(?:is|key|code|login|[:=])){{0,3}}\s{{1,3}}(?=[^\s\d]{{0,30}}\d)({_TOKEN})",
    ),
)
#: "per code 2021" and "code calls for 1500" speak of the building code.
_BUILDING_CODE = r"\b(?:building|plumbing|electrical|residential|energy|fire|local|to|by|per|meets?)\s+code\b"

# Money: starts private ---------------------------------------------------------------------------

_NUMBER = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty(?:-\w+)?|hundred)"
_SUM = (
    r"(?:\d[\d,]{2,20}|"
    rf"(?:{_NUMBER}\s+){{0,4}}(?:hundred|thousand|grand)(?:\s+(?:and\s+)?{_NUMBER}){{0,4}})"
)
_NOT_A_SUM = r"(?!\s*(?:pounds?|square|f(?:ee|oo)t|inch|psi|pieces?|tiles?|days?|hours?|degrees?))"
_PRICED = r"(?:bid|quoted?|charg(?:e|ed|ing)|paid|paying|price[ds]?|costs?|worth|invoiced?|allowance|deposit)"
_COST_OF = r"(?:labou?r|materials?|electric(?:al)?|plumbing|profit|subs?|tile work)"
_SOLD_BY = r"(?:(?:square|sq\.?|linear|lineal|running|board)\s+)?(?:foot|ft|yard|yd|hour|square|sheet)"
_SOLD_AS = rf"(?:{_SOLD_BY}|box|piece|stick|bag|gallon|board|roll|bundle|tile|day)"
_TEN_UP = r"(?:ten|eleven|twelve|\w{3,7}teen|\w{2,6}ty)"

_SOLD_LETTERS = "foot ft yard yd hour square sheet"

_MONEY = Signs(
    sign(
        "$ € £ dollar buck grand",
        rf"[$€£]\s?\d|\b(?:\d[\d,.]{{0,20}}|{_NUMBER})\s?(?:dollars?|bucks|grand)\b",
    ),
    sign("mark cost margin budget", r"\b(?:mark\s?up|my cost|our cost|margin|over budget)\b"),
    # A bare sum counts beside a word of pricing: "bid it at 650", "nine thousand of labor in this".
    sign(
        "bid quote charg paid pay price cost worth invoice allowance deposit",
        rf"\b{_PRICED}\b[^.!?\d]{{0,25}}?\b{_SUM}\b{_NOT_A_SUM}",
    ),
    sign(
        "labo material electric plumbing profit sub tile",
        rf"\b{_SUM}\s+(?:of|in|for|on)\s+(?:\w+\s+){{0,2}}{_COST_OF}\b",
    ),
    # A price by the piece or measure: "14.50 a foot", "65 an hour", "twelve fifty a square foot".
    sign(
        "foot ft yard yd hour square sheet box piece stick bag gallon board roll bundle tile day each",
        rf"(?<![\d/.])[1-9]\d{{0,5}}\.\d\d\s{{1,2}}(?:(?:an?|per|the)\s+{_SOLD_AS}\b|each\b|apiece\b)",
    ),
    sign(_SOLD_LETTERS, rf"(?<![\d/.])[1-9]\d{{1,4}}\s{{1,2}}an?\s+{_SOLD_BY}\b"),
    sign(_SOLD_LETTERS, rf"\b{_TEN_UP}(?:[\s-]{_NUMBER})?\s+an?\s+{_SOLD_BY}\b"),
)

# Ways in: start private --------------------------------------------------------------------------

_PLACE = (
    r"(?:under(?:neath)?|in(?:side)?|behind|beneath|below|above|atop|on|over|by|at|with|beside|near|next\s+to|"
    r"between|taped|hanging|hidden|hid|buried|tucked)"
)
_IS_KEPT = (
    r"(?:['’]s|\s+(?:is|are|was|lives?|hangs?|sits?|stays?|goes|will\s+be|should\s+be))"
    r"(?:\s+(?:still|always|usually|now|kept|left|hidden|hid|out|back|up))?"
)
_WHOSE = r"(?:the|an?|her|his|my|our|their|your|this|that|house|front|back|side|door|garage|gate)"
_AWAY = r"(?:away|gone|out|travell?ing)"

_WAY_IN = Signs(
    sign("key", r"\b(?:spare|master|extra)\s+keys?\b|\bhide[\s-]a[\s-]keys?\b"),
    sign("key", rf"\bkeys?{_IS_KEPT}\s+{_PLACE}\b"),
    sign("key", rf"\b{_WHOSE}\s+keys?\s+(?:(?:kept|left)\s+)?{_PLACE}\b"),
    sign("key", r"\bkeys?\s+(?:under|behind|beneath|atop)\b"),
    sign(
        "key",
        r"\b(?:hid(?:e|es|den|ing)?|stash(?:es|ed)?)\s+(?:the\s+|a\s+|her\s+|his\s+|my\s+)?(?:\w{1,12}\s+)?keys?\b",
    ),
    sign(
        "key",
        rf"\b{_PLACE}\s+(?:the|a|that)\s+(?:\w{{1,15}}\s+){{1,4}}(?:is|are)\s+(?:the|a|her|his)\s+(?:\w{{1,12}}\s+)?keys?\b",
    ),
    sign(
        "empty",
        r"\b(?:house|home|place|apartment|building)(?:['’]s|\s+(?:is|will\s+be|stands|sits))\s+empty\b",
    ),
    sign("home", r"\b(?:nobody|no[\s-]?one)(?:['’]s|\s+(?:is|will\s+be|be))?\s+(?:at\s+)?home\b"),
    sign(
        "away gone out travel",
        rf"\b(?:they|she|he|clients?|owners?|family)(?:['’](?:re|s)|\s+(?:is|are|will\s+be))\s+{_AWAY}\s+"
        r"(?:till?|until|all|for|this|next|through|from|of\s+(?:town|the\s+country))\b",
    ),
    sign("vacation holiday", r"\b(?:on|off\s+on)\s+(?:vacation|holiday)\b"),
    sign(
        "locked",
        r"\b(?:door|window|gate|house|garage)s?\b[^.!?\n]{0,25}\b(?:unlocked|(?:never|not)\s+locked)\b",
    ),
    sign(
        "alarm",
        r"(?<!smoke )(?<!fire )(?<!monoxide )(?<!co )"
        r"\balarm(?:['’]s|\s+(?:is|stays))\s+(?:off|not\s+set|disarmed)\b",
    ),
    sign("pass", r"\bpass\s?(?:word|code)s?\s+(?:is|are)\s+(?:on|in|under|behind|at|written|the)\b"),
)

# About the client: starts private ----------------------------------------------------------------

_CLIENT = (
    r"(?:(?:clients?|customers?|home\s?owners?|owners?|landlady|landlord|husband|wife|lady|"
    r"mrs\.?\s+\w{1,20}|mr\.?\s+\w{1,20}))"
)
_THEM = rf"(?:her|him|(?:the\s+|our\s+){_CLIENT})"
_VERY = r"(?:such|really|very|so|kind\s+of|a\s+bit|being|just|always|pretty|too|a|an|real|total)"
_HARD = (
    r"(?:pain|nightmare|piece\s+of\s+work|handful|difficult|cheap(?:skate)?|picky|fussy|crazy|nuts|impossible|"
    r"annoying|rude|clueless|stingy|tightwad|jerk|liar|lying|unreasonable|drunk|hard\s+to\s+(?:please|deal|work)|"
    r"slow\s+to\s+pay|slow\s+paying|not\s+paying|late\s+(?:paying|on\s+(?:the|her|his)\s+bills?)|driving\s+me)"
)
_NOT_NEED = (
    r"(?:(?:does\s?n['’o]?t|do\s?n['’o]?t|does\s+not|do\s+not)\s+(?:need|have)\s+to|"
    r"need\s?n['’o]?t|need\s+not)"
)
_MUST_NOT = (
    r"(?:should\s?n['’o]?t|must\s?n['’o]?t|can['’]?t|cannot|should\s+(?:not|never)|must\s+(?:not|never))"
)

_ABOUT_CLIENT = Signs(
    sign(
        "pain nightmare piece handful difficult cheap picky fussy crazy nuts impossible annoying rude "
        "clueless stingy tightwad jerk liar lying unreasonable drunk hard slow paying late driving",
        rf"\b(?:{_CLIENT}|she|he)(?:['’]s|\s+(?:is|was|are|can\s+be|gets))\s+(?:{_VERY}\s+){{0,3}}{_HARD}\b",
    ),
    sign("keep", rf"\bkeep\s+{_THEM}\s+(?:out|away|busy|from|off|in\s+the\s+dark)\b"),
    sign(
        "behind",
        r"\bbehind\s+(?:on|with)\s+(?:(?:the|her|his|their)\s+)?(?:rent|payments?|bills?|mortgage)\b",
    ),
    sign("owe", r"\bowes?\s+(?:me|us)\s+money\b"),
    sign("divorce debt drinking", r"\b(?:her|his|their)\s+(?:divorce|debts?|drinking)\b"),
    sign("stand sick fed", rf"\b(?:can['’]?t\s+stand|sick\s+of|fed\s+up\s+with)\s+{_THEM}\b"),
)

_CONFIDENCE = Signs(
    sign(
        "between record tell mention show keep client private note",
        r"\b(?:between (?:you and me|us)|off the record|don['’]?t (?:tell|mention|show)|"
        r"do not (?:tell|mention)|keep (?:this|that|it) (?:to (?:our|your|my)sel(?:f|ves)|quiet|between)|"
        r"not for the client|private(?:ly)?(?: note)?:|note to self)\b",
    ),
    sign(
        "hear know find told learn",
        rf"\b(?:{_CLIENT}|she|he|they)\s+{_NOT_NEED}\s+(?:hear|know|find\s+out|be\s+told|learn)\b",
    ),
    sign(
        "hear know find told learn",
        rf"\b(?:{_CLIENT}|she|he|they)\s+{_MUST_NOT}\s+(?:hear|know|find\s+out|be\s+told|learn)\b",
    ),
    sign(
        "let",
        rf"\b(?:do\s?n['’o]?t|do\s+not|never|can['’]?t|cannot)\s+let\s+(?:{_THEM}|them\s+(?:see|know|hear|find))\b",
    ),
    sign(
        "knowing hearing seeing notic find",
        rf"\b(?:without|before)\s+(?:{_THEM}|them|she|he|they|the\s+{_CLIENT})\s+"
        r"(?:knowing|hearing|seeing|noticing|finding\s+out|finds?\s+out|notices?)\b",
    ),
    sign(
        "told tell say word",
        rf"\b(?:never|not)\s+(?:told|tell|say\s+anything\s+to|a\s+word\s+to)\s+(?:{_THEM}|them)\b",
    ),
    sign("say", rf"\bdo\s?n['’o]?t\s+say\s+(?:anything|a\s+word)\s+to\s+(?:{_THEM}|them)\b"),
    sign(
        "hide keep front",
        rf"\b(?:hide|keep)\s+(?:it|this|that)\s+from\s+(?:{_THEM}|them)\b|\bnot\s+in\s+front\s+of\s+{_THEM}\b",
    ),
)

REASONS = (
    (_WAY_IN, "says how to get in or when nobody is there"),
    (_CONFIDENCE, "said in confidence"),
    (_ABOUT_CLIENT, "speaks about the client"),
    (_MONEY, "holds a sum of money"),
)


def secret_spans(text: str) -> list[tuple[int, int]]:
    """Return where ``text`` gives a code or password, in order, no two overlapping."""
    codes = CODES.likely_in(text)
    if not codes:
        return []
    masked = _compiled(_BUILDING_CODE).sub(lambda m: "\x00" * len(m.group()), text)
    found = sorted(m.span(1) for code in codes for m in code.finditer(masked))
    spans: list[tuple[int, int]] = []
    for start, end in found:
        if spans and start < spans[-1][1]:
            spans[-1] = (spans[-1][0], max(end, spans[-1][1]))
        else:
            spans.append((start, end))
    return spans


def private_reason(text: str) -> str:
    """Return why ``text`` should start private, codes aside; empty when nothing in it says so."""
    return next((reason for signs, reason in REASONS if signs.any_in(text)), "")


def private_among(texts: Texts) -> set[int]:
    """Return which of ``texts`` give a code or password, or should start private for another reason."""
    found = {number for number in CODES.likely_among(texts) if secret_spans(texts.all[number])}
    return found.union(*(signs.found_among(texts) for signs, _reason in REASONS))


def may_be_in_confidence(texts: Texts) -> set[int]:
    """Return which of ``texts`` have letters without which nothing is a request for confidence."""
    return set(_CONFIDENCE.likely_among(texts))


def in_confidence(text: str) -> bool:
    """True when ``text`` says that what is told is not for the client: "between us", "off the record"."""
    return _CONFIDENCE.any_in(text)
