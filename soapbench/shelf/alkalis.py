"""The two alkalis of the shelf: their keys, and how much of a jar works."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from django.utils.translation import gettext as _

from soapbench.science.carbonate import Solute, purity_without_carbonate

if TYPE_CHECKING:
    from soapbench.shelf.models import Lot

NAOH = "sodium_hydroxide"
KOH = "potassium_hydroxide"
LONG_OPEN = timedelta(days=365)  # common practice, no source


def solute_of(key: str) -> Solute:
    """Return which hydroxide a material is."""
    return "KOH" if key == KOH else "NaOH"


def working_purity(total_alkali: float, carbonate: float, key: str) -> float:
    """Return the share of a jar that makes soap, a fraction: its total alkali less what the air has spoilt.

    Raises:
        OutOfRange: there cannot be so much carbonate in it.
    """
    return purity_without_carbonate(total_alkali, carbonate, solute_of(key))


def purity_words(lot: Lot) -> str:
    """Return what the carbonate in a jar does to its purity, or nothing where none is told."""
    works = lot.working_purity
    if not lot.carbonate or works is None:
        return ""
    shares = {"total": _percent(lot.stated_purity), "carbonate": _percent(lot.carbonate), "works": _percent(works)}
    if lot.carbonate_is_guess:
        return _("Of %(total)s total alkali, %(carbonate)s carbonate by your estimate: %(works)s works.") % shares
    return _("Of %(total)s total alkali, %(carbonate)s carbonate: %(works)s works.") % shares


def age_words(lot: Lot, today: date) -> str:
    """Return a remark on a jar of alkali that was bought long ago, or nothing."""
    if lot.material.kind != "alkali" or lot.bought_on is None or today - lot.bought_on <= LONG_OPEN:
        return ""
    return _("Bought more than a year ago. An opened jar draws carbonic acid from the air and works less.")


def _percent(share: float | None) -> str:
    return f"{100 * (share or 0.0):.3g} %"
