"""Sensible calls of the drawn loaf's sums; what is made of points and pictures is handed over whole."""

from typing import Any

import numpy as np

from soapbench.science.cut import CutPlan
from soapbench.science.mould import Mould
from soapbench.science.pattern.draw import Drawn, Twist
from soapbench.science.pattern.face import Plane
from soapbench.science.pattern.plans import offers
from soapbench.science.pattern.pool import Box, Bump, Columns, Lens, Pool
from soapbench.science.pattern.tools import Tool
from soapbench.science.strokes import Stroke
from tests.science.ingredients import BOX as MOULD
from tests.science.ingredients import ROOM, SLICES, STAGES, Choice, made

LONG = Box(240.0, 84.0)
POINTS = np.array([20.0, 50.0, 120.0])
TWISTS = (Twist(40.0, 40.0, 0.3, 20.0), Twist(44.0, 40.0, -0.3, 20.0))
STROKE = Drawn("z", ((30.0, 40.0), (70.0, 40.0)), 4.0, 5.0, 10.0)
LENS = Lens(80_000.0, 1, ((Bump(), Bump(42.0, 30.0)),), 0.0)
POOL = Pool(LONG, (Columns(1_290_240.0, ((0, 645_120.0), (1, 645_120.0))),))
FACE = np.tile(np.repeat(np.array([0, 1], dtype=np.int8), 8), (12, 1))
OFFERS = offers(Mould("slab", 60.0, 48.0, 40.0), 30.0, CutPlan("slices", 25.0, 3.0), 1.03)
SMALL = Pool(Box(60.0, 48.0), (Columns(86_400.0, ((0, 43_200.0), (1, 43_200.0))),))
PATH = (made(Stroke, points=((30.0, 40.0), (70.0, 40.0)), view="top", depth_mm=60.0),)
THIN = made(Drawn, axis="z", corners=((30.0, 40.0), (34.0, 40.0)), diameter_mm=4.0, reach_mm=5.0)

CALLS: dict[str, dict[str, Any]] = {
    "pattern.draw.reach_mm": {"trace": Choice("medium"), "diameter_mm": 4.0},
    "pattern.draw.twists_of": {"stroke": THIN, "wall": lambda u, v: 30.0},
    "pattern.draw.draw": {"twists": TWISTS, "reach": 5.0, "u": POINTS, "v": POINTS},
    "pattern.draw.undo": {"twists": TWISTS, "reach": 5.0, "u": POINTS, "v": POINTS},
    "pattern.draw.fade_of": {"stroke": STROKE, "w": POINTS},
    "pattern.face.walls_of": {"box": LONG, "height": 64.0, "axis": "z"},
    "pattern.face.label_face": {
        "plane": made(Plane, normal="z", at=30.0, left=0.0, right=48.0, bottom=0.0, top=42.0),
        "pixel": 2.0,
        "pool": POOL,
        "strokes": (STROKE,),
    },
    "pattern.pool.thickness": {"stage": LENS, "box": LONG, "x": POINTS, "y": POINTS / 2},
    "pattern.pool.before_lens": {
        "stage": LENS,
        "box": LONG,
        "at": (POINTS, POINTS / 2, POINTS / 3),
        "low": 40.0,
        "high": 44.0,
    },
    "pattern.pool.lens_fits": {"stage": LENS, "box": LONG, "low": 40.0},
    "pattern.pool.volumes": {"stages": POOL.stages},
    "pattern.reveal.edges": {"labels": FACE, "pixel": 0.6},
    "pattern.reveal.gain_of": {"drawn": [FACE], "undrawn": [FACE.T]},
    "pattern.reveal.recommend": {"gains": ({"slices": 0.1}, {"slices": 0.2, "long planks": 0.1}, {"slices": 0.3})},
    "pattern.stages.pool_of": {"room": ROOM, "told": STAGES},
    "pattern.tools.drawn_by": {
        "tool": made(Tool, kind="skewer", diameter_mm=4.0),
        "strokes": PATH,
        "box": LONG,
        "height": 60.0,
        "trace": Choice("thin"),
        "share": 1.0,
    },
    "pattern.calibrate.tongue_mm": {"diameter_mm": 4.0, "reach_mm": 5.0},
    "pattern.calibrate.reach_from_tongue": {"diameter_mm": 4.0, "tongue": 15.0},
    "pattern.chance.pot_swirl": {"box": LONG, "height": 64.0},
    "pattern.plans.offers": {"mould": MOULD, "height": 60.0, "planned": SLICES, "density": 1.03},
    "pattern.plans.faces_of": {
        "way": Choice("slices"),
        "cuts": OFFERS[0].cuts,
        "mould": Mould("slab", 60.0, 48.0, 40.0),
        "height": 30.0,
    },
    "pattern.plans.gains": {"found": OFFERS, "pool": SMALL, "strokes": ()},
    "pattern.plans.best_cut": {"scores": ({"slices": 0.2, "long planks": 0.19},), "found": OFFERS},
}
