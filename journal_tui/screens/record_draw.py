"""How the record of a house looks as its keeper works on it: its lines, and all about the one in hand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from textual.content import Content

from journal_tui.journal.record_lines import Accepted, FinishLine, RecordLines, TestedLine, WorkLine
from journal_tui.screens.lines import Piece, Row, brief, cut, fit, pieces, spread
from journal_tui.screens.ruled import NARROW, day_shown

#: The key of the line that says who accepted the job.
ACCEPTANCE = "acceptance"
_AREA = 14


def rows_of(record: RecordLines, today: dt.date) -> list[Row]:
    """Return the lines of a record: each surface with what is behind it, the finishes, the acceptance."""
    rows: list[Row] = []
    for surface, works in record.surfaces:
        rows.append(_heading(f"behind the {surface}", surface))
        for work in works:
            rows.append(Row(work.id, _work(work, today), f"{work.surface} {work.what} {work.size}"))
            rows += [Row(t.id, _test(t, today), f"{work.surface} {t.what} {t.result}") for t in work.tests]
    if record.finishes:
        rows.append(_heading("finished with", "finished"))
        rows += [Row(f.id, _finish(f), f"{f.area} {f.what} {f.description}") for f in record.finishes]
    rows.append(_heading("acceptance", "done"))
    rows.append(Row(ACCEPTANCE, _acceptance(record, today), "accepted"))
    return rows


def _heading(words: str, name: str) -> Row:
    def draw(width: int) -> Content:
        label = cut(words, width - 2) + " "
        return pieces((label, "bold $ink"), ("─" * max(0, width - Content(label).cell_length), "$tick"))

    return Row(f"heading/{name}", draw, selectable=False)


def photos_told(count: int) -> str:
    """Return how many photos there are, in words; "" for none."""
    return "" if not count else "1 photo" if count == 1 else f"{count} photos"


def _work(work: WorkLine, today: dt.date) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        size = f", {brief(work.size)}" if work.size else ""
        left: list[Piece] = [(f"  {brief(work.what)}{size}", "$ink")]
        if work.places and width >= NARROW:
            left.append((f"   {where(work)}", "$soft"))
        right: list[Piece] = []
        if work.photos and width >= NARROW:
            right.append((f"  {photos_told(work.photos)}", "$soft"))
        if work.covered:
            right.append((f"  covered {day_shown(work.covered, today)}", "$faded"))
        else:
            right.append(("  not covered", "$owed"))
        return spread(left, right, width)

    return draw


def where(work: WorkLine) -> str:
    """Return where a hidden work is, from the points it was measured from; "" when nobody measured."""
    return ", ".join(f"{length} from {brief(point)}" for point, length in work.places)


def _test(test: TestedLine, today: dt.date) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        left: list[Piece] = [
            ("    passed  " if test.passed else "    failed  ", "$chose" if test.passed else "bold $care"),
            (f"{brief(test.what)}: {brief(test.result)}", "$soft"),
        ]
        right: list[Piece] = []
        if test.photos and width >= NARROW:
            right.append((f"  {photos_told(test.photos)}", "$soft"))
        right.append((f"  {day_shown(test.day, today)}", "$faded"))
        return spread(left, right, width)

    return draw


def _far(day: dt.date) -> str:
    return f"{day.day} {day:%b} {day.year}"


def _finish(finish: FinishLine) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        area = f"  {fit(finish.area, _AREA)} " if width >= NARROW else "  "
        left: list[Piece] = [(area, "$soft"), (brief(finish.what), "$ink")]
        if finish.description:
            left.append((f", {brief(finish.description)}", "$soft"))
        right: list[Piece] = []
        if finish.warranty and width >= NARROW:
            right.append((f"  warranty to {_far(finish.warranty)}", "$soft"))
        return spread(left, right, width)

    return draw


def _acceptance(record: RecordLines, today: dt.date) -> Callable[[int], Content]:
    def draw(width: int) -> Content:
        if record.accepted:
            by = f"  accepted by {brief(record.accepted.by)}"
            day = f"  {day_shown(record.accepted.day, today)}"
            return spread([(by, "$chose")], [(day, "$faded")], width)
        right = [(f"  {record.open_items} open", "$owed")] if record.open_items else []
        return spread([("  not accepted yet", "$soft")], right, width)

    return draw


def about_work(work: WorkLine, today: dt.date) -> list[str]:
    """Return all about a hidden work, in lines of running text."""
    size = f", {work.size}" if work.size else ""
    covered = f"covered {day_shown(work.covered, today)}" if work.covered else "not covered yet"
    measured = where(work) or "not measured from anything: enter sets that"
    failed = f"{work.failed.what} failed and did not pass since" if work.failed else ""
    photos = photos_told(work.photos) or "no photo: i attaches one"
    tests = "" if work.tests else "no test: t puts one on record"
    return list(
        filter(
            None,
            (
                f"{work.what}{size}",
                f"{measured} · seen {day_shown(work.seen, today)}, {covered}",
                " · ".join(filter(None, (failed, photos, tests))),
                f"rests on: {work.entry}" if work.entry else "",
            ),
        )
    )


def about_test(test: TestedLine, today: dt.date) -> list[str]:
    """Return all about a test."""
    result = "passed" if test.passed else "failed"
    photos = photos_told(test.photos) or "no photo: i attaches one"
    facts = f"{result} {day_shown(test.day, today)} · made by {test.by} · {photos}"
    return [f"{test.what}: {test.result}", facts]


def about_finish(finish: FinishLine, today: dt.date) -> list[str]:
    """Return all about a finish."""
    facts = [
        f"lot: {finish.lot}" if finish.lot else "",
        f"put in {day_shown(finish.placed, today)}" if finish.placed else "",
        f"warranty to {_far(finish.warranty)}" if finish.warranty else "",
    ]
    words = ", ".join(filter(None, (finish.what, finish.description)))
    return list(
        filter(None, [words, " · ".join(filter(None, facts)), finish.care and f"care: {finish.care}"])
    )


def about_acceptance(accepted: Accepted | None, left_open: int, today: dt.date) -> list[str]:
    """Return all about the acceptance of the job, or what stands before it."""
    if accepted:
        said = f"{accepted.by} accepted the job on {day_shown(accepted.day, today)} ({accepted.how})."
        return [said, f"agreed: {accepted.note}"] if accepted.note else [said]
    if not left_open:
        return ["Nothing is open on the punch list. s records that the client accepted the job."]
    what = "One item is" if left_open == 1 else f"{left_open} items are"
    return [f"{what} open on the punch list: close them first, or agree on them in the note. s records it."]
