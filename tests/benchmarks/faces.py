"""How fast a face is found, against the plain way that turns every pixel by every twist.

    .venv/bin/python -m tests.benchmarks.faces

One run, one face of 120,000 pixels under a zigzag of about 1,300 twists; the share of equal labels beside it.
"""

import math
import time

import numpy as np

from soapbench.science.pattern.draw import twists_of
from soapbench.science.pattern.face import Plane, label_face, walls_of
from tests.science.loaves import FILL, loaf_of, strokes_of

ROUNDS = 5
PLANE = Plane("z", 40.0, 0, 240, 0, 84)


def plainly(twists, reach, u, v):
    """Undo a stroke by the formula alone: each twist on each pixel."""
    for twist in reversed(twists):
        du, dv = u - twist.u, v - twist.v
        r, rim = np.hypot(du, dv), math.exp(-twist.radius / reach)
        angle = -twist.angle * np.where(r < twist.radius, (np.exp(-r / reach) - rim) / (1 - rim), 0.0)
        u = twist.u + du * np.cos(angle) - dv * np.sin(angle)
        v = twist.v + du * np.sin(angle) + dv * np.cos(angle)
    return u, v


def timed(work):
    began = time.process_time()
    return work(), time.process_time() - began


if __name__ == "__main__":
    loaf = loaf_of("columns")
    (stroke,) = strokes_of(loaf, "skewer", "zigzag", 9.5)
    twists = twists_of(stroke, walls_of(loaf.pool.box, FILL, "z"))
    pixel = math.sqrt(240 * 84 / 120_000)
    ours = [timed(lambda: label_face(PLANE, pixel, loaf.pool, [stroke])) for _ in range(ROUNDS)]
    face, cost = ours[0][0], min(each for _face, each in ours)
    rows, columns = face.shape
    u, v = np.meshgrid((np.arange(columns) + 0.5) * 240 / columns, (np.arange(rows) + 0.5) * 84 / rows)
    (u, v), plain = timed(lambda: plainly(twists, stroke.reach_mm, u.ravel(), v.ravel()))
    labels = loaf.pool.portion_at(u, v, np.full(u.size, 40.0)).reshape(face.shape)[::-1]
    print(f"  {columns} × {rows} pixels, {len(twists)} twists")
    print(f"  ours {cost:.3f} s   plain {plain:.3f} s   ratio {plain / cost:.1f}")
    print(f"  equal labels {(labels == face).mean():.5f}")
