# SPDX-License-Identifier: GPL-3.0-or-later
"""Random designs within what the oracle understands, each wholly given by its seed."""
import math

import numpy as np

from cameras import unit_radius

FAMILIES = ["rectilinear", "stereographic", "equidistant", "equisolid", "orthographic"]
TASKS = ["monitor", "detect", "observe", "recognise", "identify"]
TARGETS = ["face", "face_child", "face_seated", "person", "plate", "floor", "custom"]


def rounded(points, digits=3):
    return [[round(float(v), digits) for v in p] for p in points]


def turned(points, turn_deg, centre=(0, 0)):
    """Clockwise about the origin, then moved."""
    t = math.radians(turn_deg)
    c, s = math.cos(t), math.sin(t)
    return [[centre[0] + c * x + s * y, centre[1] + c * y - s * x] for x, y in points]


def vertical_field(hfov_deg, k, pixels):
    """Degrees, rounded as data sheets do not: the field that a lens of this k has."""
    half = math.radians(hfov_deg) / 2
    wanted = unit_radius(k, half) * pixels[1] / pixels[0]
    low, high = 0.0, half
    for _ in range(60):
        mid = 0.5 * (low + high)
        low, high = (mid, high) if unit_radius(k, mid) < wanted else (low, mid)
    return round(math.degrees(2 * low), 4)


class Scenes:
    def __init__(self, seed):
        self.random = np.random.default_rng(seed)
        self.seed = seed

    def between(self, low, high, digits=3):
        return round(float(self.random.uniform(low, high)), digits)

    def chance(self, share):
        return bool(self.random.random() < share)

    def pick(self, things):
        return things[int(self.random.integers(len(things)))]

    def shape(self, size_low, size_high):
        """An outline about the origin: rectangle, convex polygon, or an L."""
        w, d = self.between(size_low, size_high), self.between(size_low, size_high)
        kind = self.pick(["rectangle", "rectangle", "polygon", "ell"])
        if kind == "rectangle":
            return [[-w / 2, -d / 2], [w / 2, -d / 2], [w / 2, d / 2], [-w / 2, d / 2]]
        if kind == "polygon":
            n = int(self.random.integers(3, 8))
            angles = 2 * math.pi * (np.arange(n) + self.random.uniform(-0.3, 0.3, n)) / n
            return [[w / 2 * math.cos(a), d / 2 * math.sin(a)] for a in angles]
        a, b = self.between(0.3, 0.7) * w, self.between(0.3, 0.7) * d
        return [[-w / 2, -d / 2], [w / 2, -d / 2], [w / 2, b - d / 2], [a - w / 2, b - d / 2],
                [a - w / 2, d / 2], [-w / 2, d / 2]]

    def wall(self, i, height):
        length = self.between(1, 0.7 * min(self.width, self.depth))
        middle = [self.between(0.2, 0.8) * self.width, self.between(0.2, 0.8) * self.depth]
        turn = self.pick([0, 90, self.between(0, 180, 1)])
        path = turned([[-length / 2, 0], [length / 2, 0]], turn, middle)
        if self.chance(0.25):  # a corner
            path.append(turned([[length / 2, self.between(0.5, 2)]], turn, middle)[0])
        wall = {"id": f"W{i}", "path": rounded(path), "thickness_m": self.between(0.08, 0.3, 2)}
        if self.chance(0.3):
            wall["height_m"] = self.between(0.8, height - 0.2, 2)
        elif self.chance(0.1):
            wall["base_m"] = self.between(1.5, 2.2, 2)
        if length > 2 and "height_m" not in wall and "base_m" not in wall and self.chance(0.6):
            width = self.between(0.6, 1.2, 2)
            opening = {"id": f"O{i}", "from_m": self.between(0.3, length - width - 0.3),
                       "width_m": width, "sill_m": 0, "head_m": 2.1}
            if self.chance(0.5):
                opening["sill_m"] = self.between(0.3, 1.2, 2)
            wall["openings"] = [opening]
        return wall

    def solid(self, i, height):
        where = [self.between(0.05, 0.95) * self.width, self.between(0.05, 0.95) * self.depth]
        outline = turned(self.shape(0.3, 2.5), self.pick([0, self.between(0, 360, 1)]), where)
        base = self.pick([0, 0, 0, 0.1, self.between(0.4, 2.2, 2)])
        top = min(round(base + self.between(0.1, 2.4, 2), 2), height)
        kind = self.pick(["stock", "column", "furniture"])
        solid = {"id": f"S{i}", "storey": "floor", "kind": kind,
                 "outline": rounded(self.to_site(outline)), "base_m": base, "top_m": top}
        if top < height - 0.3 and self.chance(0.25):
            solid["slope"] = {"toward_deg": self.between(0, 360, 0),
                              "rise_m": self.between(0.1, min(1.2, height - top), 2)}
        return solid

    def model(self, i):
        imagers = []
        pixels = self.pick([[1920, 1080], [2592, 1944], [2688, 1520], [3840, 2160], [2000, 2000]])
        for slot in range(1, int(self.random.integers(1, 5)) + 1):
            kind = self.pick(["fixed", "fixed", "zoom", "fitted"])
            if kind == "fitted" and pixels[0] != pixels[1]:  # one field says nothing of k
                h, k = self.between(50, 115, 1), self.between(-0.9, 0.9)
                v = vertical_field(h, k, pixels)
                lens = {"family": "fitted", "hfov_deg": [h], "vfov_deg": [v]}
            else:
                family = self.pick(FAMILIES)
                wide = self.between(40, 110, 1)
                tele = round(wide * self.between(0.3, 0.8), 1)
                fields = [wide, tele] if kind == "zoom" else [wide]
                lens = {"family": family, "hfov_deg": fields}
            imagers.append({"slot": slot, "pixels": pixels, "lens": lens, "pan_deg": [-180, 180],
                            "tilt_deg": [-90, 90], "roll_deg": [-180, 180]})
            if self.chance(0.2):
                imagers[-1]["offset_m"] = [self.between(0, 0.1), 0, self.between(-0.05, 0)]
        return {"id": f"M{i}", "kind": "housing", "imagers": imagers}

    def housing(self, i, height, model):
        while True:
            where = [self.between(0.2, self.width - 0.2), self.between(0.2, self.depth - 0.2)]
            if self.chance(0.3):  # a hair from a wall
                where[0] = self.pick([0.001, self.width - 0.001])
            z = self.between(1.2, height - 0.15, 2)
            if self.free(where, z):
                break
        x, y = self.to_site([where])[0]
        mount = {"fixing_m": [round(x, 6), round(y, 6), round(self.floor + z, 3)]}
        # Mostly aimed at a zone, the head's other imagers evenly around.
        goal = np.mean(self.pick(self.zones)["outline"], axis=0)
        first = math.degrees(math.atan2(goal[0] - x, goal[1] - y)) + self.between(-25, 25)
        slope = math.degrees(math.atan2(z - 1, math.hypot(goal[0] - x, goal[1] - y)))
        ring = self.pick([360, 90])
        imagers, streams = [], []
        for part in model["imagers"]:
            slot, fields = part["slot"], part["lens"]["hfov_deg"]
            aim = {"pan_deg": round((first + ring * (slot - 1) / len(model["imagers"])) % 360, 1),
                   "tilt_deg": round(min(max(slope + self.between(-15, 15), -20), 90), 1)}
            if self.chance(0.1):
                aim["tilt_deg"] = self.between(-10, 90, 1)
            if self.chance(0.2):
                aim["roll_deg"] = self.between(-30, 30, 1)
            if len(fields) == 2:
                aim["hfov_deg"] = self.between(fields[1], fields[0], 2)
            imager = {"slot": slot, "aims": [aim]}
            if self.chance(0.2):
                x0, y0 = self.between(0, 0.7), self.between(0, 0.7)
                x1, y1 = x0 + self.between(0.1, 0.3), y0 + self.between(0.1, 0.3)
                imager["masks"] = [rounded([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])]
            crop = self.chance(0.1)
            if not crop and self.chance(0.2):
                imager["margin_px"] = int(self.random.integers(1, 200))
            imagers.append(imager)
            w, h = part["pixels"]
            if crop:
                x0, y0 = self.between(0, 0.4, 2), self.between(0, 0.4, 2)
                x1, y1 = self.between(0.6, 1, 2), self.between(0.6, 1, 2)
                streams.append({"id": f"T{i}{slot}", "from": [slot], "view": "crop",
                                "region": [x0, y0, x1, y1], "size_px": [1280, 720],
                                "use": ["recorded"]})
            elif self.chance(0.5):
                scale = self.pick([1, 2, 3])
                streams.append({"id": f"T{i}{slot}", "from": [slot],
                                "size_px": [w // scale, h // scale], "use": ["recorded"]})
        return {"id": f"C{i}", "model": model["id"], "mount": mount, "imagers": imagers,
                "streams": streams}

    def free(self, where, z):
        """No wall or solid within 5 cm of a place (building coordinates, above the floor)."""
        for wall in self.walls:
            for a, b in zip(wall["path"], wall["path"][1:]):
                a, b = np.array(a), np.array(b)
                s = np.clip((np.array(where) - a) @ (b - a) / ((b - a) @ (b - a)), 0, 1)
                if np.hypot(*(a + s * (b - a) - where)) < wall["thickness_m"] * 0.75 + 0.05:
                    return False
        x, y = self.to_site([where])[0]
        for solid in self.solids:
            centre = np.mean(solid["outline"], axis=0)
            reach = max(np.hypot(*(np.array(p) - centre)) for p in solid["outline"])
            if np.hypot(x - centre[0], y - centre[1]) < reach + 0.05:
                top = solid["top_m"] + solid.get("slope", {"rise_m": 0})["rise_m"]
                if solid["base_m"] - 0.2 < z < top + 0.2:
                    return False
        return True

    def requirement(self, i):
        size = 0.8 * min(self.width, self.depth)
        outline = self.shape(0.3 * size, 0.6 * size)
        room = [self.width / 2 - size / 2, self.depth / 2 - size / 2]
        where = [self.width / 2 + self.between(-1, 1) * room[0],
                 self.depth / 2 + self.between(-1, 1) * room[1]]
        outline = turned(outline, self.pick([0, self.between(0, 360, 1)]), where)
        zone = {"id": f"Z{i}", "storey": "floor", "outline": rounded(self.to_site(outline))}
        ramps = [solid for solid in self.solids if "slope" in solid]
        if ramps and self.chance(0.3):
            ramp = self.pick(ramps)
            zone["surface"], zone["outline"] = ramp["id"], ramp["outline"]
        elif self.chance(0.2):
            zone["base_m"] = self.between(0, 0.3, 2)
        kind = self.pick(TARGETS)
        target = {"kind": kind}
        if kind == "custom":
            low = self.between(0, 1.5, 2)
            target["band_m"] = [low, round(low + self.between(0, 0.5, 2), 2)]
        if kind == "person" and self.chance(0.4):
            target["height_share"] = self.between(0.2, 0.9, 2)
        requirement = {"id": f"R{i}", "zone": zone["id"], "target": target}
        if self.chance(0.3):
            requirement["task"] = self.pick(TASKS)
        else:
            requirement["px_per_m"] = round(10 ** self.between(1.2, 2.6), 1)
        if self.chance(0.2):
            requirement["judged_on"] = "captured"
        if self.chance(0.25):
            requirement["imagers"] = 2
        if kind.startswith("face") and self.chance(0.6):
            facing = {"bearing_deg": self.between(0, 360, 0)}
            if self.chance(0.5):
                facing["yaw_max_deg"] = self.between(20, 170, 0)
                facing["elevation_max_deg"] = self.between(10, 60, 0)
            requirement["facings"] = [facing]
            if self.chance(0.3):
                other = dict(facing, bearing_deg=self.between(0, 360, 0))
                requirement["facings"].append(other)
                requirement["facing_rule"] = self.pick(["any", "each"])
        return zone, requirement

    def design(self, requirements=2):
        self.width, self.depth = self.between(4, 16, 1), self.between(4, 16, 1)
        height = self.between(2.6, 4, 1)
        self.floor = self.pick([0, 0, 3.2, -4.1])
        turn = self.pick([0, 0, self.between(0, 360, 1)])
        origin = self.pick([[0, 0], [self.between(-50, 50), self.between(-50, 50)]])
        self.to_site = lambda points: turned(points, turn, origin)
        t, w, d = 0.1, self.width, self.depth  # half the outer wall
        outer = {"id": "W0", "thickness_m": 2 * t,
                 "path": rounded([[-t, -t], [w + t, -t], [w + t, d + t], [-t, d + t], [-t, -t]])}
        self.walls = [self.wall(i, height) for i in range(1, int(self.random.integers(0, 4)) + 1)]
        self.solids = [self.solid(i, height) for i in range(1, int(self.random.integers(0, 8)) + 1)]
        storey = {"id": "floor", "floor_m": self.floor, "height_m": height,
                  "outline": rounded([[-2 * t, -2 * t], [w + 2 * t, -2 * t],
                                      [w + 2 * t, d + 2 * t], [-2 * t, d + 2 * t]]),
                  "walls": [outer] + self.walls}
        if self.chance(0.5):
            storey["roof_m"] = 0.2
        pairs = [self.requirement(i) for i in range(1, requirements + 1)]
        self.zones = [zone for zone, _ in pairs]
        models = [self.model(i) for i in range(1, int(self.random.integers(1, 4)) + 1)]
        housings = [self.housing(i + 1, height, m) for i, m in enumerate(models)]
        return {"format": "belvedere.design", "version": 1, "title": f"Random scene {self.seed}",
                "site": {"buildings": [{"id": "B", "origin_m": origin, "turn_deg": turn,
                                        "storeys": [storey]}],
                         "solids": self.solids, "zones": self.zones},
                "situations": [{"id": "day"}], "brief": [r for _, r in pairs],
                "catalogue": {"models": models}, "housings": housings}


def scene(seed, requirements=2):
    return Scenes(seed).design(requirements)
