"""What stands in for a tool that is not here, and what to mind. Common practice, no source."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

Pairs = tuple[tuple[str | Promise, str | Promise], ...]

STAND_INS: dict[str, Pairs] = {
    "thermometer": ((_("An oven or meat thermometer of steel"), _("Try it in ice water first: it must show 0 °C.")),),
    "blender": (
        (_("Whisk by hand"), _("Trace takes far longer. Keep the pots in the upper half of the window.")),
        (_("A spare blender"), _("Try it now, before anything is warm.")),
    ),
    "spatula": ((_("A spoon of silicone or steel"), _("No aluminium, no wood that goes back to the kitchen.")),),
    "jug": (
        (_("Another jug of polypropylene (5) or HDPE (2)"), _("Twice as large as the lye, marked LYE. Never glass.")),
        (_("A pot of stainless steel"), _("Never aluminium: lye eats it and gives off gas that burns.")),
    ),
    "pot": ((_("Another pot of steel, or a bucket of HDPE (2)"), _("Weigh it empty first. No aluminium, no tin.")),),
    "mould": (
        (_("A carton or box lined with baking paper"), _("Of about the same size. A taller loaf heats more.")),
        (_("Several small moulds"), _("They cool sooner and gel less; the cut changes.")),
    ),
    "cups": (
        (_("Jars of glass, steel or polypropylene (5)"), _("No foam, no thin plastic: scent oil eats through it.")),
    ),
    "divider": (
        (_("Stiff card cut to fit the mould"), _("Try it dry first. It comes out straight up, at once.")),
        (_("Pour without it, slowly, from both sides"), _("The line between the colours will be soft.")),
    ),
    "cutter": (
        (_("A straight knife and a ruler"), _("Needed only when the loaf is firm. Bars differ more in weight.")),
        (_("It will be here by the cut"), _("The loaf waits a day or two, no longer: it gets too hard.")),
    ),
    "oven": ((_("Wrap the loaf in towels instead"), _("It may gel only in the middle: a ring may show.")),),
}
TIME_WAYS: Pairs = (
    (_("Somebody else takes over"), _("From the alkali to the mould there is no long break.")),
    (_("The appointment can wait"), _("From the alkali to the mould there is no long break.")),
)
