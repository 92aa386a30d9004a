"""What is asked of a journal file for measures and materials."""

from __future__ import annotations

from journal_tui.store.store import Row, Store


def measures(store: Store, job_id: str) -> list[Row]:
    """Return a job's measures by form and name."""
    sql = "SELECT * FROM measures WHERE job_id = ? ORDER BY form, name COLLATE NOCASE, id"
    return list(store.rows(sql, [job_id]))


def measure(store: Store, measure_id: str) -> Row | None:
    """Return one measure, None when it is gone."""
    return store.row("SELECT * FROM measures WHERE id = ?", [measure_id])


def material_standings(store: Store, job_id: str) -> list[Row]:
    """Return where a job's materials are, as far as anybody has said."""
    return list(store.rows("SELECT * FROM material_standings WHERE job_id = ?", [job_id]))
