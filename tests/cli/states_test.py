# SPDX-License-Identifier: GPL-3.0-or-later
"""A site has states: each is proven by itself, and they are summed up over the year."""
import copy
import json
import os
import tempfile
import unittest

import jsonschema

from belvedere_cli import EXAMPLES, SCHEMAS, call, call_json

DOCK = os.path.join(EXAMPLES, "cold_store", "design.json")


def prove(design, folder):
    path = os.path.join(folder, "design.json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump(design, file)
    return path, call_json("prove", path, "--json")[1]


class States(unittest.TestCase):
    def setUp(self):
        with open(DOCK, encoding="utf-8") as file:
            self.dock = json.load(file)
        self.dock["brief"] = self.dock["brief"][:1]

    # Property: a state that leaves solids away is proven as a design without them, to the digit.
    def test_toggling_a_state_equals_a_separate_model(self):
        empty = next(s for s in self.dock["situations"] if s["id"] == "empty")
        separate = copy.deepcopy(self.dock)
        separate["site"]["solids"] = [s for s in separate["site"]["solids"]
                                      if s["id"] not in empty["absent"]]
        separate["situations"] = [dict(empty, absent=[])]
        with tempfile.TemporaryDirectory() as folder:
            _, whole = prove(self.dock, folder)
            _, alone = prove(separate, folder)
        row = next(r for r in whole["requirements"] if r["situation"] == "empty")
        only, = alone["requirements"]
        for key in ("share", "verdict", "zone_m2", "worst"):
            self.assertEqual(row.get(key), only.get(key), key)

    # Closed form: hours add up to those of the year that are stated, and each state weighs by its hours.
    def test_time_weighted_share_sums_to_the_whole(self):
        with tempfile.TemporaryDirectory() as folder:
            path, proof = prove(self.dock, folder)
            with open(os.path.join(SCHEMAS, "belvedere.proof.schema.json"), encoding="utf-8") as file:
                jsonschema.validate(proof, json.load(file))
            year, = proof["over_year"]
            rows = proof["requirements"]
            hours = {s["id"]: s["hours_per_year"] for s in self.dock["situations"]}
            self.assertEqual(sum(hours.values()), 8760)
            self.assertEqual(year["hours"], 8760)
            self.assertEqual(year["met_hours"], sum(hours[r["situation"]] for r in rows
                                                    if r["verdict"] == "met"))
            for end in ("low", "high"):
                wanted = sum(hours[r["situation"]] / 8760 * r["share"][end] for r in rows)
                self.assertAlmostEqual(year["share"][end], wanted, places=6)
            self.assertIn("over the year met for", call("prove", path).stdout)
            del self.dock["situations"][0]["hours_per_year"]
            _, proof = prove(self.dock, folder)
            self.assertEqual(proof["over_year"], [])


if __name__ == "__main__":
    unittest.main()
