"""The names of the store's versions, readable without loading what builds them."""

from __future__ import annotations

#: ``PRAGMA application_id`` of a journal: "jtui" in ASCII, so that a stranger's file is known as one.
APPLICATION_ID = 0x6A747569

MIGRATION_SET = "journal"

#: Every migration ever shipped, oldest first. A file that names one not here is from a newer version.
MIGRATION_NAMES: tuple[str, ...] = (
    "0001_spine",
    "0002_plan",
    "0003_stills",
    "0004_measures",
    "0005_changes",
    "0006_record",
    "0007_record_photos",
    "0008_line_sources",
)
