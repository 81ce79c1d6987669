"""A formula's materials as the sums want them: fats, alkali, acids, shares, densities."""

from __future__ import annotations

from collections.abc import Mapping

from soapbench.bars.formula import AlkaliChoice, Formula, FormulaError
from soapbench.science.alkali import Acid, Alkali, Fat
from soapbench.science.lye import Solute
from soapbench.science.words import say
from soapbench.shelf import alkalis
from soapbench.shelf.facts import MaterialFacts

NAOH = alkalis.NAOH
KOH = alkalis.KOH
WATER = "water"
# Density of melted fats near 40 °C where the shelf knows none; common practice, no source.
USUAL_FAT_DENSITY = 0.92

Facts = Mapping[str, MaterialFacts]


def known(facts: Facts, key: str) -> MaterialFacts:
    """Return what the shelf knows of a material.

    Raises:
        FormulaError: nothing.
    """
    if key not in facts:
        raise FormulaError(
            say("Nothing is known of “{key}”. Put it on the shelf, or choose another material.", key=key)
        )
    return facts[key]


def science_fat(key: str, mass_g: float, facts: Facts) -> Fat:
    """Return a mass of one fat for the sums, the lot's own value applied.

    Raises:
        FormulaError: the material is unknown or no fat.
        OutOfRange: its saponification value cannot be right.
    """
    fact = known(facts, key)
    if fact.kind != "fat":
        raise FormulaError(say("{name} is no fat. Take it out of the fats.", name=fact.name))
    kind = fact.fat_kind or "triglyceride"
    return Fat(fact.name, mass_g, fact.sv_low, fact.sv_high, fact.sv_own, kind, lot=fact.lot_code)  # type: ignore[arg-type]  # the shelf's column has the same choices


def science_fats(masses: Mapping[str, float], facts: Facts) -> tuple[Fat, ...]:
    """Return the fats for the sums from grams by material key, planned or as weighed.

    Raises:
        FormulaError: a material is unknown or no fat.
        OutOfRange: a negative mass, or a saponification value that cannot be right.
    """
    return tuple(science_fat(key, mass, facts) for key, mass in masses.items())


def science_alkali(choice: AlkaliChoice | Formula, facts: Facts | None = None) -> Alkali:
    """Return the alkali for the sums; the purity on the paper of the jar in use wins over the formula's.

    Raises:
        OutOfRange: a share or a purity outside 0 to 1.
    """
    alkali = choice.alkali if isinstance(choice, Formula) else choice
    return Alkali(
        naoh_share=alkali.naoh_share,
        naoh_purity=_purity(facts, NAOH) or alkali.naoh_purity,
        koh_purity=_purity(facts, KOH) or alkali.koh_purity,
        shares_by=alkali.shares_by,
        naoh_assayed=_is_assayed(facts, NAOH),
        koh_assayed=_is_assayed(facts, KOH),
    )


def _purity(facts: Facts | None, key: str) -> float | None:
    # Only a lot has a paper; the reference's own figure is no better than the formula's.
    fact = (facts or {}).get(key)
    return fact.purity if fact and fact.lot is not None else None


def _is_assayed(facts: Facts | None, key: str) -> bool:
    fact = (facts or {}).get(key)
    return fact is not None and fact.purity_is_stated


def science_acid(key: str, mass_g: float, facts: Facts) -> Acid | None:
    """Return the acid for the sums, or None when this material takes no alkali."""
    fact = known(facts, key)
    return Acid(fact.name, mass_g, fact.takes_koh_mg_per_g) if fact.takes_koh_mg_per_g > 0 else None


def solute_of(formula: Formula) -> Solute:
    """Return the alkali whose lye the mixture resembles most; the two differ little in volume."""
    return "NaOH" if science_alkali(formula).naoh_mole_share >= 0.5 else "KOH"


def fat_density(fact: MaterialFacts) -> float:
    """Return the density of a melted fat, g/ml."""
    return fact.density_g_per_ml or USUAL_FAT_DENSITY


def portion_shares(formula: Formula) -> dict[str, float]:
    """Return each portion's share of the batter by letter; together they make 1.

    Raises:
        FormulaError: there is no portion, or the parts are not above 0.
    """
    total = sum(portion.parts for portion in formula.portions)
    if not formula.portions or total <= 0 or any(portion.parts < 0 for portion in formula.portions):
        raise FormulaError(say("Give the batter at least one portion, with parts above 0."))
    return {portion.letter: portion.parts / total for portion in formula.portions}
