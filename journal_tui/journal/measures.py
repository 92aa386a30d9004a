"""Checks and take-offs from what was typed: the one door to measures for screens and command line."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from pathlib import Path

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line
from journal_tui.journal import measure_checks, measure_layouts, measure_lists
from journal_tui.journal.measure_forms import Answer as Answer
from journal_tui.journal.measure_forms import Form, choice
from journal_tui.journal.paths import expanded
from journal_tui.measures.materials import Material, Standing, as_lines, where

#: Every form there is, in the order they are offered.
FORMS: tuple[Form, ...] = (*measure_checks.FORMS, *measure_layouts.FORMS, *measure_lists.FORMS)


def form_named(name: str) -> Form:
    """Return a form by name. Raises `BadInput` listing them."""
    found = next((form for form in FORMS if form.name == name), None)
    if found is None:
        raise BadInput(
            f'there is no check "{one_line(name)[:40]}"', f"There are: {', '.join(f.name for f in FORMS)}."
        )
    return found


def work_out(name: str, values: Mapping[str, str]) -> Answer:
    """Return what the form ``name`` works out to with ``values``; a field left empty takes its default.

    Raises `BadInput` naming the field that cannot be read and what it accepts.
    """
    form = form_named(name)
    typed = {ask.name: values.get(ask.name, "").strip() or ask.default for ask in form.asks}
    return form.answer(typed)


def save_drawing(answer: Answer, path: str) -> Path:
    """Write the answer's SVG drawing to a new file and return where it is.

    Raises `BadInput` where there is no drawing, something stands there already, or it cannot be written.
    """
    where = expanded(Path(path))
    shown = one_line(str(where))
    if not answer.svg:
        raise BadInput("there is no drawing of this", "Only tile layouts are drawn.")
    try:
        with where.open("x", encoding="utf-8") as file:
            file.write(answer.svg + "\n")
    except FileExistsError:
        raise BadInput(f"{shown} is there already", "Name a new file for the drawing.") from None
    except OSError as error:
        raise BadInput(f"cannot write {shown} ({error.strerror})", "Name another file or folder.") from None
    return where


def material_lines(materials: Iterable[Material]) -> list[str]:
    """Return a materials list as lines of text, a heading for each phase."""
    return as_lines(materials)


def where_it_is(material: Material) -> str:
    """Return where a material is, in words."""
    return where(material)


def standing_named(text: str) -> Standing:
    """Return the standing that ``text`` names, whole or by its beginning."""
    return Standing(choice({"where it is": text}, "where it is", tuple(s.value for s in Standing)))


def day_due(text: str, today: dt.date) -> dt.date:
    """Return the day a delivery is due: a date, or a weekday to come. Raises ``BadInput``."""
    from journal_tui.planning.dates import date_ahead

    return date_ahead(text, today)
