"""Acids in a formula: the alkali that each takes, the salt that it becomes, and the other form of citric acid."""

from __future__ import annotations

from collections.abc import Iterator

from soapbench.bars.amounts import Amounts, science_alkali
from soapbench.bars.finding import Field, Findings, attention, good
from soapbench.bars.formula import Formula
from soapbench.bars.to_science import Facts, science_acid, science_fat
from soapbench.science.acids import CitricForm, citric_acid, salt_made_g
from soapbench.science.alkali import Alkali, alkali_mixture
from soapbench.science.words import say
from soapbench.shelf.acids import CITRIC, KINDS, other_form, strength
from soapbench.shelf.facts import MaterialFacts

FORMS: dict[str, CitricForm] = dict(zip(CITRIC, ("anhydrous", "monohydrate"), strict=True))
# What an acid becomes with an alkali, after the name of the metal.
SALTS = {
    "citric anhydrous": "citrate, which binds lime (a chelate)",
    "citric monohydrate": "citrate, which binds lime (a chelate)",
    "lactic": "lactate",
    "acetic": "acetate",
    "stearic": "stearate, a soap",
    "palmitic": "palmitate, a soap",
    "myristic": "myristate, a soap",
    "lauric": "laurate, a soap",
    "oleic": "oleate, a soap",
}


def acid_findings(formula: Formula, facts: Facts, made: Amounts) -> Findings:
    """Yield a sentence for each acid, free fatty acids included."""
    alkali = science_alkali(formula, facts)
    for key, mass_g, mol in _acids(facts, made):
        field: Field = "fats" if facts[key].kind == "fat" else "additives"
        sentences = [_taken_words(facts[key], mass_g, mol, alkali)]
        if key in FORMS:
            sentences.append(_other_words(key, mass_g, alkali))
        yield good("acid", " ".join(sentences), field)
        yield from _jar(facts, key)


def _acids(facts: Facts, made: Amounts) -> Iterator[tuple[str, float, float]]:
    """Yield key, grams and moles of alkali taken; one line of each acid, however many portions get it."""
    masses: dict[str, float] = {}
    for line in made.additives:
        masses[line.material] = masses.get(line.material, 0.0) + line.mass_g
    for key, mass_g in masses.items():
        acid = science_acid(key, mass_g, facts)
        if acid and mass_g > 0:
            yield key, mass_g, acid.mol
    for key, mass_g in made.fat_masses.items():
        fat = science_fat(key, mass_g, facts)
        if fat.kind == "fatty acid" and mass_g > 0:
            yield key, mass_g, fat.mol


def _taken_words(fact: MaterialFacts, mass_g: float, mol: float, alkali: Alkali) -> str:
    taken = say(
        "{name}: {mass:.4g} g takes {alkali_words}",
        name=fact.name,
        mass=mass_g,
        alkali_words=_alkali_words(mol, alkali),
    )
    kind = KINDS.get(fact.key)
    if kind is None:
        return f"{taken}."
    share = 1.0 if fact.kind == "fat" else strength(kind, fact.takes_koh_mg_per_g)
    salt = salt_made_g(kind, mass_g, share, alkali.naoh_mole_share)
    return say(
        "{taken} and becomes {salt:.3g} g of {metal} {SALTS}.",
        taken=taken,
        salt=salt,
        metal=_metal(alkali),
        SALTS=SALTS[kind],
    )


def _alkali_words(mol: float, alkali: Alkali) -> str:
    mass = alkali_mixture(mol, alkali)
    jars = ((mass.naoh_g, "sodium"), (mass.koh_g, "potassium"))
    return " and ".join(
        say("{grams:.3g} g of {metal} hydroxide", grams=grams, metal=metal) for grams, metal in jars if grams > 0
    )


def _metal(alkali: Alkali) -> str:
    share = alkali.naoh_mole_share
    return {0.0: "potassium", 1.0: "sodium"}.get(share, "sodium and potassium")


def _other_words(key: str, mass_g: float, alkali: Alkali) -> str:
    """Return what it would mean that the jar holds the other form."""
    other = other_form(key)
    assert other is not None
    mol, other_mol = (citric_acid(mass_g, FORMS[form]).mol for form in (key, other))
    taken, wrong = alkali_mixture(other_mol, alkali).total_g, alkali_mixture(abs(mol - other_mol), alkali).total_g
    what = "too much alkali in the pot" if mol > other_mol else "alkali missing, so more superfat"
    return say(
        "If the jar says {FORMS}, it takes {taken:.3g} g: that is {wrong:.2g} g {what}. Read the jar.",
        FORMS=FORMS[other],
        taken=taken,
        wrong=wrong,
        what=what,
    )


def _jar(facts: Facts, key: str) -> Findings:
    """Yield a warning where the shelf holds only the form that the formula does not count on."""
    other = facts.get(other_form(key) or "")
    if other and other.left_g and not facts[key].left_g:
        sentence = say(
            "The jar on the shelf is {name!l} (lot {lot_code}); this formula counts on",
            name=other.name,
            lot_code=other.lot_code,
        )
        yield attention(
            "acid-form",
            say("{sentence} {name!l}. Choose the form of your jar.", sentence=sentence, name=facts[key].name),
            "additives",
        )
