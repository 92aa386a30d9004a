"""What is asked of a journal file for a plan."""

from __future__ import annotations

from journal_tui.store.store import Row, Store


def item_plans(store: Store, job_id: str) -> dict[str, Row]:
    """Return what was stated of a job's items, by item."""
    return {r["id"]: r for r in store.rows("SELECT * FROM item_plans WHERE job_id = ?", [job_id])}


def links(store: Store, job_id: str) -> list[Row]:
    """Return a job's links, oldest first."""
    found = store.rows("SELECT * FROM links WHERE job_id = ? ORDER BY created_at, id", [job_id])
    return list(found)


def holds(store: Store, job_id: str) -> dict[str, Row]:
    """Return what is on record of a job's holds, by item."""
    return {r["id"]: r for r in store.rows("SELECT * FROM holds WHERE job_id = ?", [job_id])}


def hold_results(store: Store, job_id: str) -> dict[str, list[Row]]:
    """Return the results of a job's holds, by item, oldest first."""
    found = store.rows(
        "SELECT r.* FROM hold_results r JOIN holds h ON h.id = r.hold_id WHERE h.job_id = ? ORDER BY r.id",
        [job_id],
    )
    results: dict[str, list[Row]] = {}
    for row in found:
        results.setdefault(row["hold_id"], []).append(row)
    return results


def work_calendar(store: Store, job_id: str) -> Row | None:
    """Return a job's work week and means, None while nobody has set them."""
    return store.row("SELECT * FROM work_calendars WHERE id = ?", [job_id])


def calendar_days(store: Store, job_id: str) -> list[Row]:
    """Return the days off and the extra days of a job, in order."""
    return list(store.rows("SELECT * FROM calendar_days WHERE job_id = ? ORDER BY day", [job_id]))


def subs(store: Store, job_id: str) -> list[Row]:
    """Return a job's licensed subs by trade."""
    return list(store.rows("SELECT * FROM subs WHERE job_id = ? ORDER BY trade", [job_id]))


def kept_plans(store: Store, job_id: str) -> list[Row]:
    """Return the plans kept of a job, newest first."""
    found = store.rows(
        "SELECT * FROM kept_plans WHERE job_id = ? ORDER BY created_at DESC, id DESC LIMIT 2", [job_id]
    )
    return list(found)


def last_visit(store: Store, job_id: str) -> Row | None:
    """Return (id, day) of a job's last visit, None before any."""
    return store.row(
        "SELECT id, day FROM visits WHERE job_id = ? ORDER BY day DESC, id DESC LIMIT 1", [job_id]
    )


def done_moments(store: Store, job_id: str) -> dict[str, str]:
    """Return when each done item was last said to be so (UTC, ISO 8601), by item."""
    found = store.rows(
        "SELECT c.item_id, max(c.created_at) AS at FROM punch_changes c"
        " JOIN punch_items p ON p.id = c.item_id WHERE p.job_id = ?"
        " AND p.state = 'done' AND c.state = 'done' GROUP BY c.item_id",
        [job_id],
    )
    return {r["item_id"]: r["at"] for r in found}
