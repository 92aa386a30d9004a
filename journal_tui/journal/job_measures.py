"""The measures kept with a job, as they were typed, and the materials list that follows from them."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace

from journal_tui.domain.errors import BadInput, JournalError, NothingFound
from journal_tui.domain.text import folded, one_line
from journal_tui.journal.jobs import get_job
from journal_tui.journal.measure_forms import Answer, Ask
from journal_tui.journal.measure_lists import needs_of
from journal_tui.journal.measures import form_named, work_out
from journal_tui.journal.opening import Journal
from journal_tui.journal.typed import measured
from journal_tui.measures.materials import Load as Load
from journal_tui.measures.materials import Material as Material
from journal_tui.measures.materials import Standing as Standing
from journal_tui.measures.materials import load_for, materials_list, where
from journal_tui.measures.quantities import Need
from journal_tui.store import measure_queries
from journal_tui.store.store import Row


@dataclass(frozen=True, slots=True)
class SavedMeasure:
    """Measures of one thing: which form, what it is called, every field as typed, who measured and when."""

    id: str
    job_id: str
    form: str
    name: str
    values: dict[str, str]
    measured_by: str
    measured_on: dt.date


@dataclass(frozen=True, slots=True)
class Worked:
    """A measure worked out: its answer, or what is missing or wrong in it."""

    measure: SavedMeasure
    answer: Answer | None
    error: JournalError | None = None

    @property
    def verdict(self) -> str:
        """The verdict in words: of a check, of a count, or that it cannot be worked out yet."""
        if self.error is not None:
            return f"not yet: {self.error.title}"
        verdict = self.answer.verdict if self.answer else None
        return verdict.value if verdict else "counted"


def _measure(row: Row) -> SavedMeasure:
    return SavedMeasure(
        row["id"],
        row["job_id"],
        row["form"],
        row["name"],
        json.loads(row["typed"]),
        row["measured_by"],
        dt.date.fromisoformat(row["measured_on"]),
    )


def measures_of(journal: Journal, job_id: str) -> list[SavedMeasure]:
    """Return a job's measures by form and name."""
    return [_measure(row) for row in measure_queries.measures(journal.store, job_id)]


def get_measure(journal: Journal, measure_id: str) -> SavedMeasure:
    """Return one measure. Raises ``NothingFound``."""
    row = measure_queries.measure(journal.store, measure_id)
    if row is None:
        raise NothingFound("no such measure", "It may have been taken out by undo.")
    return _measure(row)


def find_measure(journal: Journal, job_id: str, words: str) -> SavedMeasure:
    """Return the one measure that ``words`` names: its whole name, or words of its name or form.

    Raises ``NothingFound`` when none fits and ``BadInput`` when several do.
    """
    all_of_them = measures_of(journal, job_id)
    wanted = folded(words)
    for found in (
        [m for m in all_of_them if folded(m.name) == wanted],
        [m for m in all_of_them if wanted and all(w in folded(f"{m.name} {m.form}") for w in wanted.split())],
    ):
        if len(found) == 1:
            return found[0]
        if found:
            names = "; ".join(f"{one_line(m.name)} ({m.form})" for m in found[:5])
            raise BadInput(f'"{one_line(words)}" fits {len(found)} measures', f"Say more: {names}.")
    names = "; ".join(one_line(m.name) for m in all_of_them[:8])
    raise NothingFound(
        f'no measure is called "{one_line(words)}"', f"There are: {names}." if names else "None is kept yet."
    )


def keep_measure(
    journal: Journal,
    job_id: str,
    form: str,
    name: str,
    values: Mapping[str, str],
    *,
    by: str | None = None,
    day: dt.date | None = None,
    measure_id: str | None = None,
) -> SavedMeasure:
    """Save measures as typed, in place of ``measure_id`` or of those of the same form and name; return them.

    What is not finished is kept too. Who measured stays as it was unless ``by`` says; the day, while no
    number has changed. Raises ``BadInput`` for a form or field that is not there.
    """
    get_job(journal, job_id)
    asks = {ask.name for ask in form_named(form).asks}
    if strange := sorted(set(values) - asks):
        raise BadInput(f"{form} has no {one_line(strange[0])}", f"It has: {', '.join(sorted(asks))}.")
    title = " ".join(measured(name, "the name").split()) or form
    typed = {key: measured(text, key).strip() for key, text in values.items() if text.strip()}
    before = _before(journal, job_id, form, title, measure_id)
    unchanged = before is not None and before.values == typed
    when = day or (before.measured_on if before and unchanged else journal.today())
    who = (before.measured_by if before else "") if by is None else measured(by, "who measured").strip()
    fields = {
        "form": form,
        "name": title,
        "typed": json.dumps(typed, ensure_ascii=False),
        "measured_by": who,
        "measured_on": when.isoformat(),
    }
    with journal.store.write(f"measure {title}", job_id) as w:
        if before is None:
            kept = w.insert("measures", {"job_id": job_id, **fields})
        else:
            kept = before.id
            w.change("measures", kept, **fields)
    return get_measure(journal, kept)


def _before(
    journal: Journal, job_id: str, form: str, title: str, measure_id: str | None
) -> SavedMeasure | None:
    """Return the measure that is about to be replaced. Raises ``BadInput`` for a name already taken."""
    same = [m for m in measures_of(journal, job_id) if (m.form, folded(m.name)) == (form, folded(title))]
    if measure_id is None:
        return same[0] if same else None
    if any(m.id != measure_id for m in same):
        raise BadInput(f'there is already a {form} called "{title}"', "Give this one another name.")
    return get_measure(journal, measure_id)


def drop_measure(journal: Journal, measure_id: str) -> SavedMeasure:
    """Take a measure out of its job; undo brings it back. Returns what it was."""
    measure = get_measure(journal, measure_id)
    with journal.store.write(f"take out the measure {measure.name}", measure.job_id) as w:
        w.remove("measures", measure.id)
    return measure


#: The rooms measured in a job, by name: what their forms hold.
Rooms = Mapping[str, Mapping[str, str]]
_OF_A_ROOM = ("room", "size", "height", "opening")


def rooms_of(journal: Journal, job_id: str) -> Rooms:
    """Return the rooms kept with a job, so that other measures may call them by name."""
    return {folded(m.name): m.values for m in measures_of(journal, job_id) if m.form == "room"}


def with_room(values: Mapping[str, str], rooms: Rooms) -> dict[str, str]:
    """Return ``values`` with a room called by name replaced by its measures."""
    room = rooms.get(folded(values.get("room", "")))
    if room is None:
        return dict(values)
    own = {key: text for key, text in values.items() if key != "room" and text.strip()}
    return {**{key: text for key, text in room.items() if key in _OF_A_ROOM}, **own}


def worked(measure: SavedMeasure, rooms: Rooms | None = None) -> Worked:
    """Work a measure out, its room perhaps one of ``rooms``; what is missing or wrong is told, not raised."""
    values = with_room(measure.values, rooms or {}) if measure.form != "room" else measure.values
    try:
        return Worked(measure, work_out(measure.form, values))
    except JournalError as error:
        return Worked(measure, None, error)


def worked_as_typed(form: str, values: Mapping[str, str], rooms: Rooms | None = None) -> Worked:
    """Work out what stands in a form that is being filled in; nothing is saved."""
    return worked(SavedMeasure("", "", form, form, dict(values), "", dt.date.min), rooms)


@dataclass(frozen=True, slots=True)
class Filled:
    """A form as a person fills it in: what it is called, who measured, and its fields (name, hint, value)."""

    name: str
    measured_by: str
    fields: tuple[tuple[str, str, str], ...]


def form_of(journal: Journal, job_id: str, form: str, measure_id: str | None) -> Filled:
    """Return the form of a measure, or an empty one. A new form of cautions knows the job's year built."""
    kept = get_measure(journal, measure_id) if measure_id else None
    values = dict(kept.values) if kept else {}
    year = get_job(journal, job_id).year_built
    if kept is None and form == "cautions" and year:
        values["year"] = str(year)
    fields = tuple(
        (ask.name, _hint(ask), "; ".join(values.get(ask.name, "").splitlines()))
        for ask in form_named(form).asks
    )
    return Filled(kept.name if kept else "", kept.measured_by if kept else "", fields)


def _hint(ask: Ask) -> str:
    options = f" ({', '.join(ask.choices)})" if ask.choices else ""
    usual = f"{ask.default} unless you say: " if ask.default else ""
    return f"{usual}{ask.hint}{options}{'; parted by ;' if ask.many else ''}"


# Materials -------------------------------------------------------------------------------------------


def needs_by_measure(journal: Journal, job_id: str) -> list[tuple[SavedMeasure, Need]]:
    """Return what each of a job's take-offs calls for, with the measure it comes from.

    A take-off that cannot be worked out yet calls for nothing.
    """
    found: list[tuple[SavedMeasure, Need]] = []
    rooms = rooms_of(journal, job_id)
    for measure in measures_of(journal, job_id):
        if measure.form == "take-off":
            with suppress(JournalError):
                found += [(measure, need) for need in needs_of(with_room(measure.values, rooms))]
    return found


def materials_of(journal: Journal, job_id: str, needs: Iterable[Need] | None = None) -> tuple[Material, ...]:
    """Return what a job's take-offs come to, each product of a phase once, and where each is.

    A take-off that cannot be worked out yet adds nothing. ``needs`` are theirs, when known already.
    """
    if needs is None:
        needs = [need for _measure, need in needs_by_measure(journal, job_id)]
    said = {
        (row["phase"], row["name"]): row for row in measure_queries.material_standings(journal.store, job_id)
    }
    return tuple(_placed(material, said) for material in materials_list(needs))


def _placed(material: Material, said: Mapping[tuple[str, str], Row]) -> Material:
    row = said.get((material.need.phase, material.need.name))
    if row is None:
        return material
    due = dt.date.fromisoformat(row["due"]) if row["due"] else None
    return replace(material, standing=Standing(row["standing"]), due=due)


def find_material(journal: Journal, job_id: str, words: str) -> Material:
    """Return the one material that ``words`` names, whole or in part, phase included."""
    return find_among(materials_of(journal, job_id), words)


def find_among(listed: Sequence[Material], words: str) -> Material:
    """Return the one of ``listed`` that ``words`` names, whole or in part, phase included.

    Raises ``NothingFound`` when none fits and ``BadInput`` when several do.
    """
    wanted = folded(words)
    for found in (
        [m for m in listed if folded(m.need.name) == wanted],
        [
            m
            for m in listed
            if wanted and all(w in folded(f"{m.need.name} {m.need.phase}") for w in wanted.split())
        ],
    ):
        if len(found) == 1:
            return found[0]
        if found:
            names = "; ".join(f"{one_line(m.need.name)} ({m.need.phase})" for m in found[:5])
            raise BadInput(f'"{one_line(words)}" fits {len(found)} materials', f"Say more: {names}.")
    raise NothingFound(f'no material is called "{one_line(words)}"', "A kept take-off lists them.")


def set_material(
    journal: Journal, job_id: str, material: Material, standing: Standing, due: dt.date | None = None
) -> Material:
    """Say where a material is: to buy, ordered and due on a day, or on site. Returns it so.

    Raises ``BadInput`` when ordered material has no day or other material has one.
    """
    need, now = material.need, replace(material, standing=standing, due=due)
    fields = {"standing": standing.value, "due": due.isoformat() if due else None}
    rows = measure_queries.material_standings(journal.store, job_id)
    known = next((r["id"] for r in rows if (r["phase"], r["name"]) == (need.phase, need.name)), None)
    with journal.store.write(f"{need.name}: {standing.value}", job_id) as w:
        if known is None:
            w.insert(
                "material_standings", {"job_id": job_id, "name": need.name, "phase": need.phase, **fields}
            )
        else:
            w.change("material_standings", known, **fields)
    return now


def load_words(materials: Iterable[Material]) -> tuple[str, ...]:
    """Return materials in words: how many of what, and where it is."""
    return tuple(f"{m.quantity} {one_line(m.need.name)} ({where(m)})" for m in materials)


def load_on(journal: Journal, job_id: str, phases: tuple[str, ...], day: dt.date) -> Load:
    """Return what a visit on ``day`` for work of ``phases`` brings, finds there, and is held by."""
    return load_for(materials_of(journal, job_id), phases, day)
