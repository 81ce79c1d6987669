"""The runs of tests/vectors, each small enough to read."""

from dataclasses import replace

from soapbench.bars.formula import Additive, AlkaliChoice, LiquidLine, Portion, PourStage, Water
from soapbench.shelf.facts import MaterialFacts
from tests.bench.sample import FACTS, PLAIN, STAND_INS, SWIRLED, Hand, plan_of

THREE = replace(
    SWIRLED,
    portions=(*SWIRLED.portions, Portion("C", "Third", 1)),
    pour=(PourStage("layer", ("A",)), PourStage("side by side", ("B", "C"))),
)


def small(formula, **changes):
    """Return a plan without what a phone's fold never looks at."""
    plan = plan_of(formula, **changes)
    prompts = tuple(replace(prompt, detail="", cautions=(), ticks=prompt.ticks[:3]) for prompt in plan.prompts)
    return replace(plan, prompts=prompts, stand_ins={"lard": STAND_INS["lard"]}, drawings=(), emergency="")


def begun():
    hand = Hand(small(PLAIN))
    hand.tap("started", cautions_read=True)
    return hand


def fats_as_planned():
    return Hand(small(PLAIN)).start().until("weigh:water")


def fat_over():
    return Hand(small(PLAIN)).start().until("settle", **{"fat:coconut": 340})


def settled_for_the_fats():
    return Hand(small(PLAIN)).start().until("weigh:alkali:naoh", **{"fat:coconut": 340})


def settled_as_planned():
    hand = Hand(small(PLAIN)).start().until("settle", **{"fat:coconut": 270})
    hand.tap("settled", "settle", choice="planned")
    return hand


def weighed_twice():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive", **{"fat:palm": 280})
    hand.weigh("fat:palm", 300)
    return hand


def sent_twice():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive")
    hand.facts.append(hand.facts[-1])
    return hand


def taken_back():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive")
    hand.tap("took-back", event=hand.facts[-1].id)
    return hand


def lye_cooling():
    return Hand(small(SWIRLED)).start().until("read-lye")


def cooled_and_scented():
    return Hand(small(SWIRLED)).start().until("pour:1")


def another_lot_of_a_fat():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive")
    hand.weigh("fat:olive", 430, lot=14)
    return hand


def fat_replaced():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:palm")
    hand.tap(
        "changed", "weigh:fat:palm", what="substituted", why="none left", decision="lard", line="fat:palm",
        material="lard", lot=21,
    )  # fmt: skip
    return hand.until("weigh:water", **{"fat:palm": 380})


def weighed_in_parts():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive")
    hand.tap("part-weighed", "weigh:fat:olive", line="fat:olive", mass_g=250)
    hand.tap("part-weighed", "weigh:fat:olive", line="fat:olive", mass_g=100)
    hand.tap("took-back", event=hand.facts[-1].id)
    return hand


def batch_made_larger():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive", **{"fat:coconut": 340})
    hand.tap("remedied", "weigh:fat:olive", code="C7", decision="larger", adds=[["fat:palm", 40]], factor=340 / 300)
    hand.weigh("fat:palm", 40)
    return hand.until("weigh:water")


def less_of_another_fat():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:olive", **{"fat:coconut": 340})
    hand.tap("remedied", "weigh:fat:olive", code="C14", decision="less olive", adds=[["fat:olive", -40]])
    return hand.until("settle")


def part_of_the_lye_poured():
    hand = Hand(small(PLAIN)).start().until("settle", **{"fat:coconut": 270})
    hand.tap("settled", "settle", choice="planned")
    hand.until("pot-check")
    hand.tap("remedied", "pot-check", code="C3", decision="part", lye_share=0.964)
    return hand


def fat_added_to_the_batter():
    hand = Hand(small(PLAIN)).start().until("trace", **{"alkali:naoh": 153.6})
    hand.tap("remedied", "trace", code="C5", decision="add olive", adds=[["fat:olive", 78.1]])
    return hand


def fat_not_in_the_pot():
    hand = Hand(small(PLAIN)).start().until("pot-check")
    hand.tap("pot-checked", "pot-check", mass_g=700)
    hand.tap("remedied", "combine", code="C15-out", decision="no palm", adds=[["fat:palm", -300]])
    return hand


def pot_weighed_again():
    hand = Hand(small(PLAIN)).start().until("pot-check")
    hand.tap("pot-checked", "pot-check", mass_g=700)
    hand.tap("remedied", "combine", code="C15-in", decision="poured in")
    return hand


def lye_made_again():
    hand = Hand(small(PLAIN)).start().until("read-lye")
    hand.tap("changed", "read-lye", what="lost or spilt", why="spilt", decision="new lye", line="alkali:naoh")
    hand.tap("remedied", "read-lye", code="remake", decision="make the lye again")
    return hand


def alkali_weighed_again():
    hand = Hand(small(PLAIN)).start().until("alkali-into-water", **{"alkali:naoh": 150})
    hand.tap("remedied", "alkali-into-water", code="C1", decision="weigh it again")
    return hand


def scent_left_out():
    hand = Hand(small(SWIRLED)).start().until("weigh:scent:B:clove")
    hand.tap("changed", "weigh:scent:B:clove", what="left out", why="none left", decision="none", line="scent:B:clove")
    return hand.until("pour:1")


def larger_portion():
    hand = Hand(small(SWIRLED)).start().until("split:B")
    hand.tap("split", "split:B", portion="B", mass_g=600)
    return hand


def changed_ahead():
    """Changes written down at earlier prompts, each of which means something at a later one."""
    hand = Hand(small(SWIRLED)).start()
    hand.change("substituted", "materials", line="colourant:B:indigo", material="lard")
    hand.change("left out", "materials", line="scent:A:rosemary")
    hand.until("cool")
    hand.change("temperature off", "cool", temp_c=52, decision="Go on at this temperature.")
    hand.until("split:B")
    hand.change("thickened early", "split:B", portion="B", decision="Spoon it in")
    hand.change("lost or spilt", "split:B", mass_g=40)
    hand.change("left out", "split:B", portion="A")
    hand.change("amount off", "split:B", line="scent:B:clove", mass_g=4)
    hand.until("pour:1")
    hand.change("drawn differently", "pour:1", path="spiral", tool="skewer")
    return hand


def colour_left_out():
    hand = Hand(small(SWIRLED)).start()
    hand.change("left out", "materials", line="colourant:B:indigo")
    hand.change("lost or spilt", "materials", portion="B")
    return hand


def grams_follow_the_portion():
    formula = replace(SWIRLED, additives=(*SWIRLED.additives, Additive("ochre_grains", 9, "grams", "A")))
    hand = Hand(
        small(formula, facts={**FACTS, "ochre_grains": MaterialFacts("ochre_grains", "Ochre grains", "colourant")})
    )
    hand.start().until("split:B")
    hand.tap("split", "split:B", portion="B", mass_g=610)
    return hand


def batter_lost():
    hand = Hand(small(THREE)).start().until("split:B")
    hand.tap("changed", "split:B", what="lost or spilt", why="spilt", decision="go on", mass_g=90)
    hand.tap("split", "split:B", portion="B", mass_g=300)
    hand.tap("changed", "split:C", what="lost or spilt", why="spilt", decision="go on", mass_g=40, portion="B")
    return hand


def both_alkalis_and_an_acid():
    formula = replace(
        PLAIN,
        alkali=AlkaliChoice(0.7, 0.99, 0.9),
        additives=(Additive("citric", 1, "percent of fats"),),
        water=Water("percent of fats", 33),
        liquids=(LiquidLine("milk", 0.3, "fats"),),
    )
    return Hand(small(formula)).start().until("settle", **{"fat:olive": 450})


def on_hold_with_water_on():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:palm")
    hand.tap("paused", "weigh:fat:palm")
    hand.tap("rinsed", is_running=True, where="skin")
    hand.tap("noted", text="the door")
    return hand


def worked_on_after_a_pause():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:palm")
    hand.tap("paused", "weigh:fat:palm")
    hand.weigh("fat:palm")
    hand.tap("paused", "melt")
    hand.tap("rinsed", is_running=True)
    hand.tap("rinsed", is_running=False)
    hand.tap("resumed", "melt", checked="it is in")
    return hand


def scale_that_is_off():
    hand = Hand(small(PLAIN))
    hand.tap("started", cautions_read=True)
    hand.until("scale-check")
    hand.tap("scale-checked", "scale-check", known_g=200, read_g=200.3)
    return hand


def scale_just_right():
    hand = scale_that_is_off()
    hand.tap("scale-checked", "scale-check", known_g=200, read_g=200.2)
    return hand


def something_is_not_here():
    hand = Hand(small(SWIRLED))
    hand.tap("started", cautions_read=True)
    hand.tap("ticked", "materials", item="material:palm", is_here=False)
    hand.tap("ticked", "tools", item="tool:blender", is_here=False)
    hand.tap(
        "changed", "materials", what="substituted", why="none", decision="use it", line="fat:palm", material="lard"
    )
    hand.tap("changed", "tools", what="not at hand", why="none", decision="Whisk by hand", item="tool:blender")
    hand.tap("done", "materials", all_here=True)
    return hand


def nothing_drawn():
    hand = Hand(small(SWIRLED))
    hand.tap("started", cautions_read=True)
    hand.tap("changed", "tools-shape", what="drawn differently", why="lent", decision="none", path="none")
    return hand.until("cover")


def put_off():
    hand = scale_just_right()
    hand.tap("postponed", "room", why="A visitor came.", until="tomorrow")
    return hand


def soft_loaf_without_gel():
    hand = Hand(small(PLAIN)).start().until("rest")
    hand.tap("looked", "rest", gel="no")
    hand.wait(hours=5)
    hand.tap("looked", "rest", gel="no")
    hand.wait(hours=44)
    hand.tap("done", "rest")
    hand.tap("firmness-checked", "firm", is_firm=False)
    return hand


def gelled_and_firm():
    hand = Hand(small(SWIRLED)).start().until("look")
    hand.tap("looked", "look", gel="yes")
    hand.wait(hours=13)
    return hand.until("unmould")


def two_phones(theirs):
    """Return a hand at the coconut oil, weighed on two phones before either had heard of the other."""
    hand = Hand(small(PLAIN)).start().until("weigh:fat:coconut")
    seen = len(hand.facts)
    hand.at("Ada", "phone a", seen).weigh("fat:coconut", 300)
    hand.at("Tobit", "phone b", seen).weigh("fat:coconut", theirs)
    return hand


def answered_twice():
    return two_phones(340).at("Ada", "phone a").until("weigh:water")


def answered_twice_alike():
    return two_phones(300.1).at("Ada", "phone a").until("weigh:water")


def both_weights_true():
    hand = two_phones(340).at("Tobit", "phone b")
    ids = [fact.id for fact in hand.facts[-2:]]
    hand.tap("decided", "weigh:fat:coconut", events=ids, counts=ids)
    return hand.until("settle")


def alkali_answered_twice():
    hand = Hand(small(PLAIN)).start().until("weigh:alkali:naoh")
    seen = len(hand.facts)
    hand.at("Ada", "phone a", seen).weigh("alkali:naoh", 150)
    hand.at("Tobit", "phone b", seen).weigh("alkali:naoh", 140)
    return hand.at("Ada", "phone a")


def in_two_hands():
    hand = Hand(small(PLAIN)).start().until("weigh:fat:coconut").at("Tobit", "phone b")
    hand.tap("taken-in-hand", "weigh:fat:olive")
    seen = len(hand.facts) - 1
    hand.at("Ada", "phone a", seen).tap("taken-in-hand", "weigh:fat:olive")
    hand.at("Ada", "phone a").tap("taken-in-hand", "melt", to="Nell")
    hand.tap("taken-in-hand", "weigh:fat:coconut")
    weighed = hand.weigh("fat:coconut")
    hand.tap("credited", "weigh:fat:coconut", event=weighed, by="Nell")
    return hand


CASES = (
    answered_twice,
    answered_twice_alike,
    both_weights_true,
    alkali_answered_twice,
    in_two_hands,
    soft_loaf_without_gel,
    gelled_and_firm,
    on_hold_with_water_on,
    worked_on_after_a_pause,
    scale_that_is_off,
    scale_just_right,
    something_is_not_here,
    nothing_drawn,
    put_off,
    begun,
    fats_as_planned,
    fat_over,
    settled_for_the_fats,
    settled_as_planned,
    weighed_twice,
    sent_twice,
    taken_back,
    lye_cooling,
    cooled_and_scented,
    another_lot_of_a_fat,
    fat_replaced,
    weighed_in_parts,
    batch_made_larger,
    less_of_another_fat,
    part_of_the_lye_poured,
    fat_added_to_the_batter,
    fat_not_in_the_pot,
    pot_weighed_again,
    lye_made_again,
    alkali_weighed_again,
    scent_left_out,
    larger_portion,
    changed_ahead,
    colour_left_out,
    grams_follow_the_portion,
    batter_lost,
    both_alkalis_and_an_acid,
)
