"""The cautions, each shown with the prompt where it matters.

Hazard, consequence, avoidance, in at most twenty words. DANGER, the word on the jar of the alkali, is kept for raw lye
alone; WARNING for what could hurt badly, CAUTION for what could hurt a little (the words of ANSI Z535).
What they say rests on published safety sheets of the two alkalis; the sheet of the jar in hand comes first.
"""

from __future__ import annotations

from soapbench.bench.plan import Caution
from soapbench.science.words import mark

DRY_ALKALI = Caution(
    "dry-alkali",
    "DANGER",
    mark("Caustic: burns skin, can blind. Goggles and gloves on. Keep it dry and off aluminium."),
)
ONE_WAY = Caution(
    "one-way", "DANGER", mark("Heats by itself, can spit and blind. Alkali into cold water, slowly. Never the reverse.")
)
HOT_LYE = Caution("hot-lye", "DANGER", mark("Hot lye burns and blinds. Keep it covered, marked LYE, and out of reach."))
LYE_POUR = Caution("lye-pour", "DANGER", mark("Splashing lye can blind. Pour it low and slowly into the fats."))
FIRST_AID = Caution(
    "first-aid", "WARNING", mark("Splashed? Rinse under running water at once, 30 minutes, and ring. No vinegar.")
)
GEAR = Caution(
    "gear", "WARNING", mark("Raw lye and raw batter burn. Goggles and gloves stay on until the bench is clean.")
)
LIQUID_LYE = Caution(
    "liquid-lye", "WARNING", mark("Milk and sugar heat fast in lye and can boil over. Use them frozen, in small parts.")
)
HOT_FAT = Caution("hot-fat", "CAUTION", mark("Hot fat burns. Stay with the pot while it is on the heat."))
RAW_BATTER = Caution(
    "raw-batter", "WARNING", mark("Raw batter burns skin and eyes. Blender off before it leaves the batter. Gloves on.")
)
BATTER_OUT = Caution("batter-out", "WARNING", mark("Raw batter burns skin and eyes. Gloves on."))
POWDER = Caution("powder", "CAUTION", mark("Fine powder irritates the lungs. Spoon it low, keep your face away."))
SCENT = Caution("scent", "CAUTION", mark("Undiluted scent irritates skin and eyes. Gloves on, no flame near."))
OVEN = Caution("oven", "WARNING", mark("Raw batter can swell and run over in the oven. Stay near, tray underneath."))
RINSE = Caution(
    "rinse", "WARNING", mark("Lye rests burn, even in the rinse water. Gloves and goggles on to the last cup.")
)
YOUNG_SOAP = Caution("young-soap", "CAUTION", mark("Young soap still irritates skin. Keep gloves on."))
BLADE = Caution("blade", "CAUTION", mark("Blade or wire cuts. Push away from your hand."))
NO_TONGUE = Caution(
    "no-tongue", "CAUTION", mark("Never test soap on the tongue: it may burn. Use an indicator or a meter.")
)
SHEET = Caution(
    "sheet", "Note", mark("The safety sheet of your alkali and the rules where you live come before this app.")
)
