"""How often somebody may try a password."""

from __future__ import annotations

import hashlib

from django.db import transaction
from django.utils import timezone

from soapbench.workshop.models import TokenBucket

REFILL_S = 600.0  # an empty bucket is full again after this


@transaction.atomic
def take(key: str, capacity: float) -> bool:
    """Take one token from the bucket of this key; False when it is empty.

    A bucket holds `capacity` tokens and fills up evenly within REFILL_S.
    """
    digest = hashlib.sha256(key.encode()).hexdigest()
    now = timezone.now()
    bucket, _made = TokenBucket.objects.select_for_update().get_or_create(
        digest=digest, defaults={"share": 1.0, "updated_at": now}
    )
    gained = max(0.0, (now - bucket.updated_at).total_seconds()) / REFILL_S
    left = min(1.0, bucket.share + gained) - 1 / capacity
    if left < -1e-9:
        return False
    bucket.share, bucket.updated_at = max(0.0, left), now
    bucket.save()
    return True


def may_try_password(username: str, address: str) -> bool:
    """Return whether this name may be tried again from this address: 10 a name, 60 an address, in ten minutes."""
    return take(f"sign-in {address}", 60) and take(f"sign-in {address} {username.lower()}", 10)
