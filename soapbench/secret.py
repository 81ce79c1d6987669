"""The secret that signs sessions, made once for each machine."""

import os
import secrets
from pathlib import Path


def own_secret(folder: Path) -> str:
    """Return this machine's secret, making it at the first call.

    Kept in a file that only its owner can read, so that sessions outlive a restart.
    """
    path = folder / "secret"
    if path.exists():
        return path.read_text().strip()
    folder.mkdir(parents=True, exist_ok=True)
    secret = secrets.token_urlsafe(50)
    with os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w") as file:
        file.write(secret)
    return secret
