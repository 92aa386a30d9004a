"""The record of a house as its owner reads it: what is behind each surface, and how it was finished."""

from __future__ import annotations

from collections.abc import Sequence

from journal_tui.documents.escape import escape_inline
from journal_tui.documents.pictures import picture_line
from journal_tui.documents.telling import Block, label, number_word
from journal_tui.documents.wording import data_table, full_day, listed, plain_day, sentence
from journal_tui.domain.house_record import Finish, HiddenTest, HiddenWork, HouseRecord
from journal_tui.domain.text import folded, one_line


def house_record_markdown(record: HouseRecord) -> str:
    """Return the record as CommonMark, ending in one line break; user text comes out literal.

    With ``closing`` it is the closing file too: finishes, care, warranties and the acceptance.
    """
    title = _words("closing_title" if record.closing else "title")
    blocks: list[Block] = [[f"# {escape_inline(f'{one_line(record.title)}: {title}')}"], _head(record)]
    blocks += _surfaces(record)
    if record.passed:
        blocks.append([f"## {_heading('passed')}"])
        blocks.append([f"- {_test(test, record)}" for test in record.passed])
    if record.closing:
        blocks += _finishes(record)
        blocks += _sign_off(record)
    blocks.append([_words("last_word")])
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _words(key: str, **values: str) -> str:
    sentence_: str = data_table("house_record.toml")["sentences"][key]
    return sentence_.format(**values)


def _heading(key: str) -> str:
    words: str = data_table("house_record.toml")["headings"][key]
    return words


def _head(record: HouseRecord) -> Block:
    where = one_line(record.address)
    day = full_day(record.day)
    if where and folded(where) not in folded(record.title):
        return [_words("head_at", day=day, address=escape_inline(where)), _words("why")]
    return [_words("head", day=day), _words("why")]


def _surfaces(record: HouseRecord) -> list[Block]:
    groups: dict[str, list[HiddenWork]] = {}
    for work in record.works:
        groups.setdefault(folded(work.surface), []).append(work)
    blocks: list[Block] = []
    for works in groups.values():
        name = one_line(works[0].surface)
        blocks.append([f"## {_words('behind', surface=escape_inline(name[:1].lower() + name[1:]))}"])
        for work in works:
            blocks += _work(work, record)
    return blocks or [[_words("nothing")]]


def _work(work: HiddenWork, record: HouseRecord) -> list[Block]:
    size = f", {one_line(work.size)}" if one_line(work.size) else ""
    lines = [label(sentence(work.what).rstrip(".") + size)]
    if work.place:
        places = [f"{place.length} from {escape_inline(place.point)}" for place in work.place]
        lines.append(_words("place", where=listed(places)))
    seen = plain_day(work.seen, record.day)
    if work.covered:
        key = "covered_at_once" if work.covered == work.seen else "covered"
        lines.append(_words(key, seen=seen, covered=plain_day(work.covered, record.day)))
    else:
        lines.append(_words("seen", seen=seen))
    blocks = [lines]
    if work.tests:
        blocks.append([f"- {_test(test, record)}" for test in work.tests])
    pictures = _pictures(f"{work.surface}: {work.what}", work.stills)
    for test in work.tests:
        pictures += _pictures(f"{work.what}, {test.what}", test.stills)
    return [*blocks, pictures] if pictures else blocks


def _pictures(words: str, stills: Sequence[str]) -> Block:
    """Return a line for each picture of a thing; of several, each says which it is."""
    count = len(stills)
    return [
        picture_line(escape_inline(words if count == 1 else f"{words}, {at} of {count}"), still)
        for at, still in enumerate(stills, 1)
    ]


def _test(test: HiddenTest, record: HouseRecord) -> str:
    result = _words("passed" if test.passed else "failed")
    read = one_line(test.result or "").rstrip(".")
    # He may have written "passed" himself.
    said = read if folded(read).startswith(folded(result)) else f"{result}, {read}" if read else result
    day = plain_day(test.day, record.day)
    return f"{escape_inline(sentence(test.what).rstrip('.'))}: {escape_inline(said)}, {day}."


def _finishes(record: HouseRecord) -> list[Block]:
    if not record.finishes:
        return []
    blocks: list[Block] = [[f"## {_heading('finishes')}"], [_words("finishes")]]
    groups: dict[str, list[Finish]] = {}
    for finish in record.finishes:
        groups.setdefault(folded(finish.area), []).append(finish)
    for group in groups.values():
        area = one_line(group[0].area)
        if area:
            blocks.append([f"### {escape_inline(area[:1].upper() + area[1:])}"])
        blocks += [_finish(finish, record) for finish in group]
    return blocks


def _finish(finish: Finish, record: HouseRecord) -> Block:
    lines = [label(sentence(finish.what).rstrip("."))]
    if one_line(finish.description):
        lines[0] += f" {escape_inline(sentence(finish.description))}"
    if one_line(finish.lot):
        lines.append(_words("lot", lot=escape_inline(finish.lot)))
    if finish.placed:
        lines.append(_words("placed", day=plain_day(finish.placed, record.day)))
    if finish.warranty:
        lines.append(
            _words("warranty", day=f"{plain_day(finish.warranty, finish.warranty)}, {finish.warranty.year}")
        )
    if one_line(finish.care):
        lines.append(_words("care", care=escape_inline(sentence(finish.care))))
    return lines


def _sign_off(record: HouseRecord) -> list[Block]:
    blocks: list[Block] = [[f"## {_heading('sign_off')}"]]
    if record.sign_off is None:
        count = number_word(record.open_items)
        key = "none_open" if not record.open_items else "one_open" if record.open_items == 1 else "open"
        line = "\\_" * 24
        return [
            *blocks,
            [_words(key, count=count[:1].upper() + count[1:])],
            [f"{_words('name')} {line}"],
            [f"{_words('date')} {line}"],
        ]
    signed = record.sign_off
    by = escape_inline(signed.by)
    lines = [_words("signed", by=by, day=full_day(signed.day), how=signed.how)]
    if one_line(signed.note):
        lines.append(_words("note", note=escape_inline(sentence(signed.note))))
    return [*blocks, lines]
