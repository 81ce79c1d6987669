"""Collect the static files when they changed, and only then."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

from django.conf import settings
from django.core.management import call_command


def collect_if_changed() -> bool:
    """Collect when any static file has another name, size or date than at the last time; return whether it did.

    Files of an older version stay, because a page kept offline on a phone may still need them.
    """
    stamp = Path(settings.STATIC_ROOT).with_suffix(".digest")
    now = digest()
    if stamp.exists() and stamp.read_text() == now:
        return False
    call_command("collectstatic", interactive=False, verbosity=0)
    stamp.write_text(now)
    return True


def digest() -> str:
    """Return the digest of names, sizes and dates, and of where they are collected to and how."""
    lines = [str(settings.STATIC_ROOT), str(settings.STORAGES["staticfiles"]), *sorted(_lines())]
    return hashlib.sha256("\n".join(lines).encode()).hexdigest()


def _lines() -> Iterator[str]:
    for folder in settings.STATICFILES_DIRS:
        for path in Path(folder).rglob("*"):
            facts = path.stat()
            yield f"{path} {facts.st_size} {facts.st_mtime_ns}"
