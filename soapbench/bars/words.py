"""The words in which the choices of a formula are offered and told."""

from __future__ import annotations

from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from soapbench.bars.amount import ALL
from soapbench.bars.formula import LETTERS

FATS_BY = (("percent", _("in per cent of the fats")), ("mass", _("in grams, as in my notes")))
SHARES_BY = (("mole", _("by mole")), ("mass", _("by mass")))
WATER_BY = (
    ("lye concentration", _("strength of the lye, %")),
    ("water to alkali ratio", _("grams of water for 1 g of alkali")),
    ("percent of fats", _("per cent of the fats")),
)
GOES_INTO = (("fats", _("into the fats")), ("lye", _("into the lye")))
BASIS = (
    ("percent of fats", _("% of the fats")),
    ("percent of batter", _("% of the batter")),
    ("grams per kg of fats", _("g per kg of fats")),
    ("grams", _("g in all")),
)
GOES_TO = (
    (ALL, _("the whole batter")),
    *((letter, format_lazy(_("portion {letter}"), letter=letter)) for letter in LETTERS),
)
TEXTURE = (
    ("plain", _("plain")),
    ("hatched", _("hatched")),
    ("dotted", _("dotted")),
    ("crossed", _("crossed")),
    ("waved", _("waved")),
    ("striped", _("striped")),
    ("ringed", _("ringed")),
    ("checked", _("checked")),
)
POUR_WAY = (
    ("layer", _("a level layer")),
    ("side by side", _("side by side")),
    ("down the middle", _("a stream down the middle")),
    ("drops", _("drops")),
    ("in the pot", _("into each other in the pot")),
    ("against the walls", _("against the walls")),
    ("rings", _("rings from one spot")),
)
PATH = (
    ("none", _("no drawing")),
    ("zigzag", _("zigzag across")),
    ("lengthwise zigzag", _("zigzag along the loaf")),
    ("figure eights", _("figure eights")),
    ("spiral", _("spiral")),
    ("s curve", _("s curve")),
    ("round the edge", _("round the edge")),
    ("lifted loops", _("lifted loops")),
    ("down and up", _("down and up")),
)
CUT_WAY = (
    ("slices", _("slices")),
    ("blocks on their sides", _("blocks on their sides")),
    ("long planks", _("long planks")),
    ("rounds", _("rounds")),
    ("cavities", _("single bars, not cut")),
)
TRACE = (
    ("emulsion", _("emulsion")),
    ("thin", _("thin trace")),
    ("medium", _("medium trace")),
    ("thick", _("thick trace")),
)

SAID = {
    key: word
    for group in (SHARES_BY, GOES_INTO, BASIS, GOES_TO, TEXTURE, POUR_WAY, PATH, CUT_WAY, TRACE)
    for key, word in group
}
