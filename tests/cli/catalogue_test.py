# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere catalogue: lists, filters, compares; tables out and back; the demo catalogue."""
import csv
import io
import json
import os
import shutil
import tempfile
import unittest

from belvedere_cli import EXAMPLES, call, call_json

DEMO = os.path.join(EXAMPLES, "..", "catalogues", "tarnwick.json")


class Catalogue(unittest.TestCase):
    def test_demo_has_every_kind_of_housing(self):
        code, catalogue = call_json("catalogue", DEMO, "--where", "kind=housing", "--json")
        self.assertEqual(code, 0)
        housings = {m["id"]: m for m in catalogue["models"]}
        self.assertGreaterEqual(len(housings), 12)
        imagers = {len(m["imagers"]) for m in housings.values()}
        self.assertTrue({1, 2, 3, 4, 5} <= imagers)
        self.assertTrue(any(i.get("remote") for m in housings.values() for i in m["imagers"]))
        self.assertTrue(any(i["lens"].get("family") == "equidistant"
                            for m in housings.values() for i in m["imagers"]))

    # Its numbers contradict each other as those of real sheets do, and the answer says what is used.
    def test_contradictions_are_reconciled_in_words(self):
        text = call("catalogue", DEMO).stdout
        for code in ("lens_residual", "focal_contradicts_field", "class_contradicts_draw",
                     "start_below_rest", "ip_without_jets"):
            self.assertIn(f"[{code}]", text)
        for line in text.splitlines():
            self.assertLessEqual(len(line), 100, line)

    # A design's check says it of the models that it uses, of imagers and of devices, and of no others.
    def test_check_says_what_sheets_contradict(self):
        with open(os.path.join(EXAMPLES, "shop", "design.json"), encoding="utf-8") as file:
            design = json.load(file)
        models = {m["id"]: m for m in design["catalogue"]["models"]}
        solo, twin = models["solo"], models["twin"]
        solo["imagers"][0]["lens"]["vfov_deg"] = [30, 20]  # 105 deg across are 72.5 down, by hand
        twin["power"]["start_w"] = 1
        unused = dict(twin, id="unused", ratings={"ip": "IP67"})
        design["catalogue"]["models"].append(unused)
        with tempfile.TemporaryDirectory() as folder:
            shutil.copytree(os.path.join(EXAMPLES, "shop"), folder, dirs_exist_ok=True)
            path = os.path.join(folder, "design.json")
            with open(path, "w", encoding="utf-8") as file:
                json.dump(design, file)
            code, answer = call_json("check", path, "--json")
        self.assertEqual(code, 0, answer)
        found = {(f["code"], about) for f in answer["findings"] for about in f["about"]}
        self.assertIn(("lens_residual", "solo"), found)
        self.assertIn(("start_below_rest", "twin"), found)
        self.assertFalse([f for f in answer["findings"] if "unused" in f["about"]])

    # Outside: the table is read by another library (Python's csv), cell by cell.
    def test_table_goes_out_and_comes_back(self):
        table = call("catalogue", DEMO, "--csv", "-").stdout
        rows = list(csv.DictReader(io.StringIO(table)))
        with open(DEMO, encoding="utf-8") as file:
            models = json.load(file)["models"]
        self.assertEqual([r["id"] for r in rows], [m["id"] for m in models])
        for row, model in zip(rows, models):
            self.assertEqual(float(row["price"]), model["price"])
            if model.get("imagers"):
                self.assertEqual(row["imagers/1/pixels"].split(),
                                 [str(n) for n in model["imagers"][0]["pixels"]])
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "t.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write(table)
            done = call("catalogue", path, "--json")
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertEqual(done.stdout, call("catalogue", DEMO, "--json").stdout)

    def test_bad_rows_are_named_and_the_good_ones_kept(self):
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "t.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write("id;kind;price\ngood;mount;12,5\nbad;mount;dear\n")
            done = call("catalogue", path)
            self.assertEqual(done.returncode, 3)
            self.assertIn("row 3, column price", done.stderr)
            self.assertIn("good", done.stdout)
            self.assertNotIn("dear", done.stdout)

    def test_filters_and_compares(self):
        text = call("catalogue", DEMO, "--where", "kind=switch", "--where", "poe_class>=6").stdout
        self.assertIn("sw8x", text)
        self.assertNotIn("sw24", text)
        text = call("catalogue", DEMO, "--compare", "turret,bullet").stdout
        self.assertIn("imagers/1/lens/hfov_deg", text)
        self.assertEqual(call("catalogue", DEMO, "--where", "prots>3").returncode, 2)
        self.assertEqual(call("catalogue", DEMO, "--compare", "turet").returncode, 2)
        self.assertEqual(call("catalogue", DEMO, "--where", "ports").returncode, 2)
        done = call("catalogue", DEMO, "--where", "price<cheap")
        self.assertEqual(done.returncode, 2)
        self.assertIn("a number", done.stderr)


if __name__ == "__main__":
    unittest.main()
