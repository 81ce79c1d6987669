"""What has been weighed out of each lot. The bench knows; the shelf must not import it, so the settings name it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from django.conf import settings
from django.utils.module_loading import import_string

from soapbench.workshop.models import Workshop


def used_by_lot(workshop: Workshop) -> Mapping[int, float]:
    """Return grams weighed out, by primary key of the lot, in one query."""
    return cast(Mapping[int, float], import_string(settings.USED_BY_LOT)(workshop))
