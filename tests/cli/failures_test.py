# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere size --failures: the loss of every part. Each claim is held
against a proof of the design with the part deleted by hand."""
import copy
import glob
import json
import os
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
