# SPDX-License-Identifier: GPL-3.0-or-later
"""What answers say, and that they say it once: losses and situations that are alike, figures beside
their limits, heights above floors, what a change makes of the zone, cameras that hang where nobody
would hang them."""
import copy
import os
import re
import tempfile
import unittest

from belvedere_cli import EXAMPLES, SHOP, call, call_json, shop, write


def said(text):
    """Without the breaks that the page puts in."""
    return " ".join(text.split())


class Answers(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def written(self, design):
        return write(self.folder.name, design)

    # Property: a loss that changes nothing has no row of its own, two that leave the same share
    # one; the data keeps them all.
    def test_losses_that_are_alike_share_a_row(self):
        design = shop()
        for copy_of in ("X1", "X2"):  # two more cameras that serve nothing: they face a wall
            camera = copy.deepcopy(next(h for h in design["housings"] if h["id"] == "C2"))
            camera["id"] = copy_of
            camera["mount"]["fixing_m"] = [8.9, 5.5, 2.5]
            camera["imagers"][0]["aims"][0]["pan_deg"] = 90
            camera["mount"]["base_bearing_deg"] = 90
            for stream in camera["streams"]:
                stream["id"] += copy_of
            design["housings"].append(camera)
        design["brief"][0]["after_loss"] = [{"of": "any_housing"}]
        path = self.written(design)
        text = said(call("prove", path, "--only", "R1").stdout)
        self.assertIn("alike after the loss of C2, X1, X2", text)
        self.assertIn("without C1", text)
        self.assertNotIn("without X1,", text)
        _, proof = call_json("prove", path, "--only", "R1", "--json")
        self.assertEqual([r.get("without") for r in proof["requirements"]],
                         [None, "C1", "C2", "X1", "X2"])

    # Property: situations in which a requirement fares alike are explained once, and named.
    def test_situations_that_are_alike_are_explained_once(self):
        design = shop()
        design["brief"][0]["situations"] = ["open", "closed"]
        path = self.written(design)
        text = call("explain", path, "--requirement", "R1").stdout
        _, answer = call_json("explain", path, "--requirement", "R1", "--json")
        self.assertEqual([p["situation"] for p in answer["points"]], ["open", "closed"])
        if answer["points"][0]["measure"] == answer["points"][1]["measure"]:
            self.assertIn("R1 in open, closed at", text)
            self.assertEqual(text.count("Say beyond doubt"), 1)

    # Property: which figures are proven is said once.
    def test_what_is_proven_is_said_once(self):
        self.assertEqual(said(call("prove", SHOP).stdout).count("are proven bounds"), 1)

    # Property: no figure reads like its limit unless it is met exactly.
    def test_figures_never_read_like_their_limit(self):
        for example in ("shop", "ferry_terminal", "cold_store", "car_park_deck", "footbridge"):
            text = said(call("prove", os.path.join(EXAMPLES, example, "design.json")).stdout)
            for found, limit in re.findall(r"too_\w+: ([\d.]+) \S+ where (?:at most )?([\d.]+)", text):
                self.assertNotEqual(float(found), float(limit), example)

    # Property: heights of lenses count from their storey's floor. Closed form: the footbridge's
    # upper floor is above z = 0.
    def test_heights_count_from_the_floor(self):
        for example in ("shop", "footbridge"):
            path = os.path.join(EXAMPLES, example, "design.json")
            self.assertIn("above", call("check", path).stdout)
            _, checked = call_json("check", path, "--json")
            for imager in checked["imagers"]:
                self.assertGreater(imager["height_m"], 0)
                self.assertLessEqual(imager["height_m"], imager["lens_m"][2] + 1e-9)
        design = shop()
        for storey in design["site"]["buildings"][0]["storeys"]:
            storey["floor_m"] = storey.get("floor_m", 0) + 100
        for housing in design["housings"]:
            housing["mount"]["fixing_m"][2] += 100
        _, lifted = call_json("check", self.written(design), "--json")
        _, ground = call_json("check", SHOP, "--json")
        self.assertEqual([i["height_m"] for i in lifted["imagers"]],
                         [i["height_m"] for i in ground["imagers"]])
        self.assertNotIn("102.50", call("check", self.written(design)).stdout)

    # Property: what hides a spot is named; a storey hides with its slab.
    def test_a_slab_is_called_a_slab(self):
        design = shop()
        storey = design["site"]["buildings"][0]["storeys"][0]
        storey["roof_m"] = 0.3
        design["housings"] = design["housings"][:1]
        del design["services"]
        design["housings"][0]["mount"]["fixing_m"][2] = storey["height_m"] + 0.15  # in the roof
        text = said(call("explain", self.written(design), "--requirement", "R1", "--at",
                         "0.9,3").stdout)
        self.assertRegex(text, r"hidden.*behind the slab of Ground floor")

    # Property: a proposed change says what the zone's share becomes; making it gives that share.
    def test_changes_say_what_the_zone_becomes(self):
        _, answer = call_json("explain", SHOP, "--requirement", "R1", "--json")
        changes = answer["points"][0]["changes"]
        self.assertTrue(changes)
        for change in changes:
            self.assertLessEqual(change["share"]["low"], change["share"]["high"])
            if change["kind"] != "place":
                continue
            design = shop()
            housing = next(h for h in design["housings"] if h["id"] == change["housing"])
            housing["mount"]["fixing_m"] = change["to_fixing_m"]
            _, proof = call_json("prove", self.written(design), "--only", "R1", "--json")
            share = proof["requirements"][0]["share"]
            self.assertLessEqual(share["low"], change["share"]["high"] + 1e-6)
            self.assertGreaterEqual(share["high"], change["share"]["low"] - 1e-6)
        self.assertIn("; the zone then ", said(call("explain", SHOP, "--requirement", "R1").stdout))

    # Property: a turn that would keep a withheld zone says what it would cost the brief.
    def test_turns_away_say_what_falls(self):
        design = shop()
        for housing in design["housings"]:
            for imager in housing["imagers"]:
                imager.pop("masks", None)
        path = self.written(design)
        _, answer = call_json("explain", path, "--requirement", "R5", "--json")
        keeps = [k for zone in answer["withheld"] for k in zone["keeps"] if "turn_deg" in k]
        self.assertTrue(keeps, answer)
        for keep in keeps:
            self.assertIn("turn_loses", keep)
        text = said(call("explain", path, "--requirement", "R5").stdout)
        self.assertRegex(text, r"with the turn falls R|the turn lets nothing fall")

    # Property: the lens that a data sheet was fitted to is shown, with what it misses.
    def test_lenses_are_shown_with_their_residuals(self):
        design = shop()
        model = next(m for m in design["catalogue"]["models"] if m["id"] == "solo")
        model["imagers"][0]["lens"].pop("family")
        model["imagers"][0]["lens"]["vfov_deg"] = [62, 20]
        model["imagers"][0]["lens"]["dfov_deg"] = [125, 36.5]
        path = self.written(design)
        _, checked = call_json("check", path, "--json")
        solo = [lens for lens in checked["lenses"] if lens["model"] == "solo"]
        self.assertEqual([lens["end"] for lens in solo], ["wide", "tele"])
        self.assertTrue(any(abs(solo[0]["residual_deg"][f]) > 0.1 for f in ("hfov", "vfov", "dfov")))
        text = call("check", path).stdout
        self.assertIn("Lenses, as fitted to their data sheets", text)
        self.assertRegex(text, rf"solo +1 +wide +{solo[0]['focal_px']:.1f} +{solo[0]['k']:.3f}")


class Placing(unittest.TestCase):
    def findings(self, design, command="check"):
        with tempfile.TemporaryDirectory() as folder:
            _, answer = call_json(command, write(folder, design), "--json")
        return {f["code"]: f for f in reversed(answer["findings"])}  # the first of each code

    CODES = {"lens_inside_solid", "fixing_off_mounting", "lens_far_from_site",
             "outline_far_from_site"}

    # Property: the examples hang where cameras hang.
    def test_examples_have_none(self):
        for example in sorted(os.listdir(EXAMPLES)):
            _, answer = call_json("check", os.path.join(EXAMPLES, example, "design.json"), "--json")
            found = [f for f in answer["findings"] if f["code"] in self.CODES]
            self.assertEqual(found, [], example)

    def test_a_lens_in_a_slab_is_found(self):
        design = shop()
        design["housings"][0]["mount"]["fixing_m"][2] = -0.1
        for command in ("check", "prove"):
            finding = self.findings(design, command)["lens_inside_solid"]
            self.assertEqual(finding["about"][:2], ["C1.1", "ground"])

    def test_a_lens_in_a_solid_is_found(self):
        design = shop()
        x, y = design["housings"][1]["mount"]["fixing_m"][:2]
        design["site"]["solids"].append({
            "id": "box", "storey": "ground", "kind": "other", "base_m": 2, "top_m": 2.8,
            "outline": [[x - 0.1, y - 0.1], [x + 0.05, y - 0.1], [x + 0.05, y + 0.1],
                        [x - 0.1, y + 0.1]]})
        self.assertEqual(self.findings(design)["lens_inside_solid"]["about"][:2], ["C2.1", "box"])

    def test_a_fixing_in_millimetres_is_found(self):
        design = shop()
        mount = design["housings"][1]["mount"]
        mount["fixing_m"] = [1000 * x for x in mount["fixing_m"]]
        self.assertEqual(self.findings(design)["lens_far_from_site"]["about"], ["C2"])

    def test_a_fixing_off_its_mounting_is_found(self):
        design = shop()
        housing = next(h for h in design["housings"] if h["mount"].get("on"))
        housing["mount"]["fixing_m"][1] += 1.5
        finding = self.findings(design)["fixing_off_mounting"]
        self.assertEqual(finding["about"], [housing["id"], housing["mount"]["on"]])
        self.assertAlmostEqual(finding["found"]["value"], 1.5, delta=0.01)

    def test_an_outline_in_millimetres_is_found(self):
        design = shop()
        solid = design["site"]["solids"][0]
        solid["outline"] = [[1000 * x for x in p] for p in solid["outline"]]
        self.assertEqual(self.findings(design)["outline_far_from_site"]["about"], [solid["id"]])


if __name__ == "__main__":
    unittest.main()
