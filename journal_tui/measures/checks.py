"""What a check answers: a verdict with its margin, its rule, and what would change it."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum


class Verdict(StrEnum):
    """The three honest answers."""

    PASSES = "passes"
    SHORT = "short"
    CANNOT_TELL = "cannot tell"


class Standing(StrEnum):
    """How well a rule or a number is known to whoever entered it."""

    READ = "read in a copy of the source"
    CALCULATED = "calculated from the formula named"
    MEMORY = "from memory: check the source before relying on it"
    PRACTICE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Rule:
    """A limit or method, where it comes from, which edition, and how well it is known."""

    says: str
    source: str
    edition: str = ""
    standing: Standing = Standing.READ

    def cited(self) -> str:
        """Return the rule on one line with its source, edition and standing."""
        where = ", ".join(filter(None, (self.source, self.edition)))
        return f"{self.says} ({'; '.join(filter(None, (where, self.standing.value)))})"


@dataclass(frozen=True, slots=True)
class Fix:
    """Something that would change the answer, and the answer worked out again with it."""

    what: str
    result: str
    verdict: Verdict


@dataclass(frozen=True, slots=True)
class Check:
    """One question answered.

    ``sentence`` is the verdict in words with the margin; ``governs`` the case that decides;
    ``figures`` the numbers under stable names with their unit as suffix; ``who_can`` is whom to ask
    where the verdict is "cannot tell".
    """

    name: str
    verdict: Verdict
    sentence: str
    rule: Rule
    governs: str = ""
    margin: str = ""
    inputs: dict[str, str] = field(default_factory=dict)
    figures: dict[str, float | None] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    fixes: tuple[Fix, ...] = ()
    who_can: str = ""

    @property
    def passes(self) -> bool | None:
        """True or False where the check can tell, else None."""
        return None if self.verdict is Verdict.CANNOT_TELL else self.verdict is Verdict.PASSES

    def as_dict(self) -> dict[str, object]:
        """Return the check as plain data for JSON: the figures at the top level beside the rest."""
        return {
            "check": self.name,
            **self.figures,
            "passes": self.passes,
            "verdict": self.verdict.value,
            "says": self.sentence,
            "governs": self.governs,
            "margin": self.margin,
            "inputs": self.inputs,
            "rule": {
                "says": self.rule.says,
                "source": self.rule.source,
                "edition": self.rule.edition,
                "standing": self.rule.standing.value,
            },
            "notes": list(self.notes),
            "fixes": [{"what": f.what, "result": f.result, "verdict": f.verdict.value} for f in self.fixes],
            "who_can_tell": self.who_can,
        }

    def lines(self) -> list[str]:
        """Return the check as lines of plain text: verdict first, then why, then what would change it."""
        out = [f"{self.name}: {self.verdict.value}", self.sentence]
        if self.governs:
            out.append(f"governs: {self.governs}")
        out += [f"  {name}: {value}" for name, value in self.inputs.items()]
        out.append(f"rule: {self.rule.cited()}")
        out += [f"note: {note}" for note in self.notes]
        out += [f"fix: {fix.what}: {fix.result} ({fix.verdict.value})" for fix in self.fixes]
        if self.who_can:
            out.append(f"ask: {self.who_can}")
        return out
