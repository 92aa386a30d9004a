"""A plan as its owner may print it and as it may be given away: private items stay, their words do not.

Private work takes up days like any other, so the plan keeps its place; what others read around it
(reasons, a calendar) calls it by a word that tells nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from journal_tui.domain.kinds import Audience
from journal_tui.domain.reading import for_crew, name_parts
from journal_tui.planning.explain import why_not_sooner
from journal_tui.planning.items import Hold, PlanItem
from journal_tui.planning.jobplan import JobPlan

PRIVATE_WORK = "private work"
BUSY = "Busy"
_MARK = "private · "


def without_private_words(plan: JobPlan, said: str = PRIVATE_WORK) -> JobPlan:
    """Return a plan whose private items are called ``said`` and have no area, note or material."""
    blank = _with_items(plan, lambda item: _blank(item, said) if item.private else item)
    names = [row.item.name for row in plan.rows if row.item.private]
    return replace(blank, notices=tuple(unquoted(notice, names, said) for notice in plan.notices))


def marked_private(plan: JobPlan) -> JobPlan:
    """Return a plan whose private items say before their words that they are private."""

    def marked(item: PlanItem) -> PlanItem:
        return replace(item, text=f"{_MARK}{item.text}") if item.private else item

    return _with_items(plan, marked)


def to_give_away(plan: JobPlan, client: str) -> JobPlan:
    """Return a plan to hand out: private items only take up time, the rest reads as on a crew sheet."""
    roles = dict.fromkeys(name_parts([client]), "the client")
    return _with_items(plan, lambda item: _blank(item, BUSY) if item.private else _for_crew(item, roles))


def why_told(plan: JobPlan, item_id: str) -> str:
    """Return why an item is not sooner; only a private item's own sentence has private words in it."""
    row = plan.row(item_id)
    whole = row is not None and row.item.private
    return why_not_sooner(plan if whole else without_private_words(plan), item_id)


def unquoted(sentence: str, names: Iterable[str], said: str = PRIVATE_WORK) -> str:
    """Return a sentence of the planner with each of ``names`` that it quotes called ``said``."""
    for name in sorted(names, key=len, reverse=True):
        sentence = sentence.replace(f"“{name}”", f"“{said}”")
    return sentence


def _with_items(plan: JobPlan, change: Callable[[PlanItem], PlanItem]) -> JobPlan:
    return replace(plan, rows=tuple(replace(row, item=change(row.item)) for row in plan.rows))


def _blank(item: PlanItem, said: str) -> PlanItem:
    wait = replace(item.wait, note="")
    return replace(item, text=said, area="", wait=wait, hold=_hold(item.hold, ""), materials=(), photos=())


def _for_crew(item: PlanItem, roles: Mapping[str, str]) -> PlanItem:
    def crew(text: str) -> str:
        return for_crew(text, Audience.CREW, roles) or ""

    wait = replace(item.wait, note=crew(item.wait.note))
    return replace(item, text=crew(item.text), area=crew(item.area), phase=crew(item.phase), wait=wait)


def _hold(hold: Hold | None, who: str) -> Hold | None:
    return None if hold is None else replace(hold, who=who, results=())
