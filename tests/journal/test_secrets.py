"""Secrets planted in every text field of every table: none may reach a client's or the crew's document.

Two kinds of secrets. A *token* stands for anything at all: it is planted in every field that no document of
that reader is made from, and in every field of a thing kept from the reader. A *code* and a *name* are
planted in the fields documents are made from, where the words around them are printed and they are not.
A text field the lists below do not name gets a token in a thing anyone may read, so that a new column that
finds its way into a document is noticed here.
"""

from __future__ import annotations

import datetime as dt
import email
import email.policy
import io
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf import PdfReader

from journal_tui.domain.change_order import Answer, ChangeLine, Channel, LineKind
from journal_tui.domain.document import Length
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Party
from journal_tui.journal import changes, contracts, house_record, jobs, photos, punch, review, updates, visits
from journal_tui.journal.change_answers import answer_order, send_order
from journal_tui.journal.change_materials import take_material
from journal_tui.journal.change_pages import page_markdown
from journal_tui.journal.crew_papers import visit_paper, write_sheet
from journal_tui.journal.house_record import FinishWords, WorkWords
from journal_tui.journal.job_measures import keep_measure
from journal_tui.journal.next_visit import next_visit, sheet_markdown
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.papers import PaperForm, paper_bytes
from journal_tui.journal.plan_items import link, record_result, state
from journal_tui.journal.work_days import WeekChange, set_day, set_sub, set_week
from journal_tui.planning.items import HoldResult, Stated
from journal_tui.planning.visit import Wish
from tests.conftest import TODAY
from tests.journal.talk import drafted_by_hand

NAME = "Zebulonia"
#: Kept by the program for itself: what was done, and the steps of the schema.
INNER = {"actions", "acting", "history", "_sqlite_migrations"}
#: What the fields of these names hold is chosen by the program: ids, dates, hashes, words of a fixed list.
FIXED = set(
    "id job_id visit_id entry_id draft_id item_id order_id work_id test_id recording_id hold_id "
    "again_id line_id measure_id before_id after_id created_at saved_at moved_at day since closed "
    "seen covered placed warranty due booked sent_on drafted_on answer_by answered_on answered_how "
    "measured_on sha256 kind state who hazards audience form tax_base how finish zone weekdays "
    "begins country subdivision days away standing".split()
) - {""}
#: The writer's own version of a letter, and letters that were sent: their words are the writer's to choose.
WRITERS = {("working_documents", "made"), ("working_documents", "edited"), ("documents", "markdown")}
JSON_LISTS = {("item_plans", "materials"), ("hold_results", "found"), ("drafts", "measures")}
JSON_OTHER = {("drafts", "repairs"), ("drafts", "learned"), ("recordings", "notices"), ("jobs", "phases"),
              ("kept_plans", "items")}  # fmt: skip
#: What documents for the client are made from.
CLIENT = {
    "entries": "area text phase",
    "punch_items": "area text phase",
    "jobs": "name address",
    "change_orders": "title found offer left answered_by",
    "change_lines": "text unit",
    "hidden_works": "surface what size from_a from_b length_a length_b",
    "hidden_tests": "what result",
    "finishes": "area what description lot care",
    "sign_offs": "by note",
}
#: What the crew's sheet is made from.
CREW = {
    "entries": "",
    "punch_items": "area text phase",
    "jobs": "name address",
    "item_plans": "wait_note materials sub task",
    "measures": "typed",
}
#: Lengths are made by the program from what was typed, and names a plan is matched by must stay.
UNTOUCHED = {
    ("hidden_works", "length_a"),
    ("hidden_works", "length_b"),
    ("item_plans", "task"),
    ("item_plans", "sub"),
}
#: A job's own name and a proof may name people: they are theirs to read. Their codes are withheld.
NAMED = {("jobs", "name"), ("jobs", "address"), ("change_orders", "answered_by"), ("sign_offs", "by"),
         ("sign_offs", "note")}  # fmt: skip


def filled(path: Path) -> tuple[Journal, Job]:
    """Return a journal with a row in every table, and its job; half of its things are kept from readers."""
    journal = open_journal(path / "j.db", today=lambda: TODAY)
    job = jobs.add_job(journal, "Powder room", client=f"Ada {NAME}", address="12 Elm Row", private_note="x")
    visit = visits.log_recording(journal, job.id, drafted_by_hand(path))
    review.keep_rest(journal, visit.id)
    visits.change_visit(journal, visit.id, people=f"Rui {NAME}", summary="a walk")
    for audience in Audience:
        (entry,) = visits.note(journal, job.id, f"the floor is soft in corner {audience}")
        (step,) = visits.note(journal, job.id, f"I need to strap the new supply by the window {audience}")
        open_item = punch.add(journal, job.id, f"strap the supply pipe {audience}", area="floor")
        done = punch.add(journal, job.id, f"haul the old vanity {audience}", area="wall")
        asked = punch.add(journal, job.id, f"which light {audience}", area="wall", who=Party.CLIENT)
        test = punch.add(journal, job.id, f"pressure test {audience}", phase="rough plumbing")
        with journal.store.write("say who may read it") as w:
            for said in (entry, step):
                w.change("entries", said.id, audience=audience.value)
            for item in (open_item, done, asked, test):
                w.change("punch_items", item.id, audience=audience.value)
            born = "SELECT id FROM punch_items WHERE entry_id IN (?, ?)"
            for row in journal.store.rows(born, [entry.id, step.id]):
                w.change("punch_items", row["id"], audience=audience.value)
        photo = path / "IMG of Zebulonia.png"
        Image.new("RGB", (8, 6), (10, 20, 40 * list(Audience).index(audience))).save(photo)
        photos.add_photo(journal, step.id, photo)
        punch.finish(journal, done.id, note="done")
        record_result(journal, test.id, HoldResult(TODAY, "an inspector", True, ("fine",), "a card"))
        state(
            journal,
            open_item.id,
            Stated(crew_hours=2.0, wait_hours=1.0, wait_note="sets", materials=("pipe",)),
        )
    items = journal.store.rows("SELECT id FROM punch_items WHERE state = 'open' ORDER BY id")
    link(journal, items[0]["id"], items[1]["id"])
    _plan_and_money(journal, job, items[0]["id"])
    return journal, job


def _plan_and_money(journal: Journal, job: Job, held: str) -> None:
    set_week(journal, job.id, WeekChange(weekdays="mon-fri"))
    set_day(journal, job.id, dt.date(2026, 3, 20), worked=False, why="a day off")
    set_sub(journal, job.id, "plumber")
    typed = {"size": "8-0x5-0", "subfloor": "plywood 3/4", "coating": "50", "wall-backer": "backer 1/2"}
    keep_measure(journal, job.id, "take-off", "bath", {**typed, "on-walls": "2"}, by="Rui")
    contracts.set_contract(journal, job.id, cents=1_000_000, finish=dt.date(2026, 5, 1))
    for title in ("New floor", "New wall"):
        order = changes.draft_order(journal, job.id, title)
        changes.change_words(journal, order.id, found="soft", offer="new boards", left="it rots", days=1)
        changes.add_line(journal, order.id, ChangeLine(LineKind.MATERIAL, "boards", 200, "sheet", 5_000))
        take_material(journal, order.id, "plywood 3/4", each=5_000)
        changes.hold(journal, order.id, held)
        send_order(journal, order.id)
    answer_order(journal, order.id, True, Answer("Ada", Channel.PHONE, TODAY, "she called"))
    house_record.add_work(journal, job.id, WorkWords("long wall", "pipe", "1/2", (("the jamb", "3 in"),)))
    work = house_record.find_work(journal, job, "1")
    house_record.add_test(journal, work, "water test", "held", passed=True, by="Rui")
    house_record.add_finish(journal, job.id, FinishWords("floor", "tile", "white", "C12", "wipe it"))
    house_record.sign_off(journal, job.id, "Ada", Channel.SIGNED, note="later")
    with journal.store.write("the rest") as w:
        rest = {"job_id": job.id}
        w.insert(
            "own_words", {**rest, "phrase": "by the sink", "area": "vanity", "phase": "trim", "in_use": 1}
        )
        w.insert("measures", {**rest, "form": "way in", "name": "tub", "typed": "{}", "measured_by": "Rui",
                              "measured_on": "2026-03-12"})  # fmt: skip
        w.insert("material_standings", {**rest, "name": "grout", "phase": "tile", "standing": "on site"})
        draft = journal.store.rows("SELECT id FROM drafts ORDER BY id")[0]["id"]
        w.insert("stills", {"draft_id": draft, "sha256": "1" * 64, "moment": 1.0, "width": 1, "height": 1})
        w.insert("record_photos", {"work_id": work["id"], "sha256": "2" * 64, "width": 1, "height": 1})
        w.insert("kept_plans", {"id": f"{job.id}/x", **rest, "as_of": 0, "end": 0, "items": "{}"})
    journal.store.scribble("note/x", "half typed")


def text_columns(journal: Journal) -> Iterator[tuple[str, str]]:
    """Yield every text field of every table that people's words can be in."""
    tables = journal.store.rows("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    for name in [row["name"] for row in tables]:
        if name in INNER or name.startswith("sqlite_") or "_fts" in name:
            continue
        for column in journal.store.rows(f'PRAGMA table_info("{name}")'):
            place = (name, column["name"])
            if column["type"] in ("TEXT", "ANY") and column["name"] not in FIXED and place not in WRITERS:
                yield place


def plant(journal: Journal, made_from: dict[str, str], hidden: set[str], seed: str) -> tuple[list[str], int]:
    """Plant a secret in every text field; return what must not be seen, and how many fields have one."""
    secrets: list[str] = [NAME, "Marcos"]
    planted = 0
    with journal.store.write("plant") as w:
        for number, (table, column) in enumerate(text_columns(journal)):
            rows = journal.store.rows(f'SELECT * FROM "{table}" ORDER BY id')
            assert rows, f"no row to plant a secret in: {table}"
            for at, row in enumerate(rows):
                keys = row.keys()
                kept = "audience" in keys and row["audience"] in hidden
                printed = not kept and column in made_from.get(table, "").split()
                if printed and (table, column) in UNTOUCHED:
                    continue
                token = f"QX{seed}{number:03d}{at:03d}"
                code = f"{4_000_000 + number * 1000 + at}"
                who = "they" if (table, column) in NAMED else f"Marcos and {NAME}"
                words = f"{who} know the lockbox code is {code}" if printed else token
                secrets += [code] if printed else [token]
                planted += 1
                w.change(table, row["id"], **{column: _with(row[column], words, (table, column))})
    return secrets, planted


def _with(value: object, words: str, place: tuple[str, str]) -> str:
    if place == ("measures", "typed"):
        # The name of a material is a person's own words.
        typed = json.loads(str(value))
        return json.dumps({k: f"{v} {words}" if k == "wall-backer" else v for k, v in typed.items()})
    if place in JSON_LISTS:
        return json.dumps([*json.loads(str(value or "[]")), words])
    if place in JSON_OTHER:
        kept = json.loads(str(value or "[]"))
        return json.dumps([*kept, words.casefold()] if place == ("jobs", "phases") else kept)
    return f"{value or ''} {words}".strip()


def client_documents(journal: Journal, job: Job) -> Iterator[tuple[str, str]]:
    """Yield every document for the client, in Markdown, by name."""
    for length in Length:
        yield f"{length} update", updates.client_update(journal, job.id, length=length).markdown
    for order in changes.change_orders(journal, job.id):
        yield order.name, page_markdown(journal, order)
    for closing in (False, True):
        yield f"record {closing}", house_record.record_markdown(journal, job, closing=closing)


def in_every_form(markdown: str, pictures: dict[str, bytes] | None = None) -> Iterator[tuple[str, str]]:
    """Yield a document as the reader of each form meets it, what is said for its pictures included."""
    for form in PaperForm:
        data = paper_bytes(markdown, "a document", TODAY, form, pictures, one_page=pictures is not None)
        if form is PaperForm.PDF:
            yield form.value, "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)
        elif form is PaperForm.EMAIL:
            message = email.message_from_bytes(data, policy=email.policy.default)
            for part in message.walk():
                yield "header", " ".join(f"{name}: {value}" for name, value in part.items())
                if part.get_content_maintype() == "text":
                    yield part.get_content_type(), str(part.get_content())
        else:
            yield form.value, data.decode()


def leaks(text: str, secrets: list[str]) -> list[str]:
    """Return the secrets that stand in ``text``, whatever their case and however lines were broken."""
    folded = "".join(text.split()).casefold()
    return [secret for secret in dict.fromkeys(secrets) if secret.casefold() in folded]


seeds = st.text("ABCDEFGHJK", min_size=4, max_size=4)


@settings(max_examples=2, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(seeds)
def test_no_secret_reaches_the_client_in_any_form(
    tmp_path_factory: pytest.TempPathFactory, seed: str
) -> None:
    journal, job = filled(tmp_path_factory.mktemp("client"))
    secrets, planted = plant(journal, CLIENT, {Audience.CREW.value, Audience.PRIVATE.value}, seed)
    assert planted >= 200
    told = 0
    for name, markdown in client_documents(journal, job):
        for form, text in in_every_form(markdown):
            assert leaks(text, secrets) == [], f"{name} as {form}"
            told += "withheld" in text
    assert told, "no field documents are made from was planted in: the test tries nothing"
    journal.close()


@settings(max_examples=2, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
@given(seeds)
def test_no_secret_reaches_the_crew(tmp_path_factory: pytest.TempPathFactory, seed: str) -> None:
    journal, job = filled(tmp_path_factory.mktemp("crew"))
    secrets, _planted = plant(journal, CREW, {Audience.PRIVATE.value}, seed)
    item = journal.store.rows("SELECT id FROM punch_items WHERE text LIKE '%the window crew%'")[0]["id"]
    visit, inputs = next_visit(journal, job, TODAY, 24, 6, Wish(first=(item,)))
    paper = visit_paper(journal, visit, inputs)
    sheet = sheet_markdown(journal, visit, inputs)
    assert "strap the supply pipe crew" in sheet and "withheld" in sheet
    # The crew know each other's names; the client's is not theirs to pass on.
    kept = [s for s in secrets if s != "Marcos"]
    private = journal.store.rows(
        "SELECT p.sha256 FROM photos p JOIN entries e ON e.id = p.entry_id WHERE e.audience = 'private'"
    )
    assert "## Pictures" in sheet and paper.pictures
    assert not [row for row in private if row["sha256"][:16] in sheet]
    for form, text in in_every_form(sheet, paper.pictures):
        assert leaks(text, kept) == [], form
    for path in write_sheet(paper, tmp_path_factory.mktemp("out")):
        assert leaks(str(path.name), kept) == []
        assert b"IMG of" not in path.read_bytes()
    assert leaks(" ".join(paper.pictures), kept) == []
    journal.close()


def test_a_secret_that_does_leak_is_noticed(tmp_path: Path) -> None:
    journal, job = filled(tmp_path)
    secrets, _planted = plant(journal, {}, set(), "LEAK")
    # With nothing held back, what an entry says is in the update: the test can fail.
    assert leaks(updates.client_update(journal, job.id, length=Length.FULL).markdown, secrets)
    journal.close()
