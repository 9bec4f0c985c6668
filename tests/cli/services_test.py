# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere services on the examples: what a good answer contains. Figures are worked out by hand
beside each test; none is the program's own output."""
import glob
import json
import math
import os
import shutil
import tempfile
import unittest

import jsonschema

from belvedere_cli import EXAMPLES, SCHEMAS, call, call_json


def example(name):
    with open(os.path.join(EXAMPLES, name, "design.json"), encoding="utf-8") as file:
        return json.load(file)


class Answers(unittest.TestCase):
    def setUp(self):
        self.temporary = tempfile.TemporaryDirectory()
        self.addCleanup(self.temporary.cleanup)

    def services(self, design):
        """The answer for a changed design; what it attaches lies beside it (examples give their
        attachments names of their own)."""
        for path in glob.glob(os.path.join(EXAMPLES, "*", "*.*")):
            shutil.copy(path, self.temporary.name)
        path = os.path.join(self.temporary.name, "design.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        code, answer = call_json("services", path, "--json")
        self.assertIn(code, (0, 1), answer)
        short = any(f["severity"] == "shortfall" for f in answer["findings"])
        self.assertEqual(code, 1 if short else 0)
        return answer

    def codes(self, answer):
        return {f["code"] for f in answer["findings"]}


class EveryExample(unittest.TestCase):
    # Property: the object fits its schema; the text keeps within 100 columns.
    def test_fits_schema_and_page(self):
        with open(os.path.join(SCHEMAS, "belvedere.services.schema.json"), encoding="utf-8") as file:
            schema = json.load(file)
        jsonschema.Draft7Validator.check_schema(schema)
        for design in sorted(glob.glob(os.path.join(EXAMPLES, "*", "design.json"))):
            code, answer = call_json("services", design, "--json")
            self.assertIn(code, (0, 1), design)
            jsonschema.validate(answer, schema)
            for line in call("services", design).stdout.splitlines():
                self.assertLessEqual(len(line), 100, line)


class FerryTerminal(Answers):
    # Closed form: four main streams of 6 Mbit/s for 31 days: 8.04 TB, 7.31 TiB.
    def test_main_streams_need_8_04_tb(self):
        recorder, = self.services(example("ferry_terminal"))["recording"]["recorders"]
        self.assertAlmostEqual(recorder["needed_tb"]["high"], 8.04, delta=0.005)
        self.assertAlmostEqual(recorder["needed_tib"]["high"], 7.31, delta=0.005)
        self.assertAlmostEqual(recorder["usable_tb"], 3 * 4 * 0.9, delta=1e-6)

    # Closed form: 8 m along the trunking north, 8 m along it east, 4 m down, 3 m of slack.
    def test_cable_follows_the_trunking(self):
        cables = self.services(example("ferry_terminal"))["network"]["cables"]
        cable = next(c for c in cables if c["link"] == "k1")
        self.assertAlmostEqual(cable["length_m"], 8 + 8 + 4 + 3, delta=1e-6)
        self.assertAlmostEqual(cable["contained_m"], 16, delta=1e-6)

    # Closed form: 41 W at the device over the worst channel (6.25 ohm) at 50 V: 46.4 W at the port.
    def test_forty_one_watts_ask_for_46_4_of_the_port(self):
        design = example("ferry_terminal")
        link = design["services"]["links"][0]
        del link["cable"]  # not chosen: the worst that a class allows for
        link["slack_m"] = 70
        link["temperature_c"] = 20
        feeding, = self.services(design)["power"]["feedings"]
        self.assertAlmostEqual(feeding["draw_w"]["cold_night"], 41, delta=1e-9)
        self.assertAlmostEqual(feeding["length_m"], 90, delta=1e-6)
        self.assertAlmostEqual(feeding["source_w"]["cold_night"], 46.4, delta=0.05)

    # Published: a port of class 4 gives 30 W and lets the device draw 25.5 W [IEEE 802.3].
    def test_a_port_of_30_watts_is_refused_and_lamps_are_named(self):
        design = example("ferry_terminal")
        switch = next(m for m in design["catalogue"]["models"] if m["kind"] == "switch")
        switch["capacity"]["poe_class"] = 4
        finding, = [f for f in self.services(design)["findings"]
                    if f["code"] == "port_class_short"]
        self.assertEqual(finding["severity"], "shortfall")
        self.assertIn("lamps", finding["sentence"])
        self.assertAlmostEqual(finding["found"]["value"], 25.5, delta=1e-9)

    # Closed form: a card of 256 GB shared by four imagers of 6 Mbit/s bridges 23.7 h at least.
    def test_the_card_bridges_a_day(self):
        card, = self.services(example("ferry_terminal"))["recording"]["cards"]
        self.assertEqual(card["imagers"], 4)
        self.assertAlmostEqual(card["hours"]["low"], 256e9 / (4 * 6e6 / 8) / 3600, delta=1e-3)


class WinterYard(Answers):
    # Closed form: five heads draw 110 W by day, 175 W by night and 205 W with their heaters on, at
    # their own ends; the switch gives 190 W. With the loss of some 50 m of cable a little more.
    def test_a_winter_night_overloads_the_switch(self):
        answer = self.services(example("winter_yard"))
        source, = answer["power"]["sources"]
        self.assertEqual(source["budget_w"], 190)
        self.assertTrue(110 < source["load_w"]["day"] < 115, source)
        self.assertTrue(175 < source["load_w"]["night"] < 185, source)
        self.assertTrue(205 < source["load_w"]["cold_night"] < 218, source)
        finding, = [f for f in answer["findings"] if f["code"] == "source_overloaded"]
        self.assertIn("cold night", finding["sentence"])
        # A head fewer, and the night is quiet.
        design = example("winter_yard")
        design["housings"][4]["life"] = "removed"
        design["services"]["links"] = [k for k in design["services"]["links"] if k["from"] != "C5"]
        self.assertNotIn("source_overloaded", self.codes(self.services(design)))

    def test_one_imager_left_at_a_smaller_size_is_found(self):
        finding, = [f for f in self.services(example("winter_yard"))["findings"]
                    if f["code"] == "settings_uneven"]
        self.assertEqual(finding["about"][0], "c3_2")

    # Rules run on pairs of imagers, 1 and 2 or 3 and 4, of those that see them.
    def test_rules_run_on_fixed_pairs(self):
        analytics = self.services(example("winter_yard"))["analytics"]
        self.assertEqual(analytics["gives"], [])
        seen = {c["requirement"]: c["imagers"] for c in analytics["candidates"]}
        used = {}
        for one in analytics["assigned"]:
            for imager in one["imagers"]:
                self.assertIn(imager, seen[one["requirement"]])
                head, slot = imager.split(".")
                used.setdefault(head, set()).add(int(slot))
        self.assertEqual(len(analytics["assigned"]), 3)
        for slots in used.values():
            self.assertTrue(slots <= {1, 2} or slots <= {3, 4}, used)


class SolarFarm(Answers):
    # Closed form: 18 W at the end of 7.41 (2.5 mm2) or 4.61 ohm/km (4 mm2) at 35 C, by the smaller
    # root; every pole has its 21.6 V. All of 1.5 mm2, the farthest would not.
    def test_every_pole_has_its_volts(self):
        design = example("solar_farm")
        answer = self.services(design)
        ohm = {"power_2_5": 7.41, "power_4": 4.61}
        cable = {k["from"]: k["cable"] for k in design["services"]["links"]
                 if k["cable" if "cable" in k else "from"].startswith("power")}
        for one in answer["power"]["feedings"]:
            r = 2 * one["length_m"] / 1000 * ohm[cable[one["housing"]]] * (1 + 0.00393 * 15)
            current = (24 - math.sqrt(24 * 24 - 4 * r * 18)) / (2 * r)
            self.assertAlmostEqual(one["load_v"], 24 - current * r, delta=1e-5)
            self.assertGreaterEqual(one["load_v"], 21.6)
        for model in design["catalogue"]["models"]:
            if model["id"].startswith("power_"):
                model["capacity"]["ohm_per_km"] = 12.1
        self.assertIn("volts_short", self.codes(self.services(design)))
        # And 12 V cannot be made to do, over any of them.
        for model in design["catalogue"]["models"]:
            if model["kind"] == "supply":
                model["capacity"]["out_v"] = 12
        self.assertIn("cannot_be_supplied", self.codes(self.services(design)))

    # Each cabinet has two ways to the others: no link of the ring cuts anybody off.
    def test_the_ring_bears_one_failure(self):
        cables = self.services(example("solar_farm"))["network"]["cables"]
        for cable in cables:
            if cable["link"].startswith("ring_"):
                self.assertEqual(cable["cut_off"], [], cable["link"])
        self.assertEqual(len(next(c for c in cables if c["link"] == "to_rec")["cut_off"]), 22)


if __name__ == "__main__":
    unittest.main()
