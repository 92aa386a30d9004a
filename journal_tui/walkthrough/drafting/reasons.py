"""Why a draft is what it is, in a line a tradesperson can follow."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.domain.draft import OwnWord
from journal_tui.walkthrough.drafting import vocabulary
from journal_tui.walkthrough.drafting.kinds import Span
from journal_tui.walkthrough.drafting.things import Thing


def why(span: Span, phase: str, things: Sequence[Thing], learned: Sequence[OwnWord]) -> str:
    """Return what made the entry its kind, and its phase, and which of the person's own words did."""
    plain = vocabulary.data("reasons.toml")
    said = list(dict.fromkeys(text for sign in span.signs if (text := _plain(sign, plain))))
    kind = f"{span.kind.plain}: " + (", ".join(said) or "the run of the sentence")
    names = list(dict.fromkeys(thing.name for thing in things))
    own = [word for word in learned if word.phase or word.area]
    if own:
        where = "; ".join(f'your own word "{word.phrase}"' for word in own)
        return f"{kind}. {phase}: {where}"
    return f"{kind}. {phase}: " + (", ".join(names) or "from what was in hand")


def _plain(sign: str, plain: dict[str, dict[str, str]]) -> str:
    """Return a feature's name in plain words, "" for one that says nothing to a reader."""
    start, _, rest = sign.partition("+")
    where, _, name = start.partition(":")
    if where in ("w", "first", "b", "first2"):
        return f'"{name.replace("_", " ")}"'
    text = plain["signs"].get(name if where in ("s", "g") else f"{where}:{name}", "")
    if rest:
        more = plain["signs"].get(rest.partition(":")[2], "")
        return ", ".join(part for part in (text, more) if part)
    if where in ("p", "pp", "n", "nn"):
        near = plain["signs"].get(name, "")
        return f"{plain['places'][where]} {near}" if near else ""
    return text
