"""The tables of a job's measures and materials."""

from __future__ import annotations

from sqlite_utils import Database

from journal_tui.store.tables import create, table


def create_measure_tables(db: Database) -> None:
    """Create what keeps measures as typed, and where each material is."""
    create(
        db,
        "measures",
        {
            "job_id": str,
            "form": str,
            "name": str,
            "typed": str,
            "measured_by": str,
            "measured_on": str,
            "created_at": str,
        },
        not_null={"job_id", "form", "name", "typed", "measured_by", "measured_on", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "measures").create_index(["job_id", "form"])
    create(
        db,
        "material_standings",
        {"job_id": str, "name": str, "phase": str, "standing": str, "due": str, "created_at": str},
        not_null={"job_id", "name", "phase", "standing", "created_at"},
        foreign_keys=[("job_id", "jobs", "id")],
    )
    table(db, "material_standings").create_index(["job_id", "phase", "name"], unique=True)
