"""The demo's four bars, of our own invention, in a workshop of our own invention."""

from __future__ import annotations

from django.db import transaction

from soapbench.bars.formula import (
    Additive,
    Cut,
    Drawing,
    FatLine,
    Formula,
    LiquidLine,
    Portion,
    PourStage,
    Process,
    Water,
)
from soapbench.bars.revising import make_bar
from soapbench.shelf.demo import fill_shelf
from soapbench.workshop.demo import NAME, make_workshop, take_on
from soapbench.workshop.models import Workshop

EBB_LINE = Formula(
    fats=(
        FatLine("olive", 42),
        FatLine("coconut", 24),
        FatLine("sunflower_high_oleic", 18),
        FatLine("cocoa_butter", 10),
        FatLine("castor", 6),
    ),
    water=Water("lye concentration", 0.33),
    portions=(
        Portion("A", "Foam", 4, "#f3efe4", "plain"),
        Portion("B", "Fathom", 3, "#234b7d", "hatched"),
        Portion("C", "Kelp", 2, "#4a6b45", "waved"),
        Portion("D", "Ember", 1, "#b4573a", "dotted"),
    ),
    additives=(
        Additive("titanium_dioxide", 8, "grams per kg of fats", "A", "sunflower_high_oleic", 1),
        Additive("fathom_mica", 12, "grams per kg of fats", "B", "sunflower_high_oleic", 1),
        Additive("kelp_mica", 12, "grams per kg of fats", "C", "sunflower_high_oleic", 1),
        Additive("ember_mica", 20, "grams per kg of fats", "D", "sunflower_high_oleic", 1),
        Additive("shingle_scent", 3, "percent of fats", "A"),
        Additive("shingle_scent", 3, "percent of fats", "B"),
        Additive("fig_shade_scent", 2, "percent of fats", "C"),
    ),
    pour=(
        PourStage("layer", ("A",), 0.5, 40, "A bed of foam."),
        PourStage("side by side", ("B", "C"), 0.5, 60, "From both ends at once."),
        PourStage("layer", ("A",), 0.5, 60, "Over a spatula, so that it lies on top."),
        PourStage("side by side", ("B", "C"), 0.5, 60),
        PourStage("drops", ("D",), 1.0, 100, "A line of drops along the middle."),
    ),
    drawing=Drawing("lifted loops", "hanger", 5, 20, "End where you began, then lift it straight out."),
    cut=Cut("slices", 25, 3, "wire-cutter"),
    mould="long-loaf",
)
DOORSTEP = Formula(
    fats=(FatLine("olive", 45), FatLine("coconut", 25), FatLine("rapeseed_low_erucic", 22), FatLine("shea", 8)),
    portions=(Portion("A", "Whole", 1, "#e8dfc9", "plain"),),
    additives=(
        Additive("kaolin", 1, "percent of fats", "all", "olive", 2),
        Additive("citric_acid_monohydrate", 10, "grams per kg of fats", "all"),
    ),
    pour=(PourStage("layer", ("A",)),),
    process=Process(trace="medium"),
    cut=Cut("slices", 25, 3, "wire-cutter"),
    mould="long-loaf",
)
LONG_PATIENCE = Formula(
    fats=(FatLine("olive", 100),),
    water=Water("lye concentration", 0.38),
    portions=(Portion("A", "Whole", 1, "#d9d3a3", "striped"),),
    pour=(PourStage("layer", ("A",)),),
    process=Process(trace="medium", insulated=True, unmould_hours=48, cut_hours=48, cure_days=180),
    cut=Cut("rounds", 28, 4, "wire-cutter"),
    mould="tube",
)
BYRE_GATE = Formula(
    fats=(
        FatLine("olive", 48),
        FatLine("coconut", 22),
        FatLine("cocoa_butter", 15),
        FatLine("rapeseed_low_erucic", 15),
    ),
    superfat=0.06,
    water=Water("lye concentration", 0.31),
    liquids=(LiquidLine("goat_milk", 0.4, "fats"),),
    portions=(Portion("A", "Whole", 1, "#e2cfa8", "ringed"),),
    additives=(
        Additive("honey", 5, "grams per kg of fats", "all"),
        Additive("lavender_oil", 2, "percent of fats", "all"),
    ),
    pour=(PourStage("layer", ("A",)),),
    process=Process(fats_c=33, mix_low_c=27, mix_high_c=35, insulated=False, unmould_hours=48),
    cut=Cut("cavities", 25, 0),
    mould="nine-cavities",
)
BARS = (
    ("Ebb Line", "Four portions, two scents, drawn once with the hanger.", EBB_LINE),
    ("Doorstep", "Plain, with white clay and citric acid against lime. The bar that pays the rent.", DOORSTEP),
    ("Long Patience", "Nothing but olive. Half a year on the rack.", LONG_PATIENCE),
    ("Byre Gate", "Goat milk and a little honey. Kept cool.", BYRE_GATE),
)


@transaction.atomic
def load() -> Workshop | None:
    """Make the invented workshop with all that is in it; None where it stands already."""
    if Workshop.objects.filter(name=NAME, is_invented=True).exists():
        return None
    workshop = make_workshop()
    owner = take_on(workshop, "ada", "Ada", "Quillfeather", is_owner=True)
    take_on(workshop, "tobit", "Tobit", "Marl")
    fill_shelf(workshop)
    for name, description, formula in BARS:
        make_bar(workshop=workshop, name=name, formula=formula, by=owner, description=description, invented=True)
    return workshop
