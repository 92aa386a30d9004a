"""Material lines of a change order out of the job's materials list, at the prices typed for the job.

The list counts whole packages out of the measures; the unit price is the remodeler's own. What he typed
for a material in any change order of the job is offered for it again: that is the job's price book.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from journal_tui.domain.change_order import HUNDREDTHS, ChangeLine, ChangeOrder, LineKind
from journal_tui.domain.errors import BadInput
from journal_tui.domain.made_from import FromMeasure, MadeFrom
from journal_tui.domain.money import money
from journal_tui.domain.text import one_line
from journal_tui.domain.times import short_day
from journal_tui.journal.changes import add_line, change_line, get_order
from journal_tui.journal.job_measures import Material, find_among, materials_of, needs_by_measure
from journal_tui.journal.opening import Journal
from journal_tui.store import change_queries

_Key = tuple[str, str, str, float]


@dataclass(frozen=True, slots=True)
class Offered:
    """A material that can be taken into an order: where it is from, the price typed for it before in cents
    (None: none yet), and the number of the order's line that is made from it (None: not in it).
    """

    material: Material
    made: MadeFrom
    each: int | None
    line: int | None


def offered(journal: Journal, order_id: str) -> list[Offered]:
    """Return the job's materials list as it can be taken into an order, by phase."""
    order = get_order(journal, order_id)
    prices, today = price_book(journal, order.job_id), _listed(journal, order.job_id)
    lines = {line.made_from.key: n for n, line in enumerate(order.lines, 1) if line.made_from}
    return [Offered(material, made, prices.get(made.key), lines.get(made.key)) for material, made in today]


def price_book(journal: Journal, job_id: str) -> dict[_Key, int]:
    """Return the price of one package, in cents, last typed for each material in the job's change orders."""
    prices: dict[_Key, int] = {}
    sources = change_queries.line_sources(journal.store, job_id)
    for row in change_queries.priced_lines(journal.store, job_id):
        made = sources.get(row["id"])
        if made is not None and row["each"]:
            prices[made.key] = row["each"]
    return prices


def take_material(
    journal: Journal, order_id: str, words: str, *, each: int | None = None, quantity: int | None = None
) -> ChangeOrder:
    """Take the material that ``words`` name into a draft as a line, or anew when it is in it already.

    ``each`` is the price of one package in cents, the job's own for it unless given; ``quantity`` is in
    hundredths of a package, as many as the list says unless given. Raises ``BadInput`` without a price,
    ``NothingFound`` when the list has no such material.
    """
    choices = offered(journal, order_id)
    material = find_among([choice.material for choice in choices], words)
    return take(journal, order_id, next(c for c in choices if c.material is material), each, quantity)


def take(
    journal: Journal, order_id: str, choice: Offered, each: int | None, quantity: int | None
) -> ChangeOrder:
    """Take an offered material into a draft, as ``take_material`` does."""
    price = choice.each if each is None else each
    if price is None:
        raise BadInput(
            f"{one_line(choice.made.name)} has no price in this job yet",
            f"Give the price of one {choice.made.sold_by}.",
        )
    line = ChangeLine(
        LineKind.MATERIAL,
        choice.made.name,
        choice.made.packages * HUNDREDTHS if quantity is None else quantity,
        choice.made.sold_by,
        price,
        made_from=choice.made,
    )
    if choice.line is None:
        return add_line(journal, order_id, line)
    before = get_order(journal, order_id).lines[choice.line - 1]
    # What he made of its words and whether it bears the markup stays.
    return change_line(
        journal, order_id, choice.line, replace(line, text=before.text, marked_up=before.marked_up)
    )


def _listed(journal: Journal, job_id: str) -> list[tuple[Material, MadeFrom]]:
    """Return the materials list with what each line of it is made from, measure by measure."""
    parts: dict[_Key, dict[str, FromMeasure]] = {}
    needs = needs_by_measure(journal, job_id)
    for measure, need in needs:
        of_measure = parts.setdefault((need.phase, need.name, need.unit, need.package), {})
        before = of_measure.get(measure.id)
        amount = need.amount + (before.amount if before else 0.0)
        of_measure[measure.id] = FromMeasure(measure.id, measure.name, amount)
    found = []
    for material in materials_of(journal, job_id, [need for _measure, need in needs]):
        need = material.need
        made = MadeFrom(
            need.name,
            need.phase,
            need.packages,
            need.packed,
            float(need.package),
            need.unit,
            float(need.amount),
            float(need.waste),
            need.basis,
            journal.today(),
        )
        shares = parts.get(made.key, {}).values()
        found.append((material, replace(made, parts=tuple(p for p in shares if p.amount))))
    return found


# In words ----------------------------------------------------------------------------------------


def trace_words(made: MadeFrom) -> str:
    """Return where a quantity is from: the count, the net amount with its waste, the measures, the basis."""
    waste = f" and {made.waste * 100:.3g}% waste" if made.waste else ""
    whole = not waste and made.amount == made.packages * made.package
    net = "" if whole else f" = {made.amount:.4g} {one_line(made.unit)}{waste}"
    named = "; ".join(
        f"“{one_line(part.name)}”" + (f" {part.amount:.4g} {made.unit}" if len(made.parts) > 1 else "")
        for part in made.parts
    )
    basis = f" ({one_line(made.basis)})" if made.basis else ""
    measures = f", from the take-off {named}" if named else ""
    return f"{counted(made.packages, made)}{net}{measures}{basis}"


def counted(packages: int, made: MadeFrom) -> str:
    """Return a count of packages in words, such as ``2 bags of 50 lb``."""
    from journal_tui.journal.change_lists import amount_words

    return amount_words(packages * HUNDREDTHS, made.sold_by)


def changes_since(journal: Journal, order: ChangeOrder) -> dict[int, str]:
    """Return, by number of the line, what is to be known of lines made from the materials list: that the
    list says otherwise by now, and that another quantity was taken than it said. Nothing when all agrees.
    """
    if not any(line.made_from for line in order.lines):
        return {}
    today = {made.key: made for _material, made in _listed(journal, order.job_id)}
    told = {}
    for number, line in enumerate(order.lines, 1):
        if line.made_from is not None:
            words = [*_taken_otherwise(line, line.made_from), *_changed(line.made_from, today)]
            if words:
                told[number] = "; ".join(words)
    return told


def _taken_otherwise(line: ChangeLine, made: MadeFrom) -> Iterable[str]:
    if line.quantity != made.packages * HUNDREDTHS:
        yield f"the list said {counted(made.packages, made)}, you took another quantity"


def _changed(made: MadeFrom, today: dict[_Key, MadeFrom]) -> Iterable[str]:
    since = f"since {short_day(made.day)}"
    now = today.get(made.key)
    if now is None:
        yield f"the list has changed {since}: this is on it no more"
    elif now.packages != made.packages:
        yield f"the list has changed {since}: it says {counted(now.packages, now)} now"
    elif abs(now.amount - made.amount) > 1e-6 * max(1.0, made.amount) or now.waste != made.waste:
        yield f"the measures have changed {since}; it is still {counted(now.packages, now)}"


def offered_words(choice: Offered) -> str:
    """Return a material that can be taken, in a line: how much, the price there is, and if it is in."""
    price = f"{money(choice.each)} each" if choice.each is not None else "no price yet"
    taken = f", line {choice.line} of the order" if choice.line else ""
    made = choice.made
    return f"{one_line(made.name)}: {counted(made.packages, made)}, {price}{taken}"
