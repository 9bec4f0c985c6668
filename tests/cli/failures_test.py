# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere size --failures: the loss of every part. Each claim is held against a proof of the design
with the part deleted by hand."""
import copy
import glob
import json
import os
import random
import shutil
import tempfile
import unittest

from belvedere_cli import EXAMPLES, call_json


def example(name):
    with open(os.path.join(EXAMPLES, name, "design.json"), encoding="utf-8") as file:
        return json.load(file)


class Failures(unittest.TestCase):
    def setUp(self):
        self.temporary = tempfile.TemporaryDirectory()
        self.addCleanup(self.temporary.cleanup)

        for path in glob.glob(os.path.join(EXAMPLES, "*", "*.*")):  # attachments, names of their own
            shutil.copy(path, self.temporary.name)

    def answer(self, command, design, *options):
        path = os.path.join(self.temporary.name, "design.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        code, answer = call_json(command, path, *options, "--json")
        self.assertIn(code, (0, 1), answer)
        return answer

    def rows(self, design):
        """Verdict and share of each requirement to see, in each situation, no part lost."""
        return {(r["requirement"], r["situation"]): (r["verdict"], r["share"])
                for r in self.answer("prove", design, "--no-spots")["requirements"]
                if r["kind"] == "see" and "without" not in r}

    def compare(self, design, without, failure):
        """The failure's falls are those of the proof of `without`, to the digit; nothing else falls."""
        as_designed, left = self.rows(design), self.rows(without)
        falls = {(f["requirement"], f["situation"]): f for f in failure["falls"]
                 if f["what"] == "coverage"}
        for key, (verdict, share) in left.items():
            before = as_designed[key][0]
            if before == "not_met" or verdict in (before, "met"):
                self.assertNotIn(key, falls, failure["part"])
                continue
            self.assertEqual(falls[key]["verdict"], verdict)
            self.assertEqual(falls[key]["share"], share)
            self.assertEqual(falls[key]["share_before"], as_designed[key][1])
        self.assertTrue(set(falls) <= set(left))

    def part(self, answer, kind, name):
        found, = [f for f in answer["failures"] if (f["kind"], f["part"]) == (kind, name)]
        return found


class FailureAnalysisEqualsReproof(Failures):
    def test_of_a_camera(self):
        design = example("footbridge")
        answer = self.answer("size", design, "--failures")
        for i, housing in enumerate(design["housings"]):
            without = copy.deepcopy(design)
            without["housings"][i]["life"] = "removed"
            self.compare(design, without, self.part(answer, "camera", housing["id"]))

    def test_of_a_lamp(self):
        design = example("winter_yard")
        design["brief"] = [r for r in design["brief"] if r["kind"] == "see"]
        design["brief"][0]["situations"] = ["day", "night"]
        design["brief"][0]["share"] = 0.05
        answer = self.answer("size", design, "--failures")
        model, = [m for m in design["catalogue"]["models"] if m["kind"] == "housing"]
        housing = design["housings"][4]
        lamps = copy.deepcopy(housing.get("lamps") or [{"slot": m["slot"]} for m in model["lamps"]])
        slots = [lamp["slot"] for lamp in lamps]
        lamps[0]["follows"] = 0
        without = copy.deepcopy(design)
        without["housings"][4]["lamps"] = lamps
        self.compare(design, without,
                     self.part(answer, "lamp", f"{housing['id']} lamp {slots[0]}"))

    # The uplink's and the far switch's loss leaves what is on the near one.
    def test_of_a_switch_and_a_link(self):
        design = example("footbridge")
        answer = self.answer("size", design, "--failures")
        without = copy.deepcopy(design)
        without["housings"][1]["life"] = "removed"
        switch = self.part(answer, "switch", "S2")
        self.assertEqual(switch["dark"], ["C2"])
        self.compare(design, without, switch)
        link = self.part(answer, "link", "f1")
        self.assertEqual((link["dark"], link["unrecorded"]), ([], ["C2.1", "C2.2", "C2.3"]))
        # Its lamps still burn by day and night: the bridge's own lights judge here.
        self.assertEqual({(f["requirement"], f["situation"]) for f in link["falls"]},
                         {(f["requirement"], f["situation"]) for f in switch["falls"]
                          if f["what"] == "coverage"})


def random_hall(seed):
    """Four cameras on two switches look into a hall with a few boxes in it; what is asked of it hangs
    on one, on some or on all of them."""
    rng = random.Random(seed)
    box = lambda x0, y0, x1, y1: [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
    wide, deep = rng.uniform(9, 13), rng.uniform(7, 10)
    boxes = []
    for i in range(4):
        x, y = rng.uniform(1.5, wide - 3), rng.uniform(1.5, deep - 3)
        boxes.append({"id": f"b{i}", "storey": "g", "outline": box(x, y, x + rng.uniform(0.4, 1.4),
                                                                  y + rng.uniform(0.4, 1.4)),
                      "top_m": rng.uniform(0.6, 2.4)})
    places = [(0.3, 0.3, 45), (wide - 0.3, 0.3, 315), (wide - 0.3, deep - 0.3, 225),
              (0.3, deep - 0.3, 135)]
    model = {"id": "eye", "power": {"idle_w": 6, "feeds": [{"kind": "poe", "poe_class": 3}]},
             "imagers": [{"slot": s, "pixels": [1920, 1080], "lens": {"hfov_deg": [62]},
                          "pan_deg": [-180, 180], "tilt_deg": [-15, 90], "roll_deg": [-180, 180]}
                         for s in (1, 2)]}
    housings = [{"id": f"C{i + 1}", "model": "eye", "storey": "g",
                 "mount": {"fixing_m": [x, y, rng.uniform(2.4, 2.9)]},
                 "imagers": [{"slot": s, "aims": [{"pan_deg": pan + rng.uniform(-30, 30),
                                                   "tilt_deg": rng.uniform(10, 35)}]} for s in (1, 2)],
                 "streams": [{"id": f"c{i + 1}_{s}", "from": [s], "size_px": [1920, 1080],
                              "frames_per_s": 10, "codec": "H.265", "use": ["recorded"],
                              "rate": {"kind": "constant", "mbps": 2}} for s in (1, 2)]}
                for i, (x, y, pan) in enumerate(places)]
    zone = lambda n, *corners: {"id": n, "storey": "g", "outline": box(*corners)}
    ask = lambda n, at, share, **more: {"id": n, "zone": at, "target": {"kind": "person"}, "px_per_m": 90,
                                        "share": share, **more}
    return {
        "format": "belvedere.design", "version": 1, "title": f"Hall {seed}", "money": "EUR",
        "task_table": {"edition": "2014"},
        "site": {"buildings": [{"id": "h", "storeys": [{
            "id": "g", "floor_m": 0, "height_m": 3, "roof_m": 0.3, "outline": box(0, 0, wide, deep),
            "walls": [{"id": f"w{i}", "path": [a, b]} for i, (a, b) in enumerate(
                zip(box(0, 0, wide, deep), box(0, 0, wide, deep)[1:] + [[0, 0]]))]}]}],
                 "solids": boxes,
                 "zones": [zone("whole", 0.2, 0.2, wide - 0.2, deep - 0.2),
                           zone("west", 0.2, 0.2, wide / 2, deep - 0.2)]},
        "brief": [ask("R1", "whole", 0.8), ask("R2", "whole", 0.7), ask("R3", "west", 0.6),
                  ask("R4", "whole", 0.5, imagers=2), ask("R5", "west", 0.5, judged_on="captured"),
                  ask("R6", "whole", 0.55, facing_rule="each", facings=[
                      {"bearing_deg": b, "yaw_max_deg": 120, "elevation_max_deg": 80} for b in (0, 180)])],
        "catalogue": {"models": [
            model, {"id": "sw", "kind": "switch",
                    "capacity": {"ports": 8, "poe_class": 4, "poe_budget_w": 120}},
            {"id": "rec", "kind": "recorder", "capacity": {"channels": 16, "bays": 4}},
            {"id": "disk", "kind": "disk", "capacity": {"size_tb": 4}},
            {"id": "cat6", "kind": "cable", "capacity": {"media": "twisted_pair"}}]},
        "housings": housings,
        "services": {
            "devices": [{"id": "S1", "model": "sw", "at_m": [1, 0.2, 1]},
                        {"id": "S2", "model": "sw", "at_m": [wide - 1, 0.2, 1]},
                        {"id": "R", "model": "rec", "at_m": [2, 0.2, 1],
                         "disks": {"model": "disk", "count": 2, "raid": "1"}}],
            "links": [{"id": i, "from": a, "to": b, "cable": "cat6"} for i, a, b in
                      [("k1", "C1", "S1"), ("k2", "C2", "S2"), ("k3", "C3", "S2"), ("k4", "C4", "S1"),
                       ("up", "S2", "S1"), ("kr", "R", "S1")]],
            "recording": [{"id": f"keep_{s['id']}", "stream": s["id"], "device": "R", "days": 7}
                          for h in housings for s in h["streams"]]}}


def by_night(hall):
    """The same, lit by two luminaires that are no camera's: the light ends within the zones."""
    eye = hall["catalogue"]["models"][0]
    for imager in eye["imagers"]:
        imager["least_light"] = {"lux": 9, "f_number": 1.6, "exposure_s": 0.04, "contrast": 0.3}
        imager["lens"]["f_number"] = [1.6]
    photometry = {"path": "yard_light.ies",
                  "sha256": "67947869565943fe96f5aaf29119bccf7ac6f362bba1375016dd065b0e6e2a53"}
    hall["site"]["lights"] = [{"id": "glow", "kind": "ambient", "lux": 0.5}] + [
        {"id": f"L{i}", "kind": "luminaire", "at_m": [x, y, 2.8], "photometry": photometry}
        for i, (x, y) in enumerate([(3, 3), (7, 5.5)])]
    hall["situations"] = [{"id": "night", "lights": ["glow", "L0", "L1"]}]
    return hall


class AnyDesign(Failures):
    # The settled cells of the proof spare most proofs; whichever they spare must not have fallen, and
    # what falls is to the digit what a proof of the design without the part says.
    def test_equals_the_proof_of_what_is_left(self):
        fallen = asked = 0
        for seed in range(8):
            design = random_hall(seed) if seed < 5 else by_night(random_hall(seed))
            answer = self.answer("size", design, "--failures")
            for kind, name, gone in [("camera", "C1", ["C1"]), ("camera", "C3", ["C3"]),
                                     ("link", "k4", ["C4"]), ("switch", "S2", ["C2", "C3"])]:
                without = copy.deepcopy(design)
                for housing in without["housings"]:
                    if housing["id"] in gone:
                        housing["life"] = "removed"
                failure = self.part(answer, kind, name)
                self.assertEqual(failure["dark"], gone)
                self.compare(design, without, failure)
                fallen += len({f["requirement"] for f in failure["falls"] if f["what"] == "coverage"})
                asked += len(design["brief"])
        self.assertTrue(0.1 * asked < fallen < 0.9 * asked)  # neither to fall nor to stand is rare


class WorstFirst(Failures):
    # Closed form: 256 GB at 3 x 6 Mbit/s bridge 31.6 h at least.
    def test_cards_bridge_what_still_has_power(self):
        answer = self.answer("size", example("footbridge"), "--failures")
        for fall in self.part(answer, "link", "f1")["falls"]:
            self.assertAlmostEqual(fall["bridged_hours"]["low"], 256e9 / (18e6 / 8) / 3600, delta=1e-3)
        for fall in self.part(answer, "switch", "S2")["falls"]:
            self.assertNotIn("bridged_hours", fall)

    # By hand: the one head of the cold store is all there is; its switch, and the cable between, take
    # it with them. A disk of a mirror takes nothing.
    def test_one_head_is_one_failure(self):
        answer = self.answer("size", example("cold_store"), "--failures")
        most = answer["failures"][0]["requirements"]
        self.assertGreater(most, 0)
        for kind, name in (("camera", "C1"), ("switch", "S"), ("link", "k1")):
            self.assertEqual(self.part(answer, kind, name)["requirements"], most)
        self.assertEqual(self.part(answer, "disk", "R")["falls"], [])
        ranks = [(f["requirements"] - f["bridged"], f["requirements"], len(f["cut_off"]))
                 for f in answer["failures"]]
        self.assertEqual(ranks, sorted(ranks, reverse=True))

    # The recorder's loss takes what was to be kept with it; of R2 and R3 nothing is seen to begin with.
    def test_a_recorder_takes_its_recordings(self):
        answer = self.answer("size", example("footbridge"), "--failures")
        recorder = self.part(answer, "recorder", "R")
        self.assertEqual(len(recorder["recordings"]), 6)
        self.assertEqual({f["requirement"] for f in recorder["falls"] if f["what"] == "recordings"},
                         {"R1", "R4", "R5", "R6"})

    # Rules: with both heads of a pair gone, one has no imager left.
    def test_rules_fall_with_their_imagers(self):
        design = example("winter_yard")
        answer = self.answer("size", design, "--failures")
        falls = self.part(answer, "switch", "S")["falls"]
        self.assertEqual({f["requirement"] for f in falls if f["what"] == "rule"}, {"R2", "R3", "R4"})


if __name__ == "__main__":
    unittest.main()
