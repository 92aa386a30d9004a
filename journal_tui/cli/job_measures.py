"""A job's measures kept, listed and worked out again, and where its materials are."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from journal_tui.cli.command import (
    DONE,
    NOTHING,
    PROGRAM,
    Command,
    day_given,
    opened,
    takes_day,
    takes_job,
    takes_json,
)
from journal_tui.cli.output import note, put_object, say
from journal_tui.cli.tables import columns, paragraph, width
from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import one_line

if TYPE_CHECKING:
    from journal_tui.journal.job_measures import Material, Worked


def _measures(args: argparse.Namespace) -> int:
    from journal_tui.journal.job_measures import measures_of, rooms_of, worked
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        rooms = rooms_of(journal, job.id)
        found = [worked(m, rooms) for m in measures_of(journal, job.id)]
    if args.json:
        put_object([_measure_data(one) for one in found])
        return DONE if found else NOTHING
    for one in found:
        m = one.measure
        who = f"{m.measured_on.isoformat()} {m.measured_by}".strip()
        cells = [(m.form, 9), (one_line(m.name), 24), (one_line(who), 18)]
        for line in columns([*cells, (one_line(one.verdict), width() - 57)]):
            say(line)
    if not found:
        note(f"no measures are kept yet: Keep some with: {PROGRAM} measure set JOB floor joist=2x10")
    return DONE if found else NOTHING


def _measure_data(one: Worked) -> dict[str, object]:
    m = one.measure
    return {
        "form": m.form,
        "name": m.name,
        "values": m.values,
        "measured_by": m.measured_by,
        "measured_on": m.measured_on.isoformat(),
        "verdict": one.verdict,
        "answer": one.answer.data if one.answer else None,
    }


def _show(args: argparse.Namespace) -> int:
    from journal_tui.cli.measures import say_line
    from journal_tui.journal.job_measures import find_measure, rooms_of, worked
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        job = find_job(journal, args.job)
        one = worked(find_measure(journal, job.id, " ".join(args.name)), rooms_of(journal, job.id))
    if args.json:
        put_object(_measure_data(one))
        return DONE
    for key, text in one.measure.values.items():
        for line in paragraph(f"{key}: {text}"):
            say(line)
    say()
    if one.answer is None:
        say(one_line(one.verdict))
        return DONE
    for text in one.answer.text(width()):
        say_line(text)
    return DONE


def _set(args: argparse.Namespace) -> int:
    from journal_tui.journal.job_measures import find_measure, keep_measure, measures_of, rooms_of, worked
    from journal_tui.journal.jobs import find_job

    values = dict(_pair(word) for word in args.field)
    with opened(args) as journal:
        job = find_job(journal, args.job)
        name = args.name or args.form
        known = [m for m in measures_of(journal, job.id) if m.form == args.form]
        before = find_measure(journal, job.id, name).values if name in {m.name for m in known} else {}
        merged = {**before, **values}
        measure = keep_measure(
            journal, job.id, args.form, name, merged, by=args.by, day=day_given(args, journal)
        )
        verdict = worked(measure, rooms_of(journal, job.id)).verdict
        for line in paragraph(f"Kept {one_line(measure.name)} ({measure.form}): {verdict}"):
            say(line)
    return DONE


def _pair(word: str) -> tuple[str, str]:
    key, equals, text = word.partition("=")
    if not equals or not key:
        raise BadInput(f"{one_line(word)[:60]}", "Write each field as NAME=VALUE, such as joist=2x10.")
    return key, text


def _drop(args: argparse.Namespace) -> int:
    from journal_tui.journal.job_measures import drop_measure, find_measure
    from journal_tui.journal.jobs import find_job

    with opened(args) as journal:
        measure = find_measure(journal, find_job(journal, args.job).id, " ".join(args.name))
        drop_measure(journal, measure.id)
    say(f"Taken out: {one_line(measure.name)} ({measure.form}).")
    return DONE


def _materials(args: argparse.Namespace) -> int:
    from journal_tui.journal.job_measures import materials_of
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.measures import material_lines

    with opened(args) as journal:
        listed = materials_of(journal, find_job(journal, args.job).id)
    if args.json:
        put_object([_material_data(material) for material in listed])
    else:
        for line in material_lines(listed):
            say(line)
        if not listed:
            note(f"no materials yet: Keep a take-off: {PROGRAM} measure set JOB take-off size=8-0x5-0")
    return DONE if listed else NOTHING


def _material_data(material: Material) -> dict[str, object]:
    need = material.need
    return {
        "name": need.name,
        "phase": need.phase,
        "packages": need.packages,
        "quantity": material.quantity,
        "standing": material.standing.value,
        "due": material.due.isoformat() if material.due else None,
    }


def _material(args: argparse.Namespace) -> int:
    from journal_tui.journal.job_measures import find_material, set_material
    from journal_tui.journal.jobs import find_job
    from journal_tui.journal.measures import day_due, standing_named, where_it_is

    with opened(args) as journal:
        job = find_job(journal, args.job)
        material = find_material(journal, job.id, " ".join(args.material))
        due = day_due(args.due, journal.today()) if args.due is not None else None
        now = set_material(journal, job.id, material, standing_named(args.is_), due)
    for line in paragraph(f"{one_line(now.need.name)}: {now.quantity}, {where_it_is(now)}"):
        say(line)
    return DONE


def _set_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("form", metavar="FORM", help="what is measured: floor, room, way-in, ... as in check")
    parser.add_argument(
        "field", metavar="NAME=VALUE", nargs="+", help="a field of that check; several values parted by ;"
    )
    parser.add_argument("--name", metavar="NAME", help="what to call it (the form's name unless you say)")
    parser.add_argument("--by", metavar="WHO", help="who measured")
    takes_day(parser, "the day it was measured")


def _show_arguments(parser: argparse.ArgumentParser) -> None:
    _named_arguments(parser)
    takes_json(parser)


def _named_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("name", metavar="NAME", nargs="+", help="the measure: its name, or words of it")


def _list_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    takes_json(parser)


def _material_arguments(parser: argparse.ArgumentParser) -> None:
    takes_job(parser)
    parser.add_argument("material", metavar="MATERIAL", nargs="+", help="its name, or words of it")
    parser.add_argument(
        "--is", dest="is_", metavar="WHERE", required=True, help="to buy, ordered (with --due), or on site"
    )
    parser.add_argument("--due", metavar="DAY", help="the day it is due: it holds the work until then")


COMMANDS = (
    Command(
        "measures",
        "List a job's measures, each with its verdict.",
        _measures,
        "measures elm",
        _list_arguments,
    ),
    Command(
        "measure show",
        "Work one of a job's measures out again.",
        _show,
        "measure show elm bath floor",
        _show_arguments,
    ),
    Command(
        "measure set",
        "Keep measures with a job, as you type them.",
        _set,
        "measure set elm floor joist=2x10 species=SPF grade=2 span=12-3 --name 'bath floor' --by Rui",
        _set_arguments,
        "Fields not named keep what they had; the names are those of the check's options.",
    ),
    Command(
        "measure drop",
        "Take a measure out of a job; undo brings it back.",
        _drop,
        "measure drop elm bath floor",
        _named_arguments,
    ),
    Command(
        "materials",
        "List what a job's take-offs come to, and where it is.",
        _materials,
        "materials elm",
        _list_arguments,
    ),
    Command(
        "material",
        "Say where a material is: to buy, ordered, on site.",
        _material,
        "material elm grout --is ordered --due 2026-12-01",
        _material_arguments,
    ),
)
