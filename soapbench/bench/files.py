"""The files beside the log: written whole or not at all, named by their digest, checked against the log."""

from __future__ import annotations

import hashlib
import os
import uuid
from pathlib import Path

from django.core.files.storage import default_storage

FOLDER = "bench"
CHUNK = 1024 * 1024


def keep(data: bytes, digest: str, ending: str) -> str:
    """Write a file into the media folder and return its name there. A power cut leaves the whole file or none.

    Raises:
        OSError: the disk is full, or the folder may not be written to.
    """
    name = f"{FOLDER}/{digest[:2]}/{digest}.{ending}"
    path = Path(default_storage.path(name))
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{uuid.uuid4().hex}.part")
    try:
        with part.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return name


def digest_of_data(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def digest_of_file(path: Path) -> str:
    """Return the SHA-256 of a file, "" when it is not there or cannot be read."""
    found = hashlib.sha256()
    try:
        with path.open("rb") as file:
            while chunk := file.read(CHUNK):
                found.update(chunk)
    except OSError:
        return ""
    return found.hexdigest()
