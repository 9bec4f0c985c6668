# SPDX-License-Identifier: GPL-3.0-or-later
"""The examples answer what an adviser must be able to say of them, as far as coverage goes.

Each figure comes from the geometry by hand (closed form), named beside it; none is the program's
own output. Variants of an example are written into a temporary folder beside its attachments.
"""
import json
import math
import os
import re
import shutil
import subprocess
import tempfile
import unittest

BELVEDERE = os.environ["BELVEDERE"]
EXAMPLES = os.path.join(os.environ["BELVEDERE_SOURCE_DIR"], "examples")


def call(*arguments):
    done = subprocess.run([BELVEDERE, *map(str, arguments)], capture_output=True, text=True,
                          check=False)
    if done.returncode not in (0, 1):
        raise AssertionError(f"belvedere {arguments} exits {done.returncode}: {done.stderr}")
    return done.returncode, json.loads(done.stdout)


def rows(proof):
    """Of the design as it stands, by requirement and situation."""
    return {(r["requirement"], r["situation"]): r for r in proof["requirements"]
            if not r.get("without")}


class Example(unittest.TestCase):
    folder = None

    def setUp(self):
        self.temporary = tempfile.TemporaryDirectory()
        self.addCleanup(self.temporary.cleanup)

    def path(self, name="design"):
        return os.path.join(EXAMPLES, self.folder, name + ".json")

    def read(self, name="design"):
        with open(self.path(name), encoding="utf-8") as file:
            return json.load(file)

    def write(self, design):
        source = os.path.join(EXAMPLES, self.folder)
        for name in os.listdir(source):
            if name not in ("design.json", "points.json"):
                shutil.copy(os.path.join(source, name), self.temporary.name)
        path = os.path.join(self.temporary.name, "design.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        return path

    def prove(self, design="design"):
        path = self.path(design) if isinstance(design, str) else self.write(design)
        code, proof = call("prove", path, "--json")
        met = all(r["verdict"] == "met" for r in proof["requirements"] + proof["demands"]
                  if not r.get("may_fall"))
        self.assertEqual(code, 0 if met else 1)
        return rows(proof)

    def explain(self, design, requirement, at, situation=None):
        path = self.path(design) if isinstance(design, str) else self.write(design)
        points = os.path.join(self.temporary.name, "points.json")
        with open(points, "w", encoding="utf-8") as file:
            asked = {"requirement": requirement}
            if situation:
                asked["situation"] = situation
            json.dump([dict(asked, at=spot) for spot in at], file)
        return call("explain", path, "--points", points, "--json")[1]["points"]

    def verdicts(self, found, wanted):
        self.assertEqual({k: found[k]["verdict"] for k in wanted}, wanted)

    def reasons(self, row):
        return {r["reason"]: r["share"] for r in row["reasons"]}


def requirement(design, name):
    return next(r for r in design["brief"] if r["id"] == name)


def housing(design, name):
    return next(h for h in design["housings"] if h["id"] == name)


class Shop(Example):
    folder = "shop"

    # Closed form: F = 1344 / rad(53) = 1452.93 px; 6.0 m off and 1.05 m below is 6.0912 m: 238.5
    # px/m where 250 is asked, 4.6 % short. 250 px/m reaches 5.8117 m, so that the mat's inner 0.71
    # or so is served.
    def test_door_misses_identify_by_a_hair(self):
        found = self.prove()
        self.verdicts(found, {("R1", "open"): "not_met"})
        share = found["R1", "open"]["share"]
        self.assertTrue(0.69 < share["low"] <= share["high"] < 0.72, share)
        self.assertEqual(list(self.reasons(found["R1", "open"])), ["too_coarse"])
        point, = self.explain("design", "R1", [[1e-6, 3]])
        self.assertEqual((point["served"], point["reason"], point["imager"]),
                         (False, "too_coarse", "C1.1"))
        self.assertAlmostEqual(point["measure"]["found"], 238.53, delta=0.05)
        self.assertEqual(point["measure"]["needed"], 250)
        self.assertAlmostEqual(point["measure"]["margin"], 0.954, delta=0.0005)
        self.assertAlmostEqual(point["height_m"], 1.45, delta=1e-9)

    # Closed form: at 5.7 m the slant is 5.796 m and the density 250.7; the alternative "nearer".
    def test_door_is_met_from_5_7_m(self):
        design = self.read()
        nearer = design["alternatives"][0]["edits"][0]
        housing(design, nearer["id"])["mount"]["fixing_m"] = json.loads(nearer["value"])
        self.verdicts(self.prove(design), {("R1", "open"): "met"})

    # Closed form: a lens of 101.1 deg or less would do (1344 / rad(50.55) = 1523.4 px: 250.1 px/m).
    def test_door_spot_turns_at_101_1_degrees(self):
        for hfov, served in ((101.0, True), (101.2, False)):
            design = self.read()
            for imager in design["catalogue"]["models"][0]["imagers"]:
                imager["lens"]["hfov_deg"] = [hfov]
            point, = self.explain(design, "R1", [[1e-6, 3]])
            self.assertEqual(point["served"], served, hfov)

    # Closed form: the single camera in the head's place, rectilinear, aimed at the spot: 241.9 px/m
    # at 105 deg, and 250 from 103.1 deg down.
    def test_single_camera_in_its_place_must_zoom_to_103_1_degrees(self):
        for hfov, served in ((105, False), (103.2, False), (103.0, True)):
            design = self.read("two_singles")
            door = housing(design, "C1")["imagers"][0]
            door["masks"] = []
            door["aims"] = [{"pan_deg": 270, "hfov_deg": hfov,
                             "tilt_deg": round(math.degrees(math.atan2(1.05, 6)), 4)}]
            point, = self.explain(design, "R1", [[1e-6, 3]])
            self.assertEqual(point["served"], served, hfov)
            if hfov == 105:
                self.assertAlmostEqual(point["measure"]["found"], 241.87, delta=0.05)

    # Closed form: the steepest line of sight at the door lies 9.93 deg below the horizontal.
    def test_door_is_seen_at_9_93_degrees(self):
        for limit, reason in ((9.9, "too_steep"), (9.95, "served")):
            design = self.read()
            housing(design, "C1")["mount"]["fixing_m"][0] = 6.0
            requirement(design, "R1")["px_per_m"] = 200
            del requirement(design, "R1")["task"]
            requirement(design, "R1")["facings"][0]["elevation_max_deg"] = limit
            point, = self.explain(design, "R1", [[1e-6, 3]])
            self.assertEqual("served" if point["served"] else point["reason"], reason)

    def test_counter_is_recognised_on_both_sides(self):
        self.verdicts(self.prove(), {("R2", "open"): "met", ("R3", "open"): "met"})

    # The shelves, 1.5 m high, hide the lower part of whoever stands behind them.
    def test_aisles_are_hidden_behind_shelves(self):
        found = self.prove()["R4", "open"]
        self.assertEqual(found["verdict"], "not_met")
        self.assertGreater(self.reasons(found)["hidden"], 0.3)
        self.assertAlmostEqual(found["zone_m2"], 4 * 6 - 2 * 4 * 0.5, delta=1e-6)

    # Closed form: without its mask the head sees the neighbour's window, 12.0 m off and 0.4 to
    # 1.0 m below it, through the door: at most F / 12 = 121.1 px/m (the lintel hides the upper
    # part), times less than 1.01 for what lies off the axis.
    def test_neighbours_window_is_kept_by_masks_alone(self):
        found = self.prove()
        for situation in ("open", "closed"):
            self.assertEqual(found["R5", situation]["verdict"], "met")
            self.assertEqual(found["R5", situation]["densest_px_per_m"]["high"], 0)
        design = self.read()
        for one in design["housings"]:
            for imager in one["imagers"]:
                imager.pop("masks", None)
        bare = self.prove(design)
        self.assertEqual(bare["R5", "open"]["verdict"], "not_met")
        densest = bare["R5", "open"]["densest_px_per_m"]
        self.assertTrue(120 < densest["low"] <= densest["high"] < 1.02 * 121.1, densest)
        self.assertTrue(bare["R5", "open"]["keeps"])
        # The shutter hides the window.
        self.assertEqual(bare["R5", "closed"]["verdict"], "met")

    # Two single cameras are within the money: the door is met, the staff are not seen from the
    # front.
    def test_two_single_cameras_give_up_the_staff(self):
        self.verdicts(self.prove("two_singles"), {
            ("R1", "open"): "met", ("R2", "open"): "met", ("R3", "open"): "not_met",
            ("R4", "open"): "not_met", ("R5", "open"): "met"})

    # Closed form, the mirror on a sphere (halved by hand in one plane): lens and lamp 30 mm ahead of the
    # centre of a cover of 65 mm, 20 mm apart, are mirrored to each other 35.9 deg off the lens's axis,
    # level: tilted 15 deg, 105 deg across, that is 1473 tan(35.9 deg) / cos(15 deg) px beside the middle.
    # By day the lamp does not burn, and nothing is mirrored.
    def test_a_dome_with_its_lamp_beneath_the_cover(self):
        answer = call("prove", self.path("dome"), "--json")[1]
        findings = {f["code"]: f for f in answer["findings"]}
        mirrored = findings["lamp_in_cover"]
        self.assertEqual(mirrored["about"], ["C2.1", "C2 lamp 1"])
        self.assertIn("(closed)", mirrored["sentence"])
        self.assertEqual(mirrored["found"], {"value": 65, "unit": "mm"})
        at_px = float(re.search(r"at (\d+), \d+ px", mirrored["sentence"]).group(1))
        focal_px = 1920 / math.tan(math.radians(52.5))
        self.assertAlmostEqual(at_px, 1920 + focal_px * math.tan(math.radians(35.9)) / math.cos(math.radians(15)),
                               delta=3)
        self.assertEqual(findings["cover_veil"]["about"], ["bubble", "C2"])

    # Closed form: the head's lens reaches 250 px/m at 1344 / rad(53) / 250 = 5.812 m with the
    # projection of data sheets, and at 1344 / tan(53) / 250 = 4.051 m with a rectilinear one.
    def test_reach_says_so_without_a_building(self):
        answer = call("reach", "--pixels", "2688x1520", "--hfov", "106", "--scale", "2014",
                      "--json")[1]
        identify = next(t for t in answer["tasks"] if t["task"] == "identify")
        self.assertEqual(identify["density_px_per_m"], 250)
        self.assertAlmostEqual(identify["distance_m"]["equidistant"], 5.812, delta=0.001)
        self.assertAlmostEqual(identify["distance_m"]["rectilinear"], 4.051, delta=0.001)


class FerryTerminal(Example):
    folder = "ferry_terminal"
    both = ("quiet", "boarding")

    # One head cannot do both. All four wide: the floor, not the doors. The columns, 0.6 m wide and
    # 3.7 m off, throw lees of (0.697 + 1.946) / 2 x 7.7 = 10.2 m2 each: 5.3 % of the floor, so that
    # 95 % cannot be had from the middle of the ceiling.
    def test_four_wide_watch_the_floor_and_no_door(self):
        found = self.prove()
        self.verdicts(found, {("R3", "quiet"): "met", ("R4", "boarding"): "met",
                              **{(r, s): "not_met" for r in ("R1", "R2") for s in self.both}})
        self.assertLess(found["R3", "quiet"]["share"]["high"], 0.95)
        hidden = self.reasons(found["R3", "quiet"])["hidden"]
        self.assertAlmostEqual(hidden, 20.4 / 382.4, delta=0.01)
        for door in ("R1", "R2"):
            self.assertEqual(found[door, "quiet"]["share"]["high"], 0)
            self.assertEqual(list(self.reasons(found[door, "quiet"])), ["too_coarse"])

    # Two imagers on the doors leave two for the rest. A search over all aims in steps of 10 deg
    # without columns found 82.8 % of the floor at best.
    def test_two_on_the_doors_lose_the_floor(self):
        found = self.prove("doors")
        self.verdicts(found, {("R3", "quiet"): "not_met", ("R4", "boarding"): "not_met",
                              **{(r, s): "met" for r in ("R1", "R2") for s in self.both}})
        self.assertLess(found["R3", "quiet"]["share"]["high"], 0.828)

    def test_head_and_two_single_cameras_do_both(self):
        found = self.prove("singles")
        self.verdicts(found, {("R3", "quiet"): "met", ("R4", "boarding"): "met",
                              **{(r, s): "met" for r in ("R1", "R2") for s in self.both}})

    # Closed form: (12, 8) to the door's middle is 10.0 m, 3.75 m down to 1.45 m: 20.56 deg below,
    # and 4673.2 / 10.68 = 437.6 px/m at 31 deg, for 250 but not for 500 (needs 27.3 deg, out of
    # range).
    def test_door_from_the_head_at_the_end_of_its_zoom(self):
        design = self.read("doors")
        aim = housing(design, "C1")["imagers"][0]["aims"][0]
        aim.update(hfov_deg=31, tilt_deg=round(math.degrees(math.atan2(3.75, 10)), 4),
                   pan_deg=round(180 + math.degrees(math.atan2(6, 8)), 4))
        one = requirement(design, "R1")
        del one["task"]
        for asked, served in ((250, True), (500, False)):
            one["px_per_m"] = asked
            point, = self.explain(design, "R1", [[6, 1e-6]])
            self.assertEqual(point["served"], served)
        self.assertEqual(point["reason"], "too_coarse")
        self.assertAlmostEqual(point["measure"]["found"], 437.57, delta=0.1)
        one["px_per_m"] = 250
        for limit, reason in ((20.5, "too_steep"), (20.6, "served")):
            one["facings"][0]["elevation_max_deg"] = limit
            point, = self.explain(design, "R1", [[6, 1e-6]])
            self.assertEqual("served" if point["served"] else point["reason"], reason)

    # Whoever stands at a ticket window turns his back to the middle of the hall.
    def test_head_sees_customers_from_behind(self):
        found = self.prove()["R5", "quiet"]
        self.assertEqual(found["verdict"], "not_met")
        self.assertEqual(list(self.reasons(found)), ["turned_away"])


class ColdStore(Example):
    folder = "cold_store"
    levellers = [f"R{i}" for i in range(2, 8)]

    def test_one_head_does_the_empty_dock_and_fails_the_full_one(self):
        found = self.prove()
        self.verdicts(found, {(r, "empty"): "met" for r in ["R1"] + self.levellers})
        self.verdicts(found, {(r, "full"): "not_met" for r in ["R1"] + self.levellers})
        self.assertGreater(self.reasons(found["R1", "full"])["hidden"], 0.5)

    # What stands on the floor is no part of it: eight stacks of 6 x 2.4 m.
    def test_stock_is_no_part_of_the_dock(self):
        found = self.prove()
        self.assertAlmostEqual(found["R1", "empty"]["zone_m2"], 36 * 14, delta=1e-6)
        self.assertAlmostEqual(found["R1", "full"]["zone_m2"], 36 * 14 - 8 * 6 * 2.4, delta=1e-6)

    def test_second_head_on_the_diagonal_sees_every_leveller(self):
        found = self.prove("two_heads")
        self.verdicts(found, {(r, s): "met" for r in self.levellers for s in ("empty", "full")})
        self.assertEqual(found["R1", "full"]["verdict"], "not_met")
        self.assertGreater(found["R1", "full"]["share"]["low"],
                           self.prove()["R1", "full"]["share"]["high"])

    # Closed form: the corner is sqrt(18^2 + 14^2 + 3.8^2) = 23.1 m off; aimed at it, 95 deg gives
    # 1187.6 / 23.1 = 51.4 px/m, and 62.5 px/m needs 83.8 deg or less.
    def test_corner_needs_83_8_degrees(self):
        for hfov, served in ((95, False), (84.1, False), (83.5, True)):
            design = self.read()
            one = housing(design, "C1")
            one["mount"]["fixing_m"] = [18, 14, 4]
            one["imagers"][0]["aims"][0].update(
                pan_deg=round(180 + math.degrees(math.atan2(18, 14)), 4), hfov_deg=hfov,
                tilt_deg=round(math.degrees(math.atan2(3.8, math.hypot(18, 14))), 4))
            requirement(design, "R1")["target"] = {"kind": "custom", "band_m": [0.2, 0.2]}
            point, = self.explain(design, "R1", [[1e-6, 1e-6]], "empty")
            self.assertEqual(point["served"], served, hfov)
            if hfov == 95:
                self.assertEqual(point["reason"], "too_coarse")
                self.assertAlmostEqual(point["measure"]["found"], 51.4, delta=0.1)


class CarParkDeck(Example):
    folder = "car_park_deck"

    # Closed form (similar triangles): lens at 2.65 m, beam 0.4 m below it and 2.4 m away: 1.45 m is
    # seen to 7.20 m, 1.85 m to 4.80 m, a whole person (1.8 m) to 5.1 m, the floor to 15.9 m.
    def test_beam_ends_the_view_from_the_ceiling(self):
        for band, reach in (([1.45, 1.45], 7.2), ([1.85, 1.85], 4.8), ([0.2, 1.8], 5.1),
                            ([0, 0], 15.9)):
            design = self.read()
            requirement(design, "R1").update(target={"kind": "custom", "band_m": band}, px_per_m=20)
            del requirement(design, "R1")["task"]
            design["housings"] = design["housings"][:1]
            del design["services"]
            spots = [[16.65 + reach + off, 8] for off in (-0.01, 0.01)]
            near, far = self.explain(design, "R1", spots, "empty")
            self.assertTrue(near["served"], (band, near))
            self.assertEqual((far["served"], far["reason"]), (False, "hidden"), band)
            self.assertTrue(far["hidden_by"].startswith("beam_"), far)

    def test_ceiling_heads_between_beams_are_the_trap(self):
        found = self.prove()
        for lane in ("R1", "R2"):
            for situation in ("empty", "busy"):
                self.assertEqual(found[lane, situation]["verdict"], "not_met")
                self.assertGreater(self.reasons(found[lane, situation])["hidden"], 0.5)

    def test_heads_below_the_beams_see_the_lanes(self):
        found = self.prove("below_beams")
        self.verdicts(found, {(r, s): "met" for r in ("R1", "R2", "R3", "R4", "R5", "R6")
                              for s in ("empty", "busy")})

    # No camera hangs below 2.15 m.
    def test_headroom_is_kept(self):
        for name in ("design", "below_beams"):
            for one in self.read(name)["housings"]:
                self.assertGreaterEqual(one["mount"]["fixing_m"][2], 2.15)


class SolarFarm(Example):
    folder = "solar_farm"
    sides = ("R1", "R2", "R3", "R4")

    # Closed form: 4 m up, tilted 10 deg, 17.2 deg high: 0.2 m comes into the frame at
    # 3.8 / tan(18.6 deg) = 11.3 m. The first pole of a side stands at 0.3 m, and nothing covers it.
    def test_foot_of_a_corner_pole_is_not_seen(self):
        near, far = self.explain("design", "R1", [[0.3 + 11.0, 1.5], [0.3 + 11.6, 1.5]], "day")
        self.assertFalse(near["served"])
        self.assertTrue(far["served"])
        self.assertEqual(far["imager"], "P1.1")
        # Every other pole's foot lies in its neighbour's view, 60 + 11.3 m on at most.
        feet = [[60.3 + 60 * k + off, 1.5] for k in range(6) for off in (0, 11.1)]
        points = self.explain("design", "R1", feet, "day")
        self.assertTrue(all(point["served"] for point in points))

    def test_corners_need_their_own_answer(self):
        found = self.prove()
        self.verdicts(found, {(r, s): "not_met" for r in self.sides for s in ("day", "night")})
        for side in self.sides:
            self.assertGreater(found[side, "day"]["share"]["low"], 0.95)

    def test_near_views_close_the_corners(self):
        found = self.prove("corners")
        self.verdicts(found, {(r, "day"): "met" for r in self.sides})


class Footbridge(Example):
    folder = "footbridge"

    # Closed form: 4673.2 px give 125 px/m to 37.39 m of slant; heads at 0.4 and 41.6 m see faces
    # that come towards them, so both ways are recognised over 41.6 - 37.36 = 4.24 to 37.76 m:
    # 79.8 % of 42 m.
    def test_heads_recognise_both_ways_over_four_fifths(self):
        found = self.prove()["R1", "open"]
        self.assertEqual(found["verdict"], "not_met")
        self.assertAlmostEqual(found["share"]["low"], 0.798, delta=0.01)
        self.assertAlmostEqual(found["share"]["high"], 0.798, delta=0.01)
        near, far = self.explain("design", "R1", [[37.6, 1.6], [37.9, 1.6]])
        self.assertTrue(near["served"])
        # The east head, behind the walker's back, fails in a later test and so comes nearer.
        self.assertEqual((far["served"], far["reason"]), (False, "turned_away"))
        west = next(i for i in far["imagers"] if i["imager"] == "C1.1")
        self.assertEqual(west["reason"], "too_coarse")

    # People are seen only coming towards a camera: one end is not enough, whatever the lens.
    def test_one_end_is_never_enough(self):
        design = self.read()
        design["housings"] = design["housings"][:1]
        del design["services"], requirement(design, "R6")["after_loss"]
        found = self.prove(design)["R1", "open"]
        self.assertEqual(found["share"]["high"], 0)

    # Closed form: 3.0 m up and a face at 1.45 m: 15 deg at 5.8 m.
    def test_single_cameras_see_the_stair_heads_from_5_8_m(self):
        for name, verdict in (("design", "not_met"), ("singles", "met")):
            self.verdicts(self.prove(name), {("R2", "open"): verdict, ("R3", "open"): verdict})
        design = self.read("singles")
        requirement(design, "R2")["facings"][0]["elevation_max_deg"] = 15
        near, far = self.explain(design, "R2", [[6.6 - 5.7, 1.6], [6.6 - 5.87, 1.6]])
        self.assertEqual((near["served"], near["reason"]), (False, "too_steep"))
        self.assertTrue(far["served"])

    def test_stairs_are_observed_on_their_slope(self):
        found = self.prove()
        self.verdicts(found, {("R4", "open"): "met", ("R5", "open"): "met"})
        self.assertAlmostEqual(found["R4", "open"]["zone_m2"], 12 * 2.8, delta=1e-6)

    def test_fault_at_one_end_leaves_observe_on_the_deck(self):
        _, proof = call("prove", self.path(), "--json")
        lost = {r["without"]: r for r in proof["requirements"]
                if r["requirement"] == "R6" and r.get("without")}
        self.assertEqual(sorted(lost), ["C1", "C2", "S2"])
        self.assertEqual(lost["S2"]["share"], lost["C2"]["share"])
        for row in lost.values():
            self.assertEqual(row["verdict"], "met")
            self.assertGreaterEqual(row["share"]["low"], 0.95)


if __name__ == "__main__":
    unittest.main()
