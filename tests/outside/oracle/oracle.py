# SPDX-License-Identifier: GPL-3.0-or-later
"""An oracle that shares nothing with the program: Python and numpy, slow, in doubles.

Reads a design file itself and decides, spot by spot, from the handbook's definitions alone:
whether a spot of a zone is served, and if not, what fails first. Density comes from differences
of its own projection, hidden heights from its own solids. It samples; it proves nothing.

What it understands is a subset of the format: level and sloped floors; walls with openings, in
buildings that may be turned; prisms, with sloped tops too; radial lenses (named families, fitted
ones, zooms); mounts without a tilted base; masks, margins; streams that are whole or cropped;
facings; several imagers.
Anything else raises Unsupported, so that it never answers for what it does not know.

    python3 oracle.py design.json [--spots 4000]     prints shares and reasons, one line each
"""
import json
import math
import os
import sys

import numpy as np

from cameras import Imager, Unsupported
from solids import (STANDS_BELOW_M, TOUCH_M, Prism, convex_parts, in_polygon, signed_area, slope_of,
                    wall_prisms)

REASONS = ["out_of_frame", "too_coarse", "hidden", "too_steep", "turned_away", "unsharp",
           "too_dark", "masked", "served"]
RANK = {word: i for i, word in enumerate(REASONS)}

# Handbook 5.
BANDS = {"face": (1.45, 1.85), "face_child": (0.95, 1.45), "face_seated": (1.05, 1.35),
         "person": (0.2, 1.8), "plate": (0.3, 1.2), "floor": (0.0, 0.1)}
# IEC 62676-4:2014 and 2025 (the latter from memory): task, px/m, share of a person's height.
TASKS = {
    "2014": {"monitor": (12.5, 0.5), "detect": (25, 0.5), "observe": (62.5, 1),
             "recognise": (125, 1), "identify": (250, 1), "inspect": (1000, 1)},
    "2025": {"overview": (20, 0.5), "outline": (40, 0.5), "discern": (80, 1), "perceive": (125, 1),
             "characterise": (250, 1), "validate": (500, 1), "scrutinise": (1500, 1)},
}


class Site:
    """The design with what stands in one situation."""

    def __init__(self, design, situation_id):
        self.design = design
        situations = design.get("situations") or [{"id": "day"}, {"id": "night"}]
        self.situation = next(s for s in situations if s["id"] == situation_id)
        site = design["site"]
        passes = {m["id"]: m.get("light", "blocks") for m in site.get("materials", [])}
        named = {i for s in situations for i in s.get("present", [])}
        here = set(self.situation.get("present", []))
        gone = set(self.situation.get("absent", []))

        def stands(thing):
            return thing["id"] not in gone and (thing["id"] not in named or thing["id"] in here)

        def opaque(thing):
            passage = passes.get(thing.get("material"), "blocks")
            if passage not in ("blocks", "passes", 0, 1):
                raise Unsupported("a material that passes a share")
            return passage in ("blocks", 0)
        self.floors, self.tops, self.prisms = {}, {}, []
        for building in site.get("buildings", []):
            turn = math.radians(building.get("turn_deg", 0))
            origin = np.array(building.get("origin_m", [0, 0]), float)
            c, s = math.cos(turn), math.sin(turn)

            def to_site(p, origin=origin, c=c, s=s):  # clockwise: +y turns towards +x
                return origin + np.array([c * p[0] + s * p[1], c * p[1] - s * p[0]])
            for storey in building["storeys"]:
                floor = storey.get("floor_m", 0)
                self.floors[storey["id"]] = floor
                if storey.get("voids"):
                    raise Unsupported("voids")
                for wall in storey.get("walls", []):
                    wall = dict(wall, openings=[
                        dict(o, filled=bool(o.get("material")) and stands(o) and opaque(o))
                        for o in wall.get("openings", [])])
                    self.prisms += wall_prisms(wall, storey, to_site, opaque(wall))
                slab, roof = storey.get("slab_m", 0.2), storey.get("roof_m", 0)
                top = floor + storey.get("height_m", 3.0)
                for bottom, thickness in ((floor - slab, slab), (top, roof)):
                    if thickness > 0:
                        for part in convex_parts([to_site(p) for p in storey["outline"]]):
                            self.prisms.append(Prism(part, bottom, bottom + thickness, False))
        for solid in site.get("solids", []):
            if not stands(solid) or not opaque(solid):
                continue
            if "file" in solid:
                raise Unsupported("a mesh")
            floor = self.floors.get(solid.get("storey"), 0)
            base, top = solid.get("base_m", 0), solid["top_m"]
            low, rise = slope_of(solid)
            for part in convex_parts(solid["outline"]):
                self.prisms.append(Prism(part, floor + base, floor + top, base < STANDS_BELOW_M,
                                         True, low, rise))
            self.tops[solid["id"]] = self.prisms[-1]
        self.models = {m["id"]: m for m in design.get("catalogue", {}).get("models", [])}
        self.zones = {z["id"]: z for z in site.get("zones", []) if stands(z)}

    def imagers(self, judged_on):
        result = []
        for housing in self.design.get("housings", []):
            if housing.get("life", "new") == "removed":
                continue
            for written in housing.get("imagers", []):
                stream = None
                slot = written.get("slot", 1)
                mine = [s for s in housing.get("streams", [])
                        if judged_on in s.get("use", []) and slot in s.get("from", [])]
                if len(mine) > 1:
                    raise Unsupported("several streams for one use")
                if mine and judged_on == "recorded":
                    stream = mine[0]
                mount_model = self.models.get(housing["mount"].get("model"))
                result.append(Imager(housing, written, self.models[housing["model"]], mount_model,
                                     stream))
        return result

    def floor_under(self, zone, spots):
        """Height of what targets stand on at each spot."""
        base = zone.get("base_m", 0)
        if zone.get("surface"):
            return self.tops[zone["surface"]].top_at(spots) + base
        return np.full(len(spots), self.floors[zone["storey"]] + base)

    def in_zone(self, zone, spots):
        inside = in_polygon(zone["outline"], spots)
        for hole in zone.get("holes", []):
            inside &= ~in_polygon(hole, spots)
        if zone.get("use", "floor") in ("", "floor") and not zone.get("surface"):
            floor = self.floors[zone["storey"]]
            for prism in self.prisms:
                if prism.stands and abs(prism.bottom - floor) <= STANDS_BELOW_M:
                    inside &= ~in_polygon(prism.outline, spots)
        return inside


# ---- judging (handbook 5 and 19) ------------------------------------------------------------

class Asked:
    """A requirement of kind see, in numbers."""

    def __init__(self, design, requirement):
        target = requirement.get("target", {})
        kind = target.get("kind", "person")
        self.band = tuple(target.get("band_m") or BANDS[kind])
        table = design.get("task_table", {})
        edition = table.get("edition", "2014")
        rows = TASKS.get(edition) or {r["task"]: (r["px_per_m"], r.get("height_share", 1))
                                      for r in table["rows"]}
        row = rows.get(requirement.get("task"), (None, 1))
        self.px_per_m = requirement.get("px_per_m", row[0])
        self.height_share = target.get("height_share", row[1] if kind == "person" else 1)
        self.share = requirement.get("share", 0.95)
        self.imagers = requirement.get("imagers", 1)
        self.facings = requirement.get("facings", [])
        self.each = requirement.get("facing_rule", "any") == "each"
        self.judged_on = requirement.get("judged_on", "recorded")
        if self.judged_on == "viewed":
            raise Unsupported("viewed")


def judge_imager(site, imager, asked, spots, floor_z, facings, heights):
    """For one imager: (index of the first test that fails, or that of served; near), per spot.
    near: a limit is so close that sampling of heights cannot tell."""
    n, m = len(spots), heights
    whole = asked.height_share >= 1
    low, high = asked.band
    if whole:
        levels = np.linspace(low, high, m)
    else:
        levels = low + (np.arange(m) + 0.5) / m * (high - low)
    lens = imager.lens_point
    reason = np.full(n, RANK["served"])
    near = np.zeros(n, bool)
    survives = np.ones((n, m), bool)
    undecided = np.ones(n, bool)
    need = m if whole else asked.height_share * m

    def settle(ok, word):
        """Takes a test's outcome (n, m) in; spots that fall are settled."""
        nonlocal survives, undecided
        survives &= ok
        left = survives.sum(axis=1)
        falls = undecided & (left < need - 1e-9)
        reason[falls] = RANK[word]
        if not whole:
            near[undecided & (np.abs(left - need) <= 3)] = True
        undecided &= ~falls

    points = np.concatenate([np.repeat(spots, m, axis=0),
                             (floor_z[:, None] + levels).reshape(-1, 1)], axis=1)
    pixels = imager.project(points)
    with np.errstate(invalid="ignore"):
        framed = np.all((pixels >= imager.low) & (pixels <= imager.high), axis=1)
        edge = np.min(np.minimum(np.abs(pixels - imager.low), np.abs(pixels - imager.high)), axis=1)
    settle(framed.reshape(n, m), "out_of_frame")
    if whole:
        near |= np.nan_to_num(edge, nan=1.0).reshape(n, m).min(axis=1) < 1e-6

    live = np.repeat(undecided, m)
    dense = np.zeros(n * m, bool)
    density = imager.density(points[live])
    dense[live] = density >= asked.px_per_m
    if whole and live.any():
        off = np.zeros(n * m) + 1
        off[live] = np.abs(density / asked.px_per_m - 1)
        near |= off.reshape(n, m).min(axis=1) < 1e-6
    settle(dense.reshape(n, m), "too_coarse")

    index = np.flatnonzero(undecided)
    seen = np.ones((n, m), bool)
    for prism in filter(lambda p: p.hides, site.prisms):
        if not len(index):
            break
        z0, z1 = prism.hidden_heights(lens, spots[index])
        under = floor_z[index]
        z = under[:, None] + levels
        here = (z > z0[:, None]) & (z < z1[:, None])
        if whole:  # a stretch between two samples counts too
            here |= ((np.maximum(z0, under + low) < np.minimum(z1, under + high))[:, None])
            for limit in (z0 - under - high, z1 - under - low):
                near[index] |= (np.abs(limit) < 1e-6) & (np.abs(limit) > 2 * TOUCH_M)
        seen[index] &= ~here
    settle(seen, "hidden")

    if facings:
        rise = lens[2] - floor_z[:, None] - levels
        flat = np.hypot(*(lens[:2] - spots).T)[:, None]
        elevation = np.degrees(np.abs(np.arctan2(rise, flat)))
        bearing = np.degrees(np.arctan2(lens[0] - spots[:, 0], lens[1] - spots[:, 1]))
        steep, turned = np.zeros((n, m), bool), np.zeros((n, m), bool)
        for facing in facings:
            limit = facing.get("elevation_max_deg", 30)
            level = elevation <= limit
            yaw = np.abs((bearing - facing.get("bearing_deg", 0) + 180) % 360 - 180)
            ahead = yaw <= facing.get("yaw_max_deg", 45)
            steep |= level
            turned |= level & ahead[:, None]
            near |= (np.abs(elevation - limit).min(axis=1) < 1e-6)
            near |= np.abs(yaw - facing.get("yaw_max_deg", 45)) < 1e-6
        settle(steep, "too_steep")
        settle(turned, "turned_away")

    clear = np.ones(n * m, bool)
    for mask in imager.masks:
        clear &= ~in_polygon(mask, np.nan_to_num(pixels, nan=-1e9))
    settle(clear.reshape(n, m), "masked")
    return reason, near


def judge(site, requirement, spots, heights=33):
    """(reason words, served, near a limit, imager nearest) for spots (n, 2) of the zone."""
    asked = Asked(site.design, requirement)
    zone = site.zones[requirement["zone"]]
    floor_z = site.floor_under(zone, spots)
    imagers = site.imagers(asked.judged_on)
    groups = [[f] for f in asked.facings] if asked.each and asked.facings else [asked.facings]
    worst = np.full(len(spots), RANK["served"])
    near = np.zeros(len(spots), bool)
    for facings in groups:
        ranks = np.full((len(spots), max(len(imagers), asked.imagers)), -1)
        for i, imager in enumerate(imagers):
            ranks[:, i], close = judge_imager(site, imager, asked, spots, floor_z, facings, heights)
            near |= close
        nth = -np.sort(-ranks, axis=1)[:, asked.imagers - 1]   # the n-th best imager's
        worst = np.minimum(worst, np.maximum(nth, 0))
    return np.array(REASONS)[worst], worst == RANK["served"], near


def lattice(count):
    """A low-discrepancy sequence in the unit square (Roberts' R2), additive, no randomness."""
    g = 1.32471795724474602596
    i = np.arange(1, count + 1)[:, None]
    return (0.5 + i * np.array([1 / g, 1 / g ** 2])) % 1


def zone_spots(site, zone, count):
    outline = np.array(zone["outline"], float)
    low, high = outline.min(axis=0), outline.max(axis=0)
    box = float(np.prod(high - low))
    filled = max(abs(signed_area(outline)) / box, 0.05)
    spots = low + lattice(int(count / filled)) * (high - low)
    inside = site.in_zone(zone, spots)
    return spots[inside], box * float(inside.mean())


def share(site, requirement, count=4000, heights=33):
    """(share, error, zone_m2, reasons). The lattice's error was at most 0.53 of the random error of
    as many random spots, 0.21 on average, against 16 times as many spots over random scenes; error
    is 1.5 of that random error."""
    spots, area = zone_spots(site, site.zones[requirement["zone"]], count)
    if not len(spots):
        return 0.0, 1.0, 0.0, {}
    words, served, near = judge(site, requirement, spots, heights)
    n, p = len(spots), float(served.mean())
    error = 1.5 * math.sqrt(max(p * (1 - p), 1 / n) / n)
    reasons = {w: float((words == w).mean()) for w in REASONS if (words == w).any()}
    return p, error, area, reasons


def densest(site, requirement, count=20000, heights=21):
    """Of kind withhold: (px/m, imager) of the densest sampled view of the zone that is in frame,
    unhidden and unmasked (handbook 19), on captured pixels, as aimed."""
    asked = Asked(site.design, dict(requirement, judged_on="captured"))
    zone = site.zones[requirement["zone"]]
    spots, _ = zone_spots(site, zone, count // heights)
    levels = site.floor_under(zone, spots)[:, None] + np.linspace(*asked.band, heights)
    points = np.concatenate([np.repeat(spots, heights, axis=0), levels.reshape(-1, 1)], axis=1)
    best = (0.0, "")
    for imager in site.imagers("captured"):
        pixels = imager.project(points)
        with np.errstate(invalid="ignore"):
            seen = np.all((pixels >= imager.low) & (pixels <= imager.high), axis=1)
        for prism in filter(lambda p: p.hides, site.prisms):
            z0, z1 = prism.hidden_heights(imager.lens_point, points[:, :2])
            seen &= ~((points[:, 2] > z0) & (points[:, 2] < z1))
        for mask in imager.masks:
            seen &= ~in_polygon(mask, np.nan_to_num(pixels, nan=-1e9))
        if seen.any():
            best = max(best, (float(imager.density(points[seen]).max()), imager.name))
    return best


def load(path):
    """The design file, with the models of the catalogue files that lie beside it."""
    with open(path, encoding="utf-8") as file:
        design = json.load(file)
    catalogue = design.setdefault("catalogue", {})
    models = catalogue.setdefault("models", [])
    for attachment in catalogue.get("files", []):
        beside = os.path.join(os.path.dirname(os.path.abspath(path)), attachment["path"])
        with open(beside, encoding="utf-8") as file:
            models += json.load(file)["models"]
    return design


def main():
    design = load(sys.argv[1])
    count = int(sys.argv[sys.argv.index("--spots") + 1]) if "--spots" in sys.argv else 4000
    situations = [s["id"] for s in design.get("situations") or [{"id": "day"}, {"id": "night"}]]
    for requirement in design["brief"]:
        kind = requirement.get("kind", "see")
        if kind not in ("see", "withhold"):
            continue
        for situation in requirement.get("situations") or situations:
            site = Site(design, situation)
            if requirement["zone"] not in site.zones:
                continue
            if kind == "withhold":
                found, imager = densest(site, requirement)
                print(f"{requirement['id']:6} {situation:10} densest {found:.2f} px/m {imager}, "
                      f"at most {requirement.get('px_per_m')}")
                continue
            p, error, area, reasons = share(site, requirement, count)
            told = ", ".join(f"{w} {100 * v:.1f}" for w, v in reasons.items() if w != "served")
            print(f"{requirement['id']:6} {situation:10} {100 * p:6.2f} +-{100 * error:.2f} % of "
                  f"{area:8.2f} m2, asked {100 * requirement.get('share', 0.95):.0f}   {told}")


if __name__ == "__main__":
    main()
