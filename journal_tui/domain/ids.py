"""Time-ordered identifiers (UUID version 7, RFC 9562 section 5.7).

Two laptops that never meet still never make the same one, and sorting by id sorts by birth.
"""

from __future__ import annotations

import os
import threading
import time
import uuid

_lock = threading.Lock()
_last = 0


def uuid7_from(unix_ms: int, random_bits: int) -> uuid.UUID:
    """Return the version 7 UUID of a Unix time in milliseconds and 74 random bits.

    The upper 12 of the random bits are ``rand_a``, the lower 62 ``rand_b`` (RFC 9562 figure 11).
    """
    value = (unix_ms & (1 << 48) - 1) << 80
    value |= 0x7 << 76 | (random_bits >> 62 & 0xFFF) << 64
    value |= 0b10 << 62 | random_bits & (1 << 62) - 1
    return uuid.UUID(int=value)


def new_id() -> str:
    """Return a new identifier; within one process later ones always sort after earlier ones."""
    global _last
    with _lock:
        # rand_a carries the fraction of the millisecond (RFC 9562 section 6.2, method 3), and is
        # stepped when the clock has not moved or has gone back.
        ms, ns = divmod(time.time_ns(), 1_000_000)
        stamp = ms << 12 | ns * 4096 // 1_000_000
        _last = max(stamp, _last + 1)
        stamp = _last
    rand_b = int.from_bytes(os.urandom(8), "big") & (1 << 62) - 1
    return str(uuid7_from(stamp >> 12, (stamp & 0xFFF) << 62 | rand_b))
