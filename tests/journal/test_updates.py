"""The client update: facts since the last one, edits kept, and nothing private in it."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from journal_tui.domain.document import Length
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.kinds import Audience, Party
from journal_tui.journal import jobs, punch, review, updates, visits
from journal_tui.journal.opening import Journal, open_journal
from tests.conftest import TODAY
from tests.journal.talk import drafted_by_hand


@pytest.fixture
def job(journal: Journal) -> Job:
    return jobs.add_job(journal, "Powder room", client="Ada Lindqvist", address="12 Elm Row")


def test_the_update_tells_what_was_found_chosen_done_and_owed(
    journal: Journal, job: Job, tmp_path: Path
) -> None:
    visit = visits.log_recording(journal, job.id, drafted_by_hand(tmp_path))
    review.keep_rest(journal, visit.id)
    done = punch.add(journal, job.id, "haul the old vanity")
    punch.finish(journal, done.id)
    made = updates.client_update(journal, job.id)
    assert [f.text for f in made.facts.done] == ["haul the old vanity"]
    for part in (made.facts.found, made.facts.decided, made.facts.next, made.facts.needed):
        assert len(part) == 1
    for words in (
        "cracked",
        "not a new flange",
        "rder the repair ring",
        "which light",
        "auled the old vanity",
    ):
        assert words in made.markdown


def test_the_next_update_starts_where_the_last_ended(journal: Journal, job: Job) -> None:
    visits.note(journal, job.id, "the closet flange is cracked")
    first = updates.client_update(journal, job.id)
    sent = updates.send(journal, job.id, first.markdown)
    visits.note(journal, job.id, "the shutoff valve is frozen")
    second = updates.client_update(journal, job.id)
    assert second.facts.since == sent.sent_on == TODAY
    assert "frozen" in second.markdown
    assert "We found" not in second.markdown or "is cracked" not in str([f.text for f in second.facts.found])
    assert updates.sent_updates(journal, job.id) == [sent]
    assert sent.markdown == first.markdown


def test_edits_survive_new_facts_and_can_be_set_aside(journal: Journal, job: Job) -> None:
    visits.note(journal, job.id, "the closet flange is cracked")
    first = updates.client_update(journal, job.id)
    updates.save_edit(journal, job.id, first.made, first.markdown + "\nCall me any evening.\n")
    visits.note(journal, job.id, "the shutoff valve is frozen")
    second = updates.client_update(journal, job.id)
    assert second.edited
    assert "Call me any evening." in second.markdown
    assert "frozen" in second.markdown
    updates.discard_edit(journal, job.id)
    third = updates.client_update(journal, job.id)
    assert not third.edited
    assert "evening" not in third.markdown
    told = journal.store.rows(
        "SELECT before FROM history WHERE table_name = 'working_documents' AND op = 'delete'"
    )
    assert "Call me any evening." in told[0]["before"]


def test_each_length_keeps_its_own_edit_and_sending_one_ends_them_all(journal: Journal, job: Job) -> None:
    visits.note(journal, job.id, "the closet flange is cracked")
    short = updates.client_update(journal, job.id, length=Length.SHORT)
    updates.save_edit(journal, job.id, short.made, short.markdown + "\nSee you.\n", Length.SHORT)
    assert "See you." not in updates.client_update(journal, job.id).markdown
    again = updates.client_update(journal, job.id, length=Length.SHORT)
    assert again.edited and "See you." in again.markdown
    updates.send(journal, job.id, again.markdown)
    assert not updates.client_update(journal, job.id, length=Length.SHORT).edited


def test_names_the_journal_was_never_told_are_not_printed(journal: Journal, job: Job) -> None:
    visits.note(journal, job.id, "Marcos says the flange is cracked")
    visits.note(journal, job.id, "Mr. Abelard at the yard has the ring")
    visits.note(journal, job.id, "will mark the studs by the window")
    made = updates.client_update(journal, job.id).markdown
    assert "Marcos" not in made and "Abelard" not in made
    assert "someone" in made.casefold() and "mark the studs" in made


def test_who_has_no_name_among_the_people_of_a_visit_is_called_what_they_are(
    journal: Journal, job: Job
) -> None:
    visits.note(journal, job.id, "the inspector signed the card", people="Marisela, the inspector")
    visits.note(journal, job.id, "Marisela swept the hall and set the grate")
    made = updates.client_update(journal, job.id).markdown
    assert "he inspector signed the card" in made
    assert "Marisela" not in made and "he crew swept the hall" in made


def test_dates_are_told_once_the_days_of_work_are_set(journal: Journal, job: Job) -> None:
    from journal_tui.journal.work_days import WeekChange, set_week

    punch.add(journal, job.id, "strap the new supply", phase="rough plumbing")
    punch.add(journal, job.id, "which vanity light", phase="trim", who=Party.CLIENT)
    assert "We plan this" not in updates.client_update(journal, job.id).markdown
    set_week(journal, job.id, WeekChange(weekdays="mon-fri"))
    made = updates.client_update(journal, job.id)
    assert made.facts.next[0].begins is not None
    assert "We plan this for" in made.markdown
    assert "Please answer by" in made.markdown
    assert made.facts.finish is not None


def test_an_update_with_nothing_new_still_reads_kindly(journal: Journal, job: Job) -> None:
    made = updates.client_update(journal, job.id)
    assert made.facts.empty
    assert len(made.markdown.split()) > 8


def test_an_empty_or_misdated_update_is_refused(journal: Journal, job: Job) -> None:
    with pytest.raises(BadInput):
        updates.send(journal, job.id, " \n")
    with pytest.raises(BadInput):
        updates.client_update(journal, job.id, dt.date(2099, 1, 1))


def test_the_same_facts_make_the_same_bytes(journal: Journal, job: Job) -> None:
    for line in ("the closet flange is cracked", "need to strap the new supply", "mold behind the vanity"):
        visits.note(journal, job.id, line)
    assert updates.client_update(journal, job.id).markdown == updates.client_update(journal, job.id).markdown


secrets = st.text(st.sampled_from("QXZJVW"), min_size=12, max_size=14)


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(data=st.data())
def test_planted_secrets_never_reach_the_client(data: Any, tmp_path_factory: Any) -> None:
    """A secret in every private place: the job's private note, private and crew entries and items,
    people's names, summaries, and what was typed and not handed in."""
    planted = [data.draw(secrets, label=f"secret {n}") for n in range(9)]
    journal = open_journal(tmp_path_factory.mktemp("s") / "j.db", today=lambda: TODAY)
    job = jobs.add_job(
        journal, "Powder room", client=f"Ada {planted[0]}", private_note=f"door code {planted[1]}"
    )
    (private, *_m) = visits.note(
        journal, job.id, f"the flange is cracked {planted[2]}", people=f"Rui {planted[3]}"
    )
    (crew, *_m) = visits.note(journal, job.id, f"need to order the {planted[4]} valve")
    visits.note(journal, job.id, f"{planted[3].lower()} and {planted[0]} looked at the tub")
    item = punch.add(journal, job.id, f"strap {planted[5]}")
    done = punch.add(journal, job.id, f"haul {planted[6]}", area=planted[7])
    punch.finish(journal, done.id, note=planted[8])
    visit = visits.find_visit(journal, job.id)
    visits.change_visit(journal, visit.id, summary=planted[8])
    with journal.store.write("plant") as w:
        w.change("entries", private.id, audience=Audience.PRIVATE.value)
        w.change("entries", crew.id, audience=Audience.CREW.value)
        for row in journal.store.rows("SELECT id, entry_id FROM punch_items"):
            reader = Audience.CREW if row["entry_id"] == crew.id else Audience.PRIVATE
            w.change("punch_items", row["id"], audience=reader.value)
    made = updates.client_update(journal, job.id)
    assert item.text not in made.markdown
    leaked = [s for s in planted if s.casefold() in made.markdown.casefold()]
    assert leaked == []
    journal.close()
