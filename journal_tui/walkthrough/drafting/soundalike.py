"""Sound-alike keys for English words: Metaphone.

After Lawrence Philips, "Hanging on the Metaphone", Computer Language 7 (12), December 1990, pp. 39-43,
as its rules are commonly restated: vowels count only at the head of a word; C, G, S, T soften before
front vowels; silent letters drop; "0" stands for the th sound and "X" for sh.
"""

from __future__ import annotations

_VOWELS = "AEIOU"
_FRONT = "EIY"
_HEADS = {"AE": "E", "GN": "N", "KN": "N", "PN": "N", "WR": "R", "WH": "W", "X": "S"}


def metaphone(word: str) -> str:
    """Return the Metaphone key of ``word`` (letters other than A to Z are ignored)."""
    letters = "".join(c for c in word.upper() if "A" <= c <= "Z")
    for head, sound in _HEADS.items():
        if letters.startswith(head):
            letters = sound + letters[len(head) :]
            break
    out: list[str] = []
    at = 0
    while at < len(letters):
        letter = letters[at]
        if at and letter == letters[at - 1] and letter != "C":
            at += 1
            continue
        sound, step = _sound(letters, at)
        out.append(sound)
        at += step
    return "".join(out)


def _sound(letters: str, at: int) -> tuple[str, int]:
    """Return the sound of the letter at ``at`` and how many letters it uses."""
    letter = letters[at]
    before = letters[at - 1] if at else ""
    after = letters[at + 1] if at + 1 < len(letters) else ""
    third = letters[at + 2] if at + 2 < len(letters) else ""
    last = at + 1 == len(letters)
    if letter in _VOWELS:
        return (letter if at == 0 else ""), 1
    simple = {
        "F": "F",
        "J": "J",
        "L": "L",
        "M": "M",
        "N": "N",
        "R": "R",
        "Q": "K",
        "V": "F",
        "Z": "S",
        "X": "KS",
    }
    if letter in simple:
        return simple[letter], 1
    if letter == "B":
        return ("" if last and before == "M" else "B"), 1
    if letter == "C":
        return _c(before, after, third)
    if letter == "D":
        return ("J", 2) if after == "G" and third and third in _FRONT else ("T", 1)
    if letter == "G":
        return _g(letters, at, after, third)
    if letter == "H":
        silent = (before and before in "CSPTG") or (before in _VOWELS and after not in _VOWELS) or last
        return ("" if silent else "H"), 1
    if letter == "K":
        return ("" if before == "C" else "K"), 1
    if letter == "P":
        return ("F", 2) if after == "H" else ("P", 1)
    if letter == "S":
        return _s(after, third)
    if letter == "T":
        return _t(after, third)
    # W and Y sound only before a vowel.
    return (letter if after and after in _VOWELS else ""), 1


def _c(before: str, after: str, third: str) -> tuple[str, int]:
    if after == "I" and third == "A":
        return "X", 1
    if after == "H":
        return ("K", 2) if before == "S" else ("X", 2)
    if after and after in _FRONT:
        return ("" if before == "S" else "S"), 1
    return "K", 1


def _g(letters: str, at: int, after: str, third: str) -> tuple[str, int]:
    if after == "H":
        # Silent in "night", hard in "ghost".
        return ("", 2) if (third and third not in _VOWELS) or at + 2 == len(letters) else ("K", 2)
    if after == "N" and (at + 2 == len(letters) or letters[at + 2 :] == "ED"):
        return "", 1
    if after and after in _FRONT and (at == 0 or letters[at - 1] != "G"):
        return "J", 1
    return "K", 1


def _s(after: str, third: str) -> tuple[str, int]:
    if after == "H":
        return "X", 2
    if after == "I" and third and third in "OA":
        return "X", 1
    return "S", 1


def _t(after: str, third: str) -> tuple[str, int]:
    if after == "I" and third and third in "OA":
        return "X", 1
    if after == "H":
        return "0", 2
    if after == "C" and third == "H":
        return "", 1
    return "T", 1
