"""What is asked of a journal file for the record of a house, and for photos of entries and the record."""

from __future__ import annotations

from journal_tui.store.store import Row, Store


def hidden_works(store: Store, job_id: str) -> list[Row]:
    """Return what is behind a job's surfaces, oldest first."""
    return list(store.rows("SELECT * FROM hidden_works WHERE job_id = ? ORDER BY id", [job_id]))


def hidden_tests(store: Store, job_id: str) -> dict[str, list[Row]]:
    """Return the tests of a job's hidden works, by work, in the order they were made."""
    found = store.rows(
        "SELECT t.* FROM hidden_tests t JOIN hidden_works w ON w.id = t.work_id WHERE w.job_id = ?"
        " ORDER BY t.day, t.id",
        [job_id],
    )
    tests: dict[str, list[Row]] = {}
    for row in found:
        tests.setdefault(row["work_id"], []).append(row)
    return tests


def hidden_work(store: Store, work_id: str) -> Row | None:
    """Return one thing behind a surface, None when there is none of this id."""
    return store.row("SELECT * FROM hidden_works WHERE id = ?", [work_id])


def works_of_entry(store: Store, entry_id: str) -> list[Row]:
    """Return what is on record that rests on an entry, oldest first."""
    return list(store.rows("SELECT * FROM hidden_works WHERE entry_id = ? ORDER BY id", [entry_id]))


def hidden_test(store: Store, test_id: str) -> Row | None:
    """Return a test with the job and the work it is of, None when there is none of this id."""
    return store.row(
        "SELECT t.*, w.job_id, w.what AS work FROM hidden_tests t JOIN hidden_works w ON w.id = t.work_id"
        " WHERE t.id = ?",
        [test_id],
    )


def finish(store: Store, finish_id: str) -> Row | None:
    """Return one finish, None when there is none of this id."""
    return store.row("SELECT * FROM finishes WHERE id = ?", [finish_id])


def finishes(store: Store, job_id: str) -> list[Row]:
    """Return what a job was finished with, oldest first."""
    return list(store.rows("SELECT * FROM finishes WHERE job_id = ? ORDER BY id", [job_id]))


def sign_off(store: Store, job_id: str) -> Row | None:
    """Return how a job was accepted, None while it is not."""
    return store.row("SELECT * FROM sign_offs WHERE id = ?", [job_id])


def photos_of_entry(store: Store, entry_id: str) -> list[Row]:
    """Return the photos attached to an entry, in the order they were."""
    return list(store.rows("SELECT * FROM photos WHERE entry_id = ? ORDER BY id", [entry_id]))


def photos_of_work(store: Store, work_id: str, *, of_tests: bool = False) -> list[Row]:
    """Return the photos of a hidden work, or with ``of_tests`` those of its tests too, as attached."""
    clause = "" if of_tests else "AND test_id IS NULL"
    return list(store.rows(f"SELECT * FROM record_photos WHERE work_id = ? {clause} ORDER BY id", [work_id]))


def photos_of_test(store: Store, test_id: str) -> list[Row]:
    """Return the photos of a test, in the order they were attached."""
    return list(store.rows("SELECT * FROM record_photos WHERE test_id = ? ORDER BY id", [test_id]))


def record_photos(store: Store, job_id: str) -> dict[str, list[str]]:
    """Return the hashes of the photos of a job's record, by the work's id, or the test's for its own."""
    found = store.rows(
        "SELECT coalesce(p.test_id, p.work_id) AS of_id, p.sha256 FROM record_photos p"
        " JOIN hidden_works w ON w.id = p.work_id WHERE w.job_id = ? ORDER BY p.id",
        [job_id],
    )
    photos: dict[str, list[str]] = {}
    for row in found:
        photos.setdefault(row["of_id"], []).append(row["sha256"])
    return photos


def stills_of_job(store: Store, job_id: str) -> dict[str, str]:
    """Return the hash of the still of each of a job's entries that the client may read, by entry."""
    found = store.rows(
        "SELECT e.id, s.sha256 FROM visits v JOIN drafts d ON d.visit_id = v.id"
        " JOIN stills s ON s.draft_id = d.id JOIN entries e ON e.id = d.entry_id"
        " WHERE v.job_id = ? AND e.audience = 'client'",
        [job_id],
    )
    return {row["id"]: row["sha256"] for row in found}


def photos_of_job(store: Store, job_id: str, *, client_only: bool = False) -> dict[str, list[str]]:
    """Return the hashes of the photos of a job's entries (those the client may read), by entry."""
    clause = "AND e.audience = 'client'" if client_only else ""
    found = store.rows(
        "SELECT p.entry_id, p.sha256 FROM photos p JOIN entries e ON e.id = p.entry_id"
        f" WHERE e.job_id = ? {clause} ORDER BY p.id",
        [job_id],
    )
    photos: dict[str, list[str]] = {}
    for row in found:
        photos.setdefault(row["entry_id"], []).append(row["sha256"])
    return photos


def pictures_for_crew(store: Store, job_id: str) -> dict[str, list[str]]:
    """Return the hashes of the pictures of a job's entries that the crew may read, by entry.

    Photos in the order they were attached; the still of an entry only where it has no photo.
    """
    found = store.rows(
        "SELECT e.id, p.sha256 FROM entries e JOIN photos p ON p.entry_id = e.id"
        " WHERE e.job_id = ? AND e.audience <> 'private' ORDER BY p.id",
        [job_id],
    )
    pictures: dict[str, list[str]] = {}
    for row in found:
        pictures.setdefault(row["id"], []).append(row["sha256"])
    for row in store.rows(
        "SELECT e.id, s.sha256 FROM entries e JOIN drafts d ON d.entry_id = e.id"
        " JOIN stills s ON s.draft_id = d.id WHERE e.job_id = ? AND e.audience <> 'private' ORDER BY s.id",
        [job_id],
    ):
        pictures.setdefault(row["id"], [row["sha256"]])
    return pictures
