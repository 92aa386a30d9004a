"""Measures drawn: a line of the list, and a page of what a form works out to."""

from __future__ import annotations

from textual.content import Content

from journal_tui.domain.text import one_line
from journal_tui.journal.job_measures import Material, SavedMeasure, Worked
from journal_tui.screens.lines import Piece, fit, literal, pieces, spread
from journal_tui.screens.wrapping import hanging

#: How each verdict looks; the word itself says it.
_STYLES = {"passes": "bold $chose", "short": "bold $care", "cannot tell": "bold $owed", "counted": "$soft"}
_NARROW = 60
#: Beginnings of lines that are set back from the rest.
_BESIDE = ("note: ", "rule: ")


def verdict_style(verdict: str) -> str:
    """Return the style of a verdict."""
    return _STYLES.get(verdict, "$owed")


def measure_line(measure: SavedMeasure, verdict: str | None, width: int) -> Content:
    """Return the line of a measure: form, name, who and when, and its verdict."""
    when = f"{measure.measured_on.isoformat()} {measure.measured_by}".strip()
    right: list[Piece] = [] if width < _NARROW else [(f"  {fit(when, 22)}", "$soft")]
    said = "…" if verdict is None else verdict
    wide = 14 if width < _NARROW else 26
    right.append((f"  {fit(said, wide)}", verdict_style(said)))
    return spread([(fit(measure.form, 10), "$soft"), (one_line(measure.name), "bold $ink")], right, width)


def material_line(material: Material, where: str, width: int) -> Content:
    """Return the line of a material: quantity, name, and where it is."""
    style = {"to buy": "$owed", "on site": "$chose"}.get(where, "$care")
    left: list[Piece] = [(f"{material.quantity}  ", "$ink"), (material.need.name, "bold $ink")]
    return spread(left, [(where, style)], width)


def answer_lines(worked: Worked, width: int) -> list[Content]:
    """Return the page of a form's answer: verdict, drawing, then the reasons, wrapped to ``width``."""
    if worked.error is not None:
        lines = hanging("", one_line(worked.error.title), width) + hanging(
            "", one_line(worked.error.body), width
        )
        return [pieces((line, "$owed" if n == 0 else "$soft")) for n, line in enumerate(lines)]
    answer = worked.answer
    if answer is None:
        return []
    out = [pieces((worked.verdict, verdict_style(worked.verdict)))]
    if answer.draws:
        drawn = answer.draws(max(20, width)).splitlines()
        out += [pieces((literal(line), "$ink")) for line in ["", *drawn, ""]]
    for check in answer.checks:
        out += [pieces(("", "")), *_check_lines(check.lines(), check.verdict.value, width)]
    for text in answer.lines:
        out += [pieces((line, "$ink")) for line in _wrapped(text, width)]
    return out


def _check_lines(lines: list[str], verdict: str, width: int) -> list[Content]:
    head, *rest = lines
    out = [pieces((line, verdict_style(verdict))) for line in hanging("", one_line(head), width)]
    for text in rest:
        style = "$soft" if text.startswith((*_BESIDE, "  ")) else "$ink"
        out += [pieces((line, style)) for line in _wrapped(text, width)]
    return out


def _wrapped(text: str, width: int) -> list[str]:
    inset = " " * (len(text) - len(text.lstrip()))
    first, *rest = hanging(inset, text.strip(), width - 2)
    return [first, *(f"  {line}" for line in rest)]
