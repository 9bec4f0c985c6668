# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere reach from the outside: figures worked here by hand, text that fits, exit codes."""
import json
import math
import os
import subprocess
import unittest

BELVEDERE = os.environ["BELVEDERE"]


def reach(*words):
    return subprocess.run([BELVEDERE, "reach", *words], capture_output=True, text=True, timeout=60)


def answer(*words):
    done = reach(*words, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


FIVE_MEGAPIXELS = ("--pixels", "2592x1944")


class Reach(unittest.TestCase):
    def test_distances_by_both_forms(self):
        """Closed form: pixels over (field in radians x density), and over 2 tan(field/2)."""
        for hfov in (49, 100):
            tasks = answer(*FIVE_MEGAPIXELS, "--hfov", str(hfov))["tasks"]
            self.assertEqual([t["task"] for t in tasks],
                             ["monitor", "detect", "observe", "recognise", "identify", "inspect"])
            self.assertEqual([t["density_px_per_m"] for t in tasks],
                             [12.5, 25, 62.5, 125, 250, 1000])
            half = math.radians(hfov) / 2
            for task in tasks:
                density = task["density_px_per_m"]
                self.assertAlmostEqual(task["distance_m"]["equidistant"],
                                       2592 / (2 * half * density), delta=1e-5)
                self.assertAlmostEqual(task["distance_m"]["rectilinear"],
                                       2592 / (2 * math.tan(half) * density), delta=1e-5)
                self.assertAlmostEqual(task["person_percent_of_height"],
                                       100 * 1.6 * density / 1944, delta=1e-5)
                self.assertAlmostEqual(task["picture_width_m"], 2592 / density, delta=1e-5)

    def test_facts_of_the_trade(self):
        """Common practice, no source: within 5 % by the form that data sheets use."""
        for hfov, known in ((100, (6, 12, 23, 60)), (49, (12, 24, 47, 120))):
            tasks = {t["task"]: t for t in answer(*FIVE_MEGAPIXELS, "--hfov", str(hfov))["tasks"]}
            for task, metres in zip(("identify", "recognise", "observe", "detect"), known):
                found = tasks[task]["distance_m"]["equidistant"]
                self.assertLess(abs(found / metres - 1), 0.05, (hfov, task))

    def test_floor_and_blind_distance(self):
        """Closed form: a rectilinear lens at 3 m, 30 deg down, 60 deg wide (F 1662.77 px)."""
        got = answer("--pixels", "1920x1080", "--hfov", "60", "--height", "3", "--tilt", "30",
                     "--target", "face", "--width-at", "10")
        blind = {b["target_height_m"]: b for b in got["blind"]}
        self.assertAlmostEqual(blind[1.45]["blind_to_m"], 1.396, delta=5e-4)
        self.assertAlmostEqual(blind[1.85]["blind_to_m"], 1.036, delta=5e-4)
        self.assertAlmostEqual(blind[0]["blind_to_m"], 2.702, delta=5e-4)
        self.assertAlmostEqual(blind[0]["seen_to_m"], 14.104, delta=5e-4)
        floor = {t["task"]: t["floor"] for t in got["tasks"]}
        edge = math.radians(30) - math.atan(540 / 1662.768775)
        self.assertAlmostEqual(floor["identify"]["from_m"], 1.396, delta=5e-4)
        # 250 px/m reaches past the frame's upper edge at 1.85 m, which ends it
        self.assertAlmostEqual(floor["identify"]["to_m"], 1.15 / math.tan(edge), delta=1e-3)
        self.assertIsNone(floor["inspect"])
        self.assertAlmostEqual(got["widths"][0]["flat_m"], 20 * math.tan(math.radians(30)), delta=1e-5)
        self.assertAlmostEqual(got["lens"]["axis_to_floor_m"], 6, delta=1e-6)

    def test_the_later_edition_says_that_it_is_from_memory(self):
        got = answer(*FIVE_MEGAPIXELS, "--hfov", "100", "--scale", "2025")
        self.assertEqual([t["density_px_per_m"] for t in got["tasks"]],
                         [20, 40, 80, 125, 250, 500, 1500])
        text = reach(*FIVE_MEGAPIXELS, "--hfov", "100", "--scale", "2025").stdout
        self.assertIn("from memory, unconfirmed", text)
        self.assertIn("IEC 62676-4:2025", text)

    def test_two_fields_fit_the_lens(self):
        """Closed form: 2688 x 1520 px, 106 and 60 deg are given back; a third may contradict."""
        got = answer("--pixels", "2688x1520", "--hfov", "106", "--vfov", "60")["imager"]
        self.assertEqual(got["family"], "fitted")
        self.assertAlmostEqual(got["hfov_deg"], 106, delta=0.01)
        self.assertAlmostEqual(got["vfov_deg"], 60, delta=0.01)
        done = reach("--pixels", "2688x1520", "--hfov", "106", "--vfov", "60", "--family",
                     "rectilinear")
        self.assertIn("contradict", done.stdout)

    def test_past_half_a_turn_only_the_arc_form_is_left(self):
        got = answer(*FIVE_MEGAPIXELS, "--hfov", "185", "--family", "equidistant")
        self.assertIsNone(got["tasks"][0]["distance_m"]["rectilinear"])
        self.assertGreater(got["tasks"][0]["distance_m"]["equidistant"], 0)

    def test_text_fits_a_hundred_columns(self):
        for words in (("--hfov", "100"), ("--hfov", "100", "--height", "3", "--tilt", "35"),
                      ("--hfov", "31", "--vfov", "23.5", "--height", "900", "--scale", "2025",
                       "--target", "face_seated", "--width-at", "1,99999.5")):
            done = reach(*FIVE_MEGAPIXELS, *words)
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertLessEqual(max(map(len, done.stdout.splitlines())), 100)

    def test_wrong_calls(self):
        for words in ((), ("--pixels", "2592x1944"), ("--hfov", "90"),
                      ("--pixels", "2592", "--hfov", "90"), ("--pixels", "1x1", "--hfov", "90"),
                      ("--pixels", "2592x1944", "--hfov", "nan"),
                      ("--pixels", "2592x1944", "--hfov", "190"),
                      ("--pixels", "2592x1944", "--hfov", "90", "--height", "nan"),
                      ("--pixels", "2592x1944", "--hfov", "90", "--tilt", "3"),
                      ("--pixels", "2592x1944", "--hfov", "90", "--scale", "2020"),
                      ("--pixels", "2592x1944", "--hfov", "90", "--target", "faze"),
                      ("--pixels", "2592x1944", "--hfov", "90", "--family", "fitted")):
            done = reach(*words)
            self.assertEqual(done.returncode, 2, words)
            self.assertEqual(done.stdout, "")
            self.assertNotEqual(done.stderr, "")


if __name__ == "__main__":
    unittest.main()
