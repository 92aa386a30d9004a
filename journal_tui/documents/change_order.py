"""A change order as the client reads it: what we found, what we offer, what it costs, and the choice."""

from __future__ import annotations

from collections.abc import Iterable

from journal_tui.documents.conditions import conditions_in
from journal_tui.documents.escape import escape_inline
from journal_tui.documents.glossary import Glossary, standard_glossary
from journal_tui.documents.telling import Block, Explainer, days_line, label, number_word
from journal_tui.documents.voice import to_reader
from journal_tui.documents.wording import data_table, full_day, said, sentence, week_day
from journal_tui.domain.change_order import ChangeState, LineKind, TaxBase
from journal_tui.domain.change_page import ChangePage, PageLine
from journal_tui.domain.money import money
from journal_tui.domain.text import folded, one_line


def change_order_markdown(page: ChangePage, words: Glossary | None = None) -> str:
    """Return the page as CommonMark, ending in one line break; user text comes out literal.

    It ends in the choice: yes, or leaving things as they are and what that risks; then how to answer,
    with lines to sign on paper.
    """
    explainer = Explainer(words or standard_glossary())
    number = f"Change order {page.number}" if page.number else "Change order (draft)"
    title = one_line(page.title)
    blocks: list[Block] = [[f"# {escape_inline(f'{number}: {title}')}"], _head(page)]
    blocks += _section("found", _found(page, explainer))
    blocks += _section("offer", _paragraph(page.offer, explainer))
    blocks += _section("price", _price(page))
    blocks += _section("time", _time(page))
    blocks += _section("contract", _contract(page))
    blocks += _section("choice", _choice(page))
    blocks += _section("answer", _answer(page))
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _words(key: str, **values: str) -> str:
    sentence_: str = data_table("change_order.toml")["sentences"][key]
    return sentence_.format(**values)


def _section(key: str, blocks: list[Block]) -> list[Block]:
    heading: str = data_table("change_order.toml")["headings"][key]
    return [[f"## {heading}"], *blocks] if blocks else []


def _head(page: ChangePage) -> Block:
    where = one_line(page.address)
    job = escape_inline(page.job)
    known = folded(where) in folded(page.job)
    lines = [
        _words(
            "head",
            day=full_day(page.day),
            job=job if known or not where else f"{job}, {escape_inline(where)}",
        )
    ]
    if page.state is ChangeState.SENT:
        key = "please_by" if page.answer_by else "please"
        lines.append(_words(key, day=week_day(page.answer_by, page.day) if page.answer_by else ""))
    return lines


def _paragraph(text: str, explainer: Explainer) -> list[Block]:
    if not one_line(text):
        return []
    lines = [escape_inline(sentence(to_reader(part))) for part in text.splitlines() if part.strip()]
    return [lines, *explainer.after([text])]


def _found(page: ChangePage, explainer: Explainer) -> list[Block]:
    blocks = _paragraph(page.found, explainer)
    reasons = conditions_in(page.found)
    if reasons:
        blocks.insert(1, [f"**{said('why')}** {reasons[0].say}", *(c.say for c in reasons[1:])])
    return blocks


def _price(page: ChangePage) -> list[Block]:
    kinds: dict[str, str] = data_table("change_order.toml")["kinds"]
    blocks: list[Block] = []
    items: Block = []
    for kind in LineKind:
        lines = [line for line in page.lines if line.kind is kind]
        items += [f"- {_line(line, kinds[kind.value])}" for line in lines]
    if page.tax:
        items.append(f"- {_words(f'tax_{page.tax_base.value}')}: {money(page.tax)}")
    if items:
        blocks.append(items)
    key = "total" if page.total > 0 else "credit" if page.total < 0 else "nothing"
    blocks.append([f"**{_words(key, sum=money(abs(page.total)))}**"])
    if page.lines:
        note = [_words("how_priced")]
        if page.tax_base is not TaxBase.NOTHING and page.tax:
            note.append(_words("how_taxed"))
        blocks.append(note)
    return blocks


def _line(line: PageLine, kind: str) -> str:
    amount = f", {escape_inline(line.amount)}" if one_line(line.amount) else ""
    return f"{escape_inline(kind)}: {escape_inline(line.text)}{amount}: {money(line.cents)}"


def _time(page: ChangePage) -> list[Block]:
    lines = [days_line(page.days)]
    if page.finish and page.finish_after and page.days:
        lines.append(
            _words(
                "finish",
                before=week_day(page.finish, page.day),
                after=week_day(page.finish_after, page.day),
            )
        )
    blocks: list[Block] = [lines]
    if page.waits and page.state is ChangeState.SENT:
        count = number_word(len(page.waits))
        blocks.append([_words("waits_one" if len(page.waits) == 1 else "waits", count=count)])
        blocks.append([f"- {escape_inline(sentence(text))}" for text in page.waits])
    return blocks


def _contract(page: ChangePage) -> list[Block]:
    if page.before is None or page.after is None:
        return []
    return [
        [
            f"- {_words('before')}: {money(page.before)}",
            f"- {_words('this')}: {money(page.total)}",
            f"- **{_words('after')}: {money(page.after)}**",
        ]
    ]


def _choice(page: ChangePage) -> list[Block]:
    blocks: list[Block] = [[_words("choice")], [f"{label(_words('yes'))} {_yes(page)}"]]
    left = list(_left(page))
    return [*blocks, [f"{label(_words('no'))} {left[0]}", *left[1:]], [_words("no_blame")]]


def _yes(page: ChangePage) -> str:
    if page.total > 0:
        return _words("yes_more", sum=money(page.total))
    return _words("yes_less", sum=money(-page.total)) if page.total < 0 else _words("yes_same")


def _left(page: ChangePage) -> Iterable[str]:
    """Return what leaving it comes to: in the writer's words, else as the library has it."""
    yield _words("no_change")
    if one_line(page.left):
        yield escape_inline(sentence(to_reader(page.left)))
        return
    risks = [condition.left for condition in conditions_in(page.found)]
    yield from risks
    if not risks:
        yield _words("no_risk")


def _answer(page: ChangePage) -> list[Block]:
    if page.answer is not None:
        key = "was_yes" if page.state is ChangeState.ACCEPTED else "was_no"
        return [[_words(key), escape_inline(sentence(page.answer))]]
    if page.state is ChangeState.WITHDRAWN:
        return [[_words("withdrawn")]]
    if page.state is ChangeState.DRAFTED:
        return [[_words("draft")]]
    line = "\\_" * 24
    return [
        [_words("how")],
        [f"\\[ \\] {_words('box_yes')}"],
        [f"\\[ \\] {_words('box_no')}"],
        [f"{_words('name')} {line}"],
        [f"{_words('day')} {line}"],
    ]
