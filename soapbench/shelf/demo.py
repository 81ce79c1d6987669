"""The demo's shelf: invented colours and scents, and lots from invented suppliers."""

from __future__ import annotations

from datetime import date
from typing import Any

from soapbench.shelf.models import Confidence, Lot, Material
from soapbench.workshop.models import Workshop

SOURCE = "Invented for the demo"
# Key, name, INCI, colour index numbers, swatch, g/ml as it lies in a spoon.
COLOURS = (
    ("fathom_mica", "Fathom blue mica", "CI 77019, CI 77891, CI 77007", "77019; 77891; 77007", "#234b7d", 0.32),
    ("kelp_mica", "Kelp green mica", "CI 77019, CI 77288", "77019; 77288", "#4a6b45", 0.34),
    ("ember_mica", "Ember mica", "CI 77019, CI 77491", "77019; 77491", "#b4573a", 0.41),
)
# Key, name, minutes that scented batter stays pourable, flash point in °C.
SCENTS = (
    ("shingle_scent", "Shingle", 14.0, 82.0),
    ("fig_shade_scent", "Fig shade", 7.0, 91.0),
    ("woodsmoke_scent", "Woodsmoke", 20.0, 96.0),
)
BOUGHT = date(2026, 9, 14)
HOLLOW, PELLUM = "Hollow Oak Oils (invented)", "Pellum Colours (invented)"
# Material, code, supplier, grams, and what the paper says.
LOTS: tuple[tuple[str, str, str, float, dict[str, Any]], ...] = (
    ("olive", "OL-2609", HOLLOW, 15_000, {"saponification_value": 189.6}),
    ("olive", "OL-2603", HOLLOW, 5_000, {"status": Lot.Status.USED_UP, "bought_on": date(2026, 3, 2)}),
    ("coconut", "CO-2609", HOLLOW, 10_000, {"saponification_value": 257.4}),
    ("sunflower_high_oleic", "SU-2609", HOLLOW, 5_000, {}),
    ("rapeseed_low_erucic", "RA-2609", HOLLOW, 5_000, {}),
    ("cocoa_butter", "CB-2609", HOLLOW, 2_000, {}),
    ("shea", "SH-2609", HOLLOW, 3_000, {"saponification_value": 178.2}),
    ("castor", "CA-2609", HOLLOW, 2_000, {}),
    ("palm", "PA-2605", HOLLOW, 4_000, {"status": Lot.Status.SET_ASIDE, "bought_on": date(2026, 5, 9)}),
    ("sodium_hydroxide", "NA-118", "Crake & Sons (invented)", 5_000, {"purity": 0.99, "carbonate": 0.005}),
    ("water", "W-2611", "Crake & Sons (invented)", 20_000, {}),
    ("goat_milk", "GM-2611", "Upper Byre (invented)", 1_500, {"best_before": date(2027, 5, 1)}),
    ("kaolin", "KA-2604", PELLUM, 500, {}),
    ("citric_acid_monohydrate", "CI-2607", "Crake & Sons (invented)", 1_000, {}),
    ("honey", "HO-2607", "Upper Byre (invented)", 350, {}),
    ("titanium_dioxide", "TI-2604", PELLUM, 200, {}),
    ("clay_rose", "CR-2604", PELLUM, 250, {}),
    ("charcoal", "CH-2604", PELLUM, 100, {}),
    ("fathom_mica", "FM-07", PELLUM, 60, {}),
    ("kelp_mica", "KM-03", PELLUM, 18, {}),
    ("ember_mica", "EM-02", PELLUM, 45, {}),
    ("shingle_scent", "SG-31", HOLLOW, 400, {"limit_percent": 4.1, "certificate": "invented certificate 31"}),
    ("fig_shade_scent", "FS-12", HOLLOW, 200, {"limit_percent": 2.6, "certificate": "invented certificate 12"}),
    ("woodsmoke_scent", "WS-05", HOLLOW, 100, {"limit_percent": 1.9, "certificate": "invented certificate 5"}),
    ("lavender_oil", "LA-2608", HOLLOW, 250, {"limit_percent": 5.0, "certificate": "invented certificate 44"}),
)


def fill_shelf(workshop: Workshop) -> None:
    """Put the invented materials and lots on the shelf; the reference materials must be there."""
    Material.objects.bulk_create([*_colours(workshop), *_scents(workshop)])
    found = Material.objects.seen_by(workshop).in_bulk_by_key()
    Lot.objects.bulk_create(
        Lot(
            **{"bought_on": BOUGHT, **paper},
            workshop=workshop,
            material=found[key],
            code=code,
            supplier=supplier,
            received_g=grams,
        )
        for key, code, supplier, grams, paper in LOTS
    )


def _colours(workshop: Workshop) -> list[Material]:
    return [
        Material(
            workshop=workshop,
            kind=Material.Kind.COLOURANT,
            key=key,
            name=name,
            inci=inci,
            inci_us="Mica, with the pigments of its colour",
            ci_number=numbers,
            swatch=swatch,
            density_g_per_ml=density,
            source=SOURCE,
            confidence=Confidence.INVENTED,
        )
        for key, name, inci, numbers, swatch, density in COLOURS
    ]


def _scents(workshop: Workshop) -> list[Material]:
    return [
        Material(
            workshop=workshop,
            kind=Material.Kind.SCENT,
            key=key,
            name=name,
            inci="Parfum",
            inci_us="Fragrance",
            working_minutes=minutes,
            flash_point_c=flash,
            source=SOURCE,
            confidence=Confidence.INVENTED,
        )
        for key, name, minutes, flash in SCENTS
    ]
