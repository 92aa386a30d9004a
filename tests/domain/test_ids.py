"""Identifiers against RFC 9562, "Universally Unique IDentifiers (UUIDs)", May 2024."""

from __future__ import annotations

import uuid
from concurrent.futures import ThreadPoolExecutor

from journal_tui.domain.ids import new_id, uuid7_from


def test_the_example_of_the_standard() -> None:
    # RFC 9562 appendix A.6: unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0b01 0x8C4DC0C0C07398F.
    random_bits = 0xCC3 << 62 | 0x18C4DC0C0C07398F
    assert uuid7_from(0x017F22E279B0, random_bits) == uuid.UUID("017F22E2-79B0-7CC3-98C4-DC0C0C07398F")


def test_version_and_variant_are_those_of_section_5_7() -> None:
    made = uuid.UUID(new_id())
    assert made.version == 7
    assert made.variant == uuid.RFC_4122


def test_later_ids_sort_after_earlier_ones_in_one_process() -> None:
    made = [new_id() for _ in range(20_000)]
    assert made == sorted(made)
    assert len(set(made)) == len(made)


def test_threads_never_share_an_id() -> None:
    with ThreadPoolExecutor(8) as pool:
        batches = list(pool.map(lambda _n: [new_id() for _ in range(500)], range(16)))
    assert len({i for batch in batches for i in batch}) == 8000
