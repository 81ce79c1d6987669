"""Ids of events that the server makes: for pages that work without a script."""

from __future__ import annotations

import secrets
import time
import uuid


def new_id() -> str:
    """Return a UUIDv7 (RFC 9562, section 5.7): milliseconds first, so that ids sort by time."""
    milliseconds = time.time_ns() // 1_000_000
    number = (milliseconds & (2**48 - 1)) << 80 | secrets.randbits(80)
    number = number & ~(0xF << 76) | 0x7 << 76
    number = number & ~(0x3 << 62) | 0x2 << 62
    return str(uuid.UUID(int=number))
