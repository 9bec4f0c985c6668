# SPDX-License-Identifier: GPL-3.0-or-later
"""The oracle's solids: prisms, what they hide, and walls cut into them (handbook 6 and 19)."""
import math

import numpy as np

from cameras import Unsupported

STANDS_BELOW_M = 0.2   # handbook 19: what stands on the floor is no part of a zone
TOUCH_M = 1e-9         # handbook 19: touching does not hide


def in_polygon(outline, p):
    """Even-odd rule for points (n, 2)."""
    inside = np.zeros(len(p), bool)
    a = np.asarray(outline, float)
    b = np.roll(a, -1, axis=0)
    for (x0, y0), (x1, y1) in zip(a, b):
        if y0 == y1:
            continue
        crosses = (y0 > p[:, 1]) != (y1 > p[:, 1])
        x = x0 + (p[:, 1] - y0) * (x1 - x0) / (y1 - y0)
        inside ^= crosses & (p[:, 0] < x)
    return inside


def signed_area(outline):
    a = np.asarray(outline, float)
    b = np.roll(a, -1, axis=0)
    return 0.5 * float(np.sum(a[:, 0] * b[:, 1] - b[:, 0] * a[:, 1]))


def convex(outline):
    a = np.asarray(outline, float)
    e = np.roll(a, -1, axis=0) - a
    n = np.roll(e, -1, axis=0)
    return bool(np.all(e[:, 0] * n[:, 1] - e[:, 1] * n[:, 0] >= -1e-12))


def convex_parts(outline):
    """The outline itself when convex, else triangles by cutting ears."""
    ring = [tuple(p) for p in outline]
    if signed_area(ring) < 0:
        ring.reverse()
    if convex(ring):
        return [np.array(ring)]
    parts = []
    while len(ring) > 3:
        for i in range(len(ring)):
            a, b, c = ring[i - 1], ring[i], ring[(i + 1) % len(ring)]
            turn = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
            if turn <= 0:
                continue
            others = [p for p in ring if p not in (a, b, c)]
            def left(p, q, r):
                return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]) >= 0
            if any(left(a, b, p) and left(b, c, p) and left(c, a, p) for p in others):
                continue
            parts.append(np.array([a, b, c]))
            del ring[i]
            break
        else:
            raise Unsupported("outline")
    parts.append(np.array(ring))
    return parts


class Prism:
    """From bottom to top over a convex outline. A sloped top rises from `top` along `rise`
    (metres of height per metre, in plan) counted from the place `low`."""

    def __init__(self, outline, bottom, top, stands, hides=True, low=(0, 0), rise=(0, 0)):
        self.outline = np.asarray(outline, float)
        self.bottom, self.top = bottom, top
        self.low, self.rise = np.asarray(low, float), np.asarray(rise, float)
        self.stands = stands  # on the floor, so that its footprint is no part of a zone
        self.hides = hides    # false for clear glass

    def top_at(self, p):
        return self.top + (p - self.low) @ self.rise

    def hidden_heights(self, lens, spots):
        """(low, high) of the z on the vertical line over each spot that this prism hides from the
        lens; low >= high where it hides none. The shadow of a convex body is convex, so the hidden
        part of a vertical line is one stretch: the steepest and shallowest slopes to the prism's
        slice in the vertical plane through lens and spot."""
        d = spots - lens[:2]
        # The stretch [s0, s1] of the way from lens (0) to spot (1) inside the outline.
        s0, s1 = np.zeros(len(spots)), np.ones(len(spots))
        ring = self.outline
        for a, b in zip(ring, np.roll(ring, -1, axis=0)):
            normal = np.array([b[1] - a[1], a[0] - b[0]])
            normal = normal / np.hypot(*normal)
            start = (lens[:2] - a) @ normal          # inside while start + s * slope <= 0
            slope = d @ normal
            with np.errstate(divide="ignore", invalid="ignore"):
                cut = -start / slope
            s0 = np.where(slope < 0, np.maximum(s0, cut), s0)
            s1 = np.where(slope > 0, np.minimum(s1, cut), s1)
            s1 = np.where((slope == 0) & (start >= -TOUCH_M), -1.0, s1)
        low = np.full(len(spots), np.inf)
        high = np.full(len(spots), -np.inf)
        length = np.hypot(d[:, 0], d[:, 1])
        crossed = (s1 - s0) * length > TOUCH_M
        for s in (s0, s1):
            top = self.top_at(lens[:2] + s[:, None] * d)
            for z in (np.full(len(s), self.bottom), top):
                rise = z - lens[2]
                with np.errstate(divide="ignore", invalid="ignore"):
                    at_lens = np.where(rise == 0, 0.0, np.copysign(np.inf, rise))
                    at_spot = lens[2] + np.where(s > 1e-12, rise / s, at_lens)
                low = np.where(crossed, np.minimum(low, at_spot), low)
                high = np.where(crossed, np.maximum(high, at_spot), high)
        return low + TOUCH_M, high - TOUCH_M


def wall_prisms(wall, storey, to_site, hides):
    """Pieces of a wall beside, under and over its openings; flat ends, corners filled."""
    path = np.array(wall["path"], float)
    half = wall.get("thickness_m", 0.1) / 2
    floor = storey.get("floor_m", 0)
    base = wall.get("base_m", 0)
    top = wall.get("height_m", storey.get("height_m", 3.0))
    closed = bool(np.all(path[0] == path[-1]))
    prisms, start = [], 0.0
    for i in range(len(path) - 1):
        a, b = path[i], path[i + 1]
        length = float(np.hypot(*(b - a)))
        along = (b - a) / length
        left = np.array([-along[1], along[0]])
        begin = -half if (i > 0 or closed) else 0.0
        end = length + (half if (i < len(path) - 2 or closed) else 0.0)

        def piece(u0, u1, z0, z1):
            if u1 - u0 <= 0 or z1 - z0 <= 0:
                return
            corners = [a + u0 * along - half * left, a + u1 * along - half * left,
                       a + u1 * along + half * left, a + u0 * along + half * left]
            prisms.append(Prism(convex_parts([to_site(c) for c in corners])[0], floor + z0,
                                floor + z1, z0 < STANDS_BELOW_M, hides))
        at = begin
        mine = [o for o in wall.get("openings", [])
                if start <= o["from_m"] + o["width_m"] / 2 < start + length]
        for o in sorted(mine, key=lambda o: o["from_m"]):
            u0, u1 = o["from_m"] - start, o["from_m"] - start + o["width_m"]
            piece(at, u0, base, top)
            piece(u0, u1, base, min(o.get("sill_m", 0), top))
            piece(u0, u1, max(o["head_m"], base), top)
            if o.get("filled"):
                piece(u0, u1, o.get("sill_m", 0), o["head_m"])
            at = u1
        piece(at, end, base, top)
        start += length
    return prisms


def slope_of(solid):
    """(a lowest place, metres of height per metre in plan) of a solid's top."""
    outline = np.asarray(solid["outline"], float)
    slope = solid.get("slope")
    if not slope:
        return outline[0], np.zeros(2)
    toward = math.radians(slope.get("toward_deg", 0))
    bearing = np.array([math.sin(toward), math.cos(toward)])
    along = outline @ bearing
    return outline[np.argmin(along)], bearing * slope["rise_m"] / (along.max() - along.min())
