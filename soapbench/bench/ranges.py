"""A file in parts: some players play nothing that they cannot ask for piece by piece (RFC 9110, 14)."""

from __future__ import annotations

import re
from typing import IO

from django.http import FileResponse, HttpResponse

ONE_RANGE = re.compile(r"bytes=(\d{0,10})-(\d{0,10})")


def part_of(file: IO[bytes], size: int, asked: str) -> HttpResponse | FileResponse:
    """Return the bytes that a Range header asks for: 206 with them, 416 when there are none, 200 with all else.

    Several ranges at once are answered with the whole file, as the standard allows.
    """
    wanted = ONE_RANGE.fullmatch(asked.strip())
    if wanted is None or wanted.group() == "bytes=-":
        whole = FileResponse(file)
        whole.headers["Accept-Ranges"] = "bytes"
        return whole
    with file:
        first, last = _ends(wanted.group(1), wanted.group(2), size)
        if first > last:
            return HttpResponse(status=416, headers={"Content-Range": f"bytes */{size}"})
        file.seek(first)
        part = HttpResponse(file.read(last - first + 1), status=206)
    part.headers["Content-Range"] = f"bytes {first}-{last}/{size}"
    part.headers["Accept-Ranges"] = "bytes"
    return part


def _ends(first: str, last: str, size: int) -> tuple[int, int]:
    """Return the first and the last byte; "-500" means the last 500."""
    if not first:
        return max(0, size - int(last)), size - 1 if int(last) else -1
    return int(first), min(int(last), size - 1) if last else size - 1
