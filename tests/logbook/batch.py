"""A batch in which things happen, and its record from plain data alone."""

from soapbench.logbook.given import Given
from soapbench.logbook.record import make_record
from tests.bench.sample import SWIRLED, hand

NOTE = "Ёлка, ελιά, naïve: the room smelt of olives."


def eventful(hand):
    """Play a run with a weight taken back, readings, a remark, another drawing, weighings, a test and a release."""
    hand.start().until("melt")
    fat = hand.plan.in_group("fat")[0].key
    hand.tap("took-back", event=hand.weigh(fat, 99.0))
    hand.until("cool")
    for minutes, lye, fats in ((5, 78, 58), (15, 61, 51), (15, 49, 45), (15, 41, 40)):
        hand.wait(minutes=minutes)
        hand.tap("read", "cool", pot="lye", temp_c=lye)
        hand.tap("read", "cool", pot="fats", temp_c=fats)
    hand.tap("noted", text=NOTE)
    hand.until("draw")
    why, decision = "The tool was not at hand.", "Keep it and cut to suit."
    hand.tap("changed", "draw", what="drawn differently", why=why, decision=decision, path="spiral", tool="skewer")
    hand.until("cut").wait(hours=26)
    hand.until("cure")
    for days, mass in ((0, 390), (7, 372), (7, 364), (14, 357)):
        hand.wait(days=days)
        hand.tap("cure-weighed", "cure", bars=3, mass_g=mass)
    hand.until("")
    return hand


def played_record():
    """Return the record of such a batch, without a database."""
    played = eventful(hand(SWIRLED))
    return make_record(
        Given(
            id="an-id",
            code="20261125-IB-1",
            made_at=played.now,
            made_by="Ada",
            status_word="released",
            plan=played.plan,
            state=played.state,
            facts=tuple(played.facts),
            head_digest="ab" * 32,
        )
    )
