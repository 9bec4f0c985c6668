# SPDX-License-Identifier: GPL-3.0-or-later
"""Closed form: the oracle against figures that can be worked out by hand. An oracle that is wrong
would be no witness against the program, so it is tried on its own first."""
import math
import os
import sys
import unittest

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "oracle"))
import cameras
import oracle
import solids as solid_shapes


def rectangle(x0, y0, x1, y1):
    return [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]


def bed(lens, pixels, poses, zone, target, px_per_m=1, solids=(), **requirement):
    """A level, empty floor with one housing of one imager per pose (x, y, z, pan, tilt)."""
    imagers = [{"slot": i + 1, "pixels": pixels, "lens": lens} for i in range(len(poses))]
    housings = [{"id": f"C{i + 1}", "model": "m", "mount": {"fixing_m": list(pose[:3])},
                 "imagers": [{"slot": 1, "aims": [{"pan_deg": pose[3], "tilt_deg": pose[4]}]}]}
                for i, pose in enumerate(poses)]
    design = {
        "site": {"buildings": [{"id": "b", "storeys": [{
            "id": "s", "outline": rectangle(-100, -100, 100, 100), "height_m": 20}]}],
            "solids": list(solids),
            "zones": [{"id": "z", "storey": "s", "outline": zone}]},
        "brief": [dict({"id": "R1", "zone": "z", "target": target, "px_per_m": px_per_m},
                       **requirement)],
        "catalogue": {"models": [{"id": "m", "imagers": imagers}]}, "housings": housings}
    return oracle.Site(design, "day"), design["brief"][0]


T0 = {"lens": {"family": "rectilinear", "hfov_deg": [60]}, "pixels": [1920, 1080],
      "poses": [(0, 0, 3, 0, 30)], "zone": rectangle(-10, 0, 10, 20)}


class ClosedForms(unittest.TestCase):
    # Closed form: a rectilinear picture 1920 x 1080, 60 deg wide, 3 m up, tilted 30 deg, shows
    # 115.557 m2 of the floor, a trapezium; 28.889 % of a square of 400 m2 around it.
    def test_footprint_of_one_imager_at_height_0(self):
        site, requirement = bed(**T0, target={"kind": "custom", "band_m": [0, 0]})
        share, error, area, _ = oracle.share(site, requirement, 40000, 2)
        self.assertAlmostEqual(area, 400, delta=1e-6)
        self.assertAlmostEqual(share, 0.28889, delta=0.0015)
        self.assertLess(abs(share - 0.28889), error)

    # Closed form: the floor target, 0 to 0.1 m, needs both ends of its band in the frame: 26.898 %.
    def test_footprint_of_the_floor_target(self):
        site, requirement = bed(**T0, target={"kind": "floor"})
        share, _, _, _ = oracle.share(site, requirement, 40000, 5)
        self.assertAlmostEqual(share, 0.26898, delta=0.0015)

    # Closed form: four imagers at right angles leave a square hole on the plane of the target
    # height, its side 2 (h - p) / tan(tilt + v / 2): 1.89 m, 3.5705 m2.
    def test_ring_of_four_leaves_a_square(self):
        f = 1296 / math.tan(math.radians(47.5))
        self.assertAlmostEqual(f, 1187.6, delta=0.05)
        half = (5.2 - 0.2) / math.tan(math.radians(40) + math.atan(972 / f))
        self.assertAlmostEqual(4 * half * half, 3.5705, delta=0.001)
        site, requirement = bed({"hfov_deg": [95]}, [2592, 1944],
                                [(0, 0, 5.2, pan, 40) for pan in (0, 90, 180, 270)],
                                rectangle(-1.5, -1.5, 1.5, 1.5),
                                {"kind": "custom", "band_m": [0.2, 0.2]})
        share, _, area, _ = oracle.share(site, requirement, 40000, 2)
        self.assertAlmostEqual(area * (1 - share), 3.5705, delta=0.02)

    # Closed form: density is F over slant distance on the axis (handbook 4); off the axis of an
    # equidistant lens, F theta / (d sin theta) across the radius and F / d along it; of a
    # rectilinear one, F / (d cos theta) and F / (d cos^2 theta).
    def test_density_follows_the_handbooks_checks(self):
        for family, across, along in (
                ("equidistant", lambda t: t / math.sin(t), lambda t: 1.0),
                ("rectilinear", lambda t: 1 / math.cos(t), lambda t: 1 / math.cos(t) ** 2)):
            site, _ = bed({"family": family, "hfov_deg": [90]}, [3840, 2160], [(0, 0, 5, 0, 0)],
                          rectangle(0, 1, 1, 2), {"kind": "floor"})
            imager = site.imagers("captured")[0]
            t = 0.4
            d = 10 * np.array([[0, 1, 0], [0, math.cos(t), -math.sin(t)],
                               [math.sin(t), math.cos(t), 0]]) + [0, 0, 5]
            found = imager.density(d)
            for value, factor in zip(found, (1.0, across(t), along(t))):
                self.assertAlmostEqual(value / (imager.f / 10 * factor), 1, delta=1e-6)

    # Closed form: 3840 px, 90 deg, 10 m on the axis: 192.0 px/m rectilinear, 244.5 equidistant.
    def test_density_of_both_projections(self):
        for family, wanted in (("rectilinear", 192.0), ("equidistant", 244.46)):
            site, _ = bed({"family": family, "hfov_deg": [90]}, [3840, 2160], [(0, 0, 5, 0, 0)],
                          rectangle(0, 1, 1, 2), {"kind": "floor"})
            density = site.imagers("captured")[0].density(np.array([[0, 10.0, 5]]))[0]
            self.assertAlmostEqual(density, wanted, delta=0.01)

    # Closed form: data-sheet fields 106 and 60 deg on 2688 x 1520 are both reproduced.
    def test_fitted_lens_reproduces_both_fields(self):
        f, k = cameras.lens_end({"family": "fitted", "hfov_deg": [106], "vfov_deg": [60]}, 0,
                               [2688, 1520])
        self.assertAlmostEqual(f * cameras.unit_radius(k, math.radians(53)), 1344, delta=1e-6)
        self.assertAlmostEqual(f * cameras.unit_radius(k, math.radians(30)), 760, delta=1e-6)

    # Closed form (similar triangles): a beam 0.4 m below the lens and 2.4 m away lets a face of
    # 1.45 m be seen to 7.20 m, of 1.85 m to 4.80 m, and the floor to 15.90 m; lens at 2.65 m.
    def test_beam_hides_by_similar_triangles(self):
        beam = {"id": "beam", "storey": "s", "outline": rectangle(-50, 2.4, 50, 2.7),
                "base_m": 2.25, "top_m": 2.75}
        for height, reach in ((1.45, 7.2), (1.85, 4.8), (0, 15.9)):
            site, requirement = bed({"family": "equidistant", "hfov_deg": [175]}, [4000, 4000],
                                    [(0, 0, 2.65, 0, 0)], rectangle(0, 3, 1, 23),
                                    {"kind": "custom", "band_m": [height, height]}, solids=[beam])
            spots = np.array([[0.5, reach - 0.001], [0.5, reach + 0.001]])
            words, served, _ = oracle.judge(site, requirement, spots, 2)
            self.assertEqual(list(words), ["served", "hidden"], f"at {height} m")

    # Closed form: 5.2 m up, a face at 1.45 m lies 30 deg below at 6.50 m and 15 deg at 14.00 m; who
    # walks away is never served.
    def test_face_limits(self):
        for limit, distance in ((30, 6.495), (15, 13.995)):
            for bearing, wanted in ((180, ["too_steep", "served"]),
                                    (0, ["too_steep", "turned_away"])):
                site, requirement = bed(
                    {"family": "equidistant", "hfov_deg": [175]}, [8000, 8000], [(0, 0, 5.2, 0, 0)],
                    rectangle(0, 3, 1, 23), {"kind": "face"},
                    facings=[{"bearing_deg": bearing, "elevation_max_deg": limit}])
                spots = np.array([[0.0, distance - 0.01], [0.0, distance + 0.01]])
                words, _, _ = oracle.judge(site, requirement, spots)
                self.assertEqual(list(words), wanted)

    # Closed form: what stands on the floor is no part of the zone, what hangs above it is.
    def test_footprints_are_taken_off_the_zone(self):
        solids = [{"id": "low", "storey": "s", "outline": rectangle(1, 1, 3, 3), "top_m": 1},
                  {"id": "high", "storey": "s", "outline": rectangle(5, 1, 7, 3), "base_m": 0.2,
                   "top_m": 1}]
        site, requirement = bed({"hfov_deg": [90]}, [1000, 1000], [(0, 0, 3, 0, 0)],
                                rectangle(0, 0, 10, 10), {"kind": "face"}, solids=solids)
        _, _, area, _ = oracle.share(site, requirement, 20000, 2)
        self.assertAlmostEqual(area, 96, delta=0.1)

    # Property: a spot's hidden stretch by slopes agrees with marching along the sightline,
    # level tops and sloped ones.
    def test_hidden_heights_agree_with_marching(self):
        random = np.random.default_rng(5)
        checked = 0
        for _ in range(200):
            centre, turn = random.uniform(-3, 3, 2), random.uniform(0, math.pi)
            size = random.uniform(0.2, 2, 2)
            axes = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
            outline = [centre + (np.array(c) * size) @ axes
                       for c in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
            bottom = random.uniform(0, 2)
            rise = random.uniform(-0.3, 0.3, 2) * random.integers(0, 2)
            prism = solid_shapes.Prism(outline, bottom, bottom + random.uniform(1.3, 3), False,
                                       True, centre, rise)
            lens = np.array([*random.uniform(-4, 4, 2), random.uniform(0, 4)])
            spots = random.uniform(-4, 4, (20, 2))
            z0, z1 = prism.hidden_heights(lens, spots)
            for spot, low, high in zip(spots, z0, z1):
                z = random.uniform(0, 4)
                if min(abs(z - low), abs(z - high)) < 0.02:
                    continue
                way = np.linspace(0, 1, 4001)[:, None]
                on = lens + way * (np.array([*spot, z]) - lens)
                inside = (np.all(np.abs((on[:, :2] - centre) @ axes.T) < size, axis=1) &
                          (on[:, 2] > prism.bottom) & (on[:, 2] < prism.top_at(on[:, :2])))
                self.assertEqual(bool(inside.any()), bool(low < z < high))
                checked += 1
        self.assertGreater(checked, 3000)


if __name__ == "__main__":
    unittest.main()
