"""The five forcing functions of the bench: what no tap gets past. There is no sixth; all else is only said.

1. Nothing caustic starts before everything that the run needs is at hand or dealt with.
2. The lye stays locked until every fat is weighed, or left out with a reason.
3. The alkali's name is chosen at its own prompt, as read on the jar.
4. A pour asks for every scent and colour that nobody has written down as in.
5. A batch does not close while lye that was made is unaccounted for.
"""

from __future__ import annotations

from collections.abc import Callable

from soapbench.bars.to_science import NAOH
from soapbench.bench.folding.book import CLEAN, LYE, SCALE_CHECK
from soapbench.bench.folding.unrecorded import not_in_yet
from soapbench.bench.kinds import Changed, Done, PartWeighed, Rejected, Released, Stopped, Weighed
from soapbench.bench.plan import Line
from soapbench.bench.refusal import Refused
from soapbench.bench.rules.words import Asked
from soapbench.bench.safety import is_lye_unaccounted
from soapbench.bench.words import listed
from soapbench.science.words import mark, say

MOST_NAMED = 3
LYE_AWAY = "clean:lye"
JARS = {"NaOH": mark("NaOH, sodium hydroxide"), "KOH": mark("KOH, potassium hydroxide")}


def at_hand_before_lye(asked: Asked) -> None:
    """Refuse weighing alkali and making lye before every item of the gate is at hand or dealt with."""
    if not _touches_lye(asked):
        return
    missing = asked.not_at_hand
    if SCALE_CHECK in asked.book.prompts and SCALE_CHECK not in asked.state.done:
        missing = [say("the scale, tried with a known mass"), *missing]
    if missing:
        raise Refused(say("Nothing caustic yet. Still open: {few}.", few=_few(missing)))


def _few(names: list[str]) -> str:
    more = len(names) - MOST_NAMED
    return listed(names) if more <= 0 else listed([*names[:MOST_NAMED], say("{more} more", more=more)])


def fats_before_lye(asked: Asked) -> None:
    """Refuse weighing alkali and making lye before every fat is in the pot or left out, and the alkali fits them."""
    if not _touches_lye(asked):
        return
    fats = asked.missing("fat")
    if fats:
        raise Refused(say("First weigh every fat, or say that it is left out: {fats}.", fats=listed(fats)), "line")
    settlement = asked.state.settlement
    is_weighed = any(line.key in asked.state.weights for line in asked.book.plan.in_group("alkali"))
    if settlement is not None and settlement.is_needed and not settlement.choice and not is_weighed:
        raise Refused(say("The fats came out differently. First choose which alkali to weigh."), "choice")


def _touches_lye(asked: Asked) -> bool:
    if isinstance(asked.payload, Done):
        return asked.prompt_key == LYE
    return _alkali(asked) is not None


def _alkali(asked: Asked) -> Line | None:
    """Return the line of alkali that is weighed, whole or in part, or whose amount is set right; None otherwise."""
    payload = asked.payload
    is_amount = isinstance(payload, Changed) and payload.what == "amount off"
    if not (isinstance(payload, Weighed | PartWeighed) or is_amount):
        return None
    line = asked.book.lines.get(payload.line)  # type: ignore[union-attr]  # one of those above
    return line if line is not None and line.group == "alkali" else None


def jar_is_named(asked: Asked) -> None:
    """Refuse a weight of alkali without the name on its jar, or with the other one."""
    line = _alkali(asked)
    if line is None:
        return
    if isinstance(asked.payload, Changed):
        if line.key not in asked.state.weights:
            raise Refused(say("First weigh the alkali at its own step, and say what its jar says."), "line")
        return
    wanted, jar = jar_of(line), getattr(asked.payload, "jar", "")
    if not jar:
        raise Refused(say("First read the jar: NaOH or KOH?"), "jar")
    if jar != wanted:
        raise Refused(
            say(
                "This step takes {wanted}. The jar says {jar}. Shut it and put it back.",
                wanted=say(JARS[wanted]),
                jar=say(JARS[jar]),
            ),
            "jar",
        )


def jar_of(line: Line) -> str:
    """Return what the jar of a line of alkali must say."""
    return "NaOH" if line.material == NAOH else "KOH"


def all_in_before_pour(asked: Asked) -> None:
    """Refuse a pour while a scent, a colour or another addition of its portions is neither in nor left out."""
    prompt = asked.prompt
    if not isinstance(asked.payload, Done) or prompt is None or prompt.kind != "pour" or not asked.state.is_combined:
        return
    names = [each.words for each in not_in_yet(asked.book.plan, asked.state, prompt)]
    if names:
        raise Refused(say("Not in yet: {names}. Add it, leave it out, or say that it is in.", names=listed(names)))


def lye_is_accounted_for(asked: Asked) -> None:
    """Refuse to close a batch whose lye was made, and of which nobody says where it went."""
    payload, state = asked.payload, asked.state
    if not state.lye_made:
        return
    if isinstance(payload, Stopped) and is_lye_unaccounted(state) and not payload.lye:
        raise Refused(say("Lye was made for this batch. Say where it is now, then stop."), "lye")
    if isinstance(payload, Released | Rejected) and (not state.is_combined or _is_left_standing(asked)):
        raise Refused(say("Lye was made, and nobody says that none is left. Tick it at the clean-up first."))


def _is_left_standing(asked: Asked) -> bool:
    clean = asked.book.prompts.get(CLEAN)
    return clean is not None and LYE_AWAY in asked.book.ticks and not asked.state.ticked.get(LYE_AWAY)


FORCING: dict[str, Callable[[Asked], None]] = {
    "everything at hand before lye": at_hand_before_lye,
    "every fat before lye": fats_before_lye,
    "the alkali named as on its jar": jar_is_named,
    "every scent and colour before the pour": all_in_before_pour,
    "no end with lye unaccounted for": lye_is_accounted_for,
}
