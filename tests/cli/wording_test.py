# SPDX-License-Identifier: GPL-3.0-or-later
"""What answers and refusals say of a design: enough to go on with, once, and in the trade's figures."""
import hashlib
import json
import os
import re
import shutil
import subprocess
import tempfile
import unittest

from belvedere_cli import SHOP, call, call_json, shop, write


def said(text):
    return " ".join(text.split())


class Wording(unittest.TestCase):
    def setUp(self):
        holder = tempfile.TemporaryDirectory()
        self.addCleanup(holder.cleanup)
        self.folder = holder.name

    def written(self, design):
        return write(self.folder, design)

    def requirement(self, design, name):
        return next(r for r in design["brief"] if r["id"] == name)

    def withheld(self):
        """The shop, where the customers' place is not to be filmed."""
        design = shop()
        design["brief"].append({"id": "RW", "purpose": "No filming", "kind": "withhold",
                                "zone": "customers", "target": {"kind": "person"}, "px_per_m": 12.5})
        return design

    def finding(self, design, code):
        _, answer = call_json("check", self.written(design), "--json")
        return [f for f in answer["findings"] if f["code"] == code]


class Rules(Wording):
    def rule(self, share=None):
        design = shop()
        rule = {"id": "RX", "purpose": "Loiterers", "kind": "rule", "rule": "loiter", "zone": "aisles",
                "target": {"kind": "person"}, "task": "observe", "imagers": 2, "situations": ["open"]}
        if share is not None:
            rule["share"] = share
        design["brief"] = [rule]
        return self.written(design)

    # Property: who does not see a rule's zone well enough is named with the share that it sees and
    # why not; asked for less than that share, it sees it well enough.
    def test_who_sees_how_much(self):
        path = self.rule(0.999)
        code, answer = call_json("explain", path, "--requirement", "RX", "--json")
        self.assertEqual(code, 1)
        rule = answer["rules"][0]
        self.assertLess(len(rule["imagers"]), 2)
        nearest = rule["others"][0]
        for other in rule["others"]:
            self.assertLessEqual(other["share"]["low"], nearest["share"]["low"])
            total = other["share"]["low"] + sum(r["share"] for r in other["reasons"])
            self.assertAlmostEqual(total, 1, delta=0.04)  # a lattice beside proven bounds
        self.assertGreater(nearest["share"]["low"], 0.05)
        text = call("explain", path, "--requirement", "RX").stdout
        self.assertIn(f"{nearest['imager']} sees", text)
        self.assertIn(nearest["reasons"][0]["reason"], text)
        proof = said(call("prove", path).stdout)
        self.assertRegex(proof, rf"nearest: {re.escape(nearest['imager'])} sees \d+\.\d % of it")
        less = self.rule(round(nearest["share"]["low"] - 0.02, 3))
        _, again = call_json("explain", less, "--requirement", "RX", "--json")
        self.assertIn(nearest["imager"], again["rules"][0]["imagers"])


class Explained(Wording):
    # Property: of who comes near a spot, the nearest few are listed; the others are counted.
    def test_only_the_nearest_are_listed(self):
        design = shop()
        twin = next(h for h in design["housings"] if h["id"] == "C1")
        for k in range(4):
            more = json.loads(json.dumps(twin))
            more["id"] = f"D{k}"
            for stream in more.get("streams", []):
                stream["id"] += str(k)
            more["mount"]["fixing_m"][1] += 0.02 * (k + 1)
            design["housings"].append(more)
        design["services"] = {}
        path = self.written(design)
        text = call("explain", path, "--requirement", "R1", "--at", "0.5,3").stdout
        self.assertEqual(text.count("then: "), 3)
        _, answer = call_json("explain", path, "--requirement", "R1", "--at", "0.5,3", "--json")
        listed = len(answer["points"][0]["imagers"])
        self.assertIn(f"and {listed - 4} that are farther from it", text)


class Drawn(Wording):
    # Property: the plan of a withheld zone names the densest spot, who films it and how densely, as
    # the proof does; a PDF is one A3 sheet.
    def test_a_withheld_zone_shows_its_densest_spot(self):
        path = self.written(self.withheld())
        _, answer = call_json("prove", path, "--only", "RW", "--json")
        row = answer["requirements"][0]
        out = os.path.join(self.folder, "rw.svg")
        done = call("draw", path, "--requirement", "RW", "--out", out)
        self.assertEqual(done.returncode, 0, done.stderr)
        with open(out, encoding="utf-8") as file:
            words = said(" ".join(re.findall(r"<text[^>]*>([^<]*)<", file.read())))
        found = re.search(r"RW densest: ([\d.]+) of at most 12\.5 px/m, by (\S+)", words)
        self.assertTrue(found, words)
        self.assertAlmostEqual(float(found[1]), row["densest_px_per_m"]["low"], delta=0.06)
        self.assertEqual(found[2], row["densest_imager"])

    def test_a_pdf_is_an_a3_sheet(self):
        out = os.path.join(self.folder, "plan.pdf")
        done = call("draw", SHOP, "--requirement", "R1", "--out", out)
        self.assertEqual(done.returncode, 0, done.stderr)
        with open(out, "rb") as file:
            data = file.read()
        self.assertTrue(data.startswith(b"%PDF-"))
        boxes = re.findall(rb"/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)", data)
        self.assertEqual(len(boxes), 1)
        # ISO 216: A3 is 297 mm x 420 mm; 72 points to the inch.
        for points, mm in zip(boxes[0], (420, 297)):
            self.assertAlmostEqual(float(points) / 72 * 25.4, mm, delta=0.5)


class Pictured(Wording):
    # Property: somebody near the lens is shown from head to feet, not cut to the 520 px of the other
    # crops (with which this page is 1491 px high).
    def test_a_near_figure_is_whole(self):
        out = os.path.join(self.folder, "r4.png")
        done = call("picture", SHOP, "--requirement", "R4", "--situation", "open", "--out", out)
        self.assertEqual(done.returncode, 0, done.stderr)
        with open(out, "rb") as file:
            head = file.read(24)
        self.assertGreater(int.from_bytes(head[20:24], "big"), 1700)


class Refused(Wording):
    def problems(self, path):
        done = call("check", path, "--json")
        self.assertEqual(done.returncode, 3, done.stderr)
        return json.loads(done.stdout)["problems"]

    # Property: what a fixed lens is told to be is answered with: leave it out.
    def test_a_fixed_lens_has_no_zoom_to_state(self):
        design = shop()
        design["housings"][0]["imagers"][0]["aims"][0]["hfov_deg"] = 50
        problems = self.problems(self.written(design))
        self.assertEqual([p["code"] for p in problems], ["zoom_out_of_range"])
        self.assertIn("has a fixed lens with 106", problems[0]["what"])
        self.assertIn("leave hfov_deg out", problems[0]["hint"])

    def with_catalogue(self, named, there):
        design = shop()
        models = design["catalogue"]["models"]
        text = json.dumps({"format": "belvedere.catalogue", "version": 1, "title": "Shop",
                           "models": models})
        with open(os.path.join(self.folder, there), "w", encoding="utf-8") as file:
            file.write(text)
        design["catalogue"] = {"files": [
            {"path": named, "sha256": hashlib.sha256(text.encode()).hexdigest()}]}
        return design

    # Property: a catalogue that cannot be used is one problem; what follows from it is counted.
    def test_a_missing_catalogue_is_one_problem(self):
        path = self.written(self.with_catalogue("tarnwick.json", "tarnwick.json"))
        self.assertEqual(call("check", path).returncode, 0)
        problems = self.problems(self.written(self.with_catalogue("tarnwik.json", "tarnwick.json")))
        self.assertEqual([p["code"] for p in problems], ["attachment_missing"])
        self.assertIn('did you mean "tarnwick.json"?', problems[0]["hint"])
        self.assertRegex(problems[0]["hint"], r"\d+ references to models of it follow from this")

    def test_a_changed_catalogue_is_one_problem(self):
        design = self.with_catalogue("tarnwick.json", "tarnwick.json")
        design["catalogue"]["files"][0]["sha256"] = "0" * 64
        design["brief"][0]["zone"] = "matt"  # no follower: still said
        problems = self.problems(self.written(design))
        self.assertEqual(sorted(p["code"] for p in problems), ["attachment_changed", "unknown_id"])

    # Property: an id that stands twice is said once, without what names the one that is hidden by it.
    def test_an_id_that_stands_twice_is_said_once(self):
        design = shop()
        design["housings"][1]["id"] = "C1"
        problems = self.problems(self.written(design))
        self.assertEqual([p["code"] for p in problems], ["duplicate_id"])


class Found(Wording):
    def test_a_fixing_in_millimetres_is_asked_about(self):
        design = shop()
        mount = design["housings"][1]["mount"]
        metres = list(mount["fixing_m"])
        mount["fixing_m"] = [1000 * x for x in metres]
        finding = self.finding(design, "lens_far_from_site")[0]
        self.assertIn("millimetres? Then write (" + ", ".join(f"{x:g}" for x in metres) + ")",
                      finding["sentence"])
        mount["fixing_m"] = [-9000, 5000, 5]  # far away, and in no millimetres of this site
        self.assertNotIn("millimetres", self.finding(design, "lens_far_from_site")[0]["sentence"])

    def test_hours_that_make_no_year(self):
        design = shop()
        self.assertEqual(self.finding(design, "hours_not_a_year"), [])
        design["situations"][0]["hours_per_year"] = 3000
        finding = self.finding(design, "hours_not_a_year")[0]
        self.assertEqual((finding["severity"], finding["found"]["value"]), ("note", 8360))

    def test_viewed_without_a_screen(self):
        design = shop()
        self.requirement(design, "R1")["judged_on"] = "viewed"
        design["services"].pop("screens", None)
        self.assertEqual(self.finding(design, "viewed_nowhere")[0]["about"],
                         ["R1", "C1.1", "C1.2", "C2.1"])
        self.requirement(design, "R1")["judged_on"] = "recorded"
        self.assertEqual(self.finding(design, "viewed_nowhere"), [])


class Proved(Wording):
    def moving(self):
        design = shop()
        for name in ("R1", "R2"):
            self.requirement(design, name)["target"]["speed_mps"] = 1.4
        for housing in design["housings"]:
            for imager in housing["imagers"]:
                imager["exposure_s"] = 0.04
        return self.written(design)

    # Property: of a requirement that was not asked for nothing is said; findings that differ in the
    # imager alone are one; an exposure is said as a share of a second, never longer than it is.
    def test_motion_blur_is_said_once(self):
        path = self.moving()
        _, answer = call_json("prove", path, "--only", "R2", "--json")
        blurs = [f for f in answer["findings"] if f["code"] == "motion_blur"]
        self.assertEqual({f["about"][1] for f in blurs}, {"R2"})
        self.assertEqual(len(blurs), 3)
        text = said(call("prove", path, "--only", "R2").stdout)
        self.assertEqual(text.count("[motion_blur]"), 1)
        self.assertIn("Likewise C1.2, C2.1.", text)
        # 125 px/m at 1.4 m/s: one pixel takes 1/175 s.
        self.assertIn("exposes for 1/25 s; 1/175 s keeps it to 1 px", text)

    # Property: what reads the same in every situation is said once, and only then called alike.
    def test_situations_that_are_alike_are_said_once(self):
        path = self.written(self.withheld())
        text = call("prove", path, "--only", "RW").stdout
        _, answer = call_json("prove", path, "--only", "RW", "--json")
        rows = answer["requirements"]
        self.assertEqual(len(rows), 2)
        if "alike in every situation" in text:
            self.assertEqual(text.count("densest "), 1)
            self.assertIn("in every situation, ", text)
        else:
            self.assertEqual(text.count("densest "), 2)

    def test_a_loss_says_what_is_asked_then(self):
        design = shop()
        self.requirement(design, "R4")["after_loss"] = [
            {"of": "C2", "still_task": "detect", "still_share": 0.2}]
        text = call("prove", self.written(design), "--only", "R4").stdout
        self.assertRegex(text, r"asked +25 px/m")


class Blind(Wording):
    # Property: the blind distance is that of the closed form (lens height less target height, over
    # the tangent of tilt and half the vertical field): handbook 7.
    def test_blind_distance_on_the_ground(self):
        _, checked = call_json("check", SHOP, "--json")
        imager = next(i for i in checked["imagers"] if i["imager"] == "C2.1")
        text = call("blind", SHOP, "--camera", "C2", "--target-m", "0.2,1.8").stdout
        part = text[text.index("Blind distance on the ground"):]
        row = re.search(r"C2\.1 +([\d.]+) +([\d.]+) +([\d.]+) +([\d.]+)", part)
        self.assertTrue(row, part)
        height, tilt, low, high = map(float, row.groups())
        import math
        below = math.radians(tilt + 0.5 * imager["vfov_deg"])
        self.assertAlmostEqual(low, (height - 0.2) / math.tan(below), delta=0.02)
        self.assertAlmostEqual(high, max(0, (height - 1.8) / math.tan(below)), delta=0.02)
        self.assertNotIn("Rings", text)
        self.assertIn("Cameras with one imager", text)

    # Property: heights that count from a counter are none of the floor's.
    def test_heights_above_a_counter_are_left_out(self):
        design = shop()
        design["site"]["solids"].append(
            {"id": "desk", "storey": "ground", "kind": "counter", "top_m": 0.9,
             "outline": [[4, 2], [5, 2], [5, 2.6], [4, 2.6]]})
        design["site"]["zones"].append(
            {"id": "top", "storey": "ground", "surface": "desk",
             "outline": [[4.1, 2.1], [4.9, 2.1], [4.9, 2.5], [4.1, 2.5]]})
        design["brief"].append({"id": "RT", "purpose": "Notes", "zone": "top", "px_per_m": 100,
                                "target": {"kind": "custom", "band_m": [0.07, 0.1]}})
        _, answer = call_json("prove", self.written(design), "--json")
        heights = {z["target_height_m"] for z in answer["blind_zones"]}
        self.assertTrue(heights)
        self.assertNotIn(0.07, heights)


@unittest.skipUnless(shutil.which("ffmpeg"), "no ffmpeg to make a clip with")
class Measured(Wording):
    # Property: one piece of evidence is added, or replaced; every other line stays as it was.
    def test_a_hand_written_file_keeps_its_lines(self):
        path = os.path.join(self.folder, "design.json")
        lines = ['{"format": "belvedere.design", "version": 1,']
        for key, value in shop().items():
            if key not in ("format", "version"):
                lines.append(f'   "{key}":   {json.dumps(value)},')
        lines[-1] = lines[-1].rstrip(",")
        lines.append("}")
        before = "\n".join(lines) + "\n"
        with open(path, "w", encoding="utf-8") as file:
            file.write(before)
        clip = os.path.join(self.folder, "clip.mp4")
        subprocess.run(["ffmpeg", "-v", "error", "-f", "lavfi", "-i", "testsrc=size=320x180:rate=10",
                        "-t", "3", clip], check=True)
        for _ in range(2):
            done = call("measure", clip, "--into", path, "--stream", "door_stream")
            self.assertEqual(done.returncode, 0, done.stderr + done.stdout)
            with open(path, encoding="utf-8") as file:
                after = file.read().splitlines()
            for line in before.splitlines()[:-2]:
                self.assertIn(line, after)
            design = json.loads("\n".join(after))
            self.assertEqual([e["of"] for e in design["evidence"]], ["door_stream"])
            self.assertEqual({k: v for k, v in design.items() if k != "evidence"}, shop())
            self.assertEqual(call("check", path).returncode, 0)


if __name__ == "__main__":
    unittest.main()
