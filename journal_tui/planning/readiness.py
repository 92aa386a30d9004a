"""Which open items could be worked on now, and on whom the others wait."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from journal_tui.domain.punch import PunchState
from journal_tui.planning.items import Link, PlanItem
from journal_tui.planning.network import topological_order
from journal_tui.planning.precedence import ItemOrder, must_pass_first, order_items

#: How many causes are kept for one item; holds first.
MOST_CAUSES = 6


@dataclass(frozen=True, slots=True)
class Readiness:
    """Where an open item stands.

    ``causes`` are the open items it waits for that themselves wait for nobody, holds first.
    ``waits_until`` is the instant a running wait ends when that is all it waits for.
    """

    ready: bool
    causes: tuple[str, ...] = ()
    waits_until: int | None = None


def readiness(
    items: Sequence[PlanItem],
    links: Iterable[Link],
    phases: Sequence[str],
    now: int,
    order: ItemOrder | None = None,
) -> dict[str, Readiness]:
    """Return where every open item stands at the instant ``now``.

    A closing item is never ready while an inspection or test it would cover is open, whatever
    the links say: that is looked at here again, apart from the arrows.
    """
    order = order or order_items(items, links, phases)
    by_id = {i.id: i for i in items if i.state is not PunchState.DROPPED}
    nodes = [*by_id, *order.gates]
    before: dict[str, list[tuple[str, float]]] = {n: [] for n in nodes}
    for a in order.arrows:
        before[a.after].append((a.before, a.wait_hours))
    names = {i.id: i.name for i in items} | dict(order.gates)
    causes: dict[str, list[str]] = {}
    until: dict[str, int] = {}
    for node in topological_order(nodes, order.precedences(), names):
        causes[node] = _causes(node, before[node], by_id, causes)
        until[node] = max((_wait_end(p, h, by_id, until) for p, h in before[node]), default=0)
    held = [i for i in by_id.values() if i.hold is not None and i.hold.kind.strict and not i.released]
    result: dict[str, Readiness] = {}
    for item in by_id.values():
        if item.state is PunchState.OPEN:
            why = list(causes[item.id])
            if item.closes and not why:
                why = [h.id for h in held if must_pass_first(h, item, phases)][:MOST_CAUSES]
            waiting = until[item.id] if until[item.id] > now else None
            result[item.id] = Readiness(not why and waiting is None, tuple(why), None if why else waiting)
    return result


def _causes(
    node: str,
    before: Sequence[tuple[str, float]],
    by_id: Mapping[str, PlanItem],
    causes: Mapping[str, Sequence[str]],
) -> list[str]:
    """Return the open items at the bottom of what ``node`` waits for."""
    found: dict[str, None] = {}
    for p, _ in before:
        if p in by_id and by_id[p].released:
            continue
        for root in causes[p] or ([p] if p in by_id else []):
            found[root] = None
    holds = [i for i in found if by_id[i].hold is not None]
    rest = [i for i in found if by_id[i].hold is None]
    return [*holds, *rest][:MOST_CAUSES]


def _wait_end(before: str, hours: float, by_id: Mapping[str, PlanItem], until: Mapping[str, int]) -> int:
    """Return when the wait after a done item ends (minutes since the epoch); gates pass it on."""
    item = by_id.get(before)
    if item is None:
        return until[before]
    if item.done_at is None or (item.hold is not None and item.hold.results):
        return 0  # a recorded result ends the wait it was about
    return item.done_at + -int(-hours * 60 // 1)
