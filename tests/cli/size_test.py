# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere size on the examples: what a good answer contains. Figures are worked out by hand
beside each test; none is the program's own output."""
import csv
import glob
import json
import math
import os
import shutil
import tempfile
import time
import unittest

import jsonschema
import openpyxl

from belvedere_cli import EXAMPLES, SCHEMAS, call, call_json


def example(name):
    with open(os.path.join(EXAMPLES, name, "design.json"), encoding="utf-8") as file:
        return json.load(file)


class Answers(unittest.TestCase):
    def setUp(self):
        self.temporary = tempfile.TemporaryDirectory()
        self.addCleanup(self.temporary.cleanup)

    def sizes(self, design):
        """The answer for a changed design; what it attaches lies beside it (examples give their
        attachments names of their own)."""
        for path in glob.glob(os.path.join(EXAMPLES, "*", "*.*")):
            shutil.copy(path, self.temporary.name)
        path = os.path.join(self.temporary.name, "design.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        code, answer = call_json("size", path, "--json")
        self.assertIn(code, (0, 1), answer)
        short = any(f["severity"] == "shortfall" for f in answer["findings"])
        self.assertEqual(code, 1 if short else 0)
        return answer

    def codes(self, answer):
        return {f["code"] for f in answer["findings"]}


class EveryExample(unittest.TestCase):
    # Property: the object fits its schema; the text keeps within 100 columns.
    def test_fits_schema_and_page(self):
        with open(os.path.join(SCHEMAS, "belvedere.size.schema.json"), encoding="utf-8") as file:
            schema = json.load(file)
        jsonschema.Draft7Validator.check_schema(schema)
        for design in sorted(glob.glob(os.path.join(EXAMPLES, "*", "design.json"))):
            code, answer = call_json("size", design, "--json")
            self.assertIn(code, (0, 1), design)
            jsonschema.validate(answer, schema)
            for line in call("size", design).stdout.splitlines():
                self.assertLessEqual(len(line), 100, line)


class FerryTerminal(Answers):
    # Closed form: four main streams of 6 Mbit/s for 31 days: 8.04 TB, 7.31 TiB.
    def test_main_streams_need_8_04_tb(self):
        recorder, = self.sizes(example("ferry_terminal"))["recording"]["recorders"]
        self.assertAlmostEqual(recorder["needed_tb"]["high"], 8.04, delta=0.005)
        self.assertAlmostEqual(recorder["needed_tib"]["high"], 7.31, delta=0.005)
        self.assertAlmostEqual(recorder["usable_tb"], 3 * 4 * 0.9, delta=1e-6)

    # Closed form: 8 m along the trunking north, 8 m along it east, 4 m down, 3 m of slack.
    def test_cable_follows_the_trunking(self):
        cables = self.sizes(example("ferry_terminal"))["network"]["cables"]
        cable = next(c for c in cables if c["link"] == "k1")
        self.assertAlmostEqual(cable["length_m"], 8 + 8 + 4 + 3, delta=1e-6)
        self.assertAlmostEqual(cable["contained_m"], 16, delta=1e-6)

    # Closed form: a way of its own wins, whatever the trunking: the sides of its path between its ends, with
    # the drops to it, and the slack; a load is the sum of the streams that it names.
    def test_a_drawn_way_wins_and_says_so(self):
        design = example("ferry_terminal")
        link = design["services"]["links"][0]
        found = next(c for c in self.sizes(design)["network"]["cables"] if c["link"] == "k1")
        self.assertFalse(found["drawn"])
        self.assertAlmostEqual(sum(s["mbps"] for s in found["carries"]), found["load_mbps"], delta=1e-6)
        self.assertTrue(found["carries"])
        start, end = found["path"][0], found["path"][-1]
        over = [[start[0] + 1, start[1], 3.5], [start[0] + 1, start[1] + 2, 3.5]]
        link["path"] = over
        cable = next(c for c in self.sizes(design)["network"]["cables"] if c["link"] == "k1")
        self.assertTrue(cable["drawn"])
        drop = 1 + abs(3.5 - start[2])
        last = math.dist(over[1][:2], end[:2]) + abs(3.5 - end[2])
        self.assertAlmostEqual(cable["length_m"], drop + 2 + last + link.get("slack_m", 0), delta=1e-6)

    # Closed form: 41 W at the device over the worst channel (6.25 ohm) at 50 V: 46.4 W at the port.
    def test_forty_one_watts_ask_for_46_4_of_the_port(self):
        design = example("ferry_terminal")
        link = design["services"]["links"][0]
        del link["cable"]  # not chosen: the worst that a class allows for
        link["slack_m"] = 70
        link["temperature_c"] = 20
        feeding, = self.sizes(design)["power"]["feedings"]
        self.assertAlmostEqual(feeding["draw_w"]["cold_night"], 41, delta=1e-9)
        self.assertAlmostEqual(feeding["length_m"], 90, delta=1e-6)
        self.assertAlmostEqual(feeding["source_w"]["cold_night"], 46.4, delta=0.05)

    # Published: a port of class 4 gives 30 W and lets the device draw 25.5 W [IEEE 802.3].
    def test_a_port_of_30_watts_is_refused_and_lamps_are_named(self):
        design = example("ferry_terminal")
        switch = next(m for m in design["catalogue"]["models"] if m["kind"] == "switch")
        switch["capacity"]["poe_class"] = 4
        finding, = [f for f in self.sizes(design)["findings"]
                    if f["code"] == "port_class_short"]
        self.assertEqual(finding["severity"], "shortfall")
        self.assertIn("lamps", finding["sentence"])
        self.assertAlmostEqual(finding["found"]["value"], 25.5, delta=1e-9)

    # Closed form: a card of 256 GB shared by four imagers of 6 Mbit/s bridges 23.7 h at least.
    def test_the_card_bridges_a_day(self):
        card, = self.sizes(example("ferry_terminal"))["recording"]["cards"]
        self.assertEqual(card["imagers"], 4)
        self.assertAlmostEqual(card["hours"]["low"], 256e9 / (4 * 6e6 / 8) / 3600, delta=1e-3)


class Shop(Answers):
    # By hand: 0.2 m up, 3.1 m along the batten, 2.9 m along the wall and 0.7 m down, 1 m of slack; the
    # camera behind the counter 2.9 m less; the recorder beside its switch 1 m and half a metre: 14.4 m,
    # with a tenth for waste 16 m. 640 + 420 + 95 + 310 + 2 x 85 + 16 x 1.10 = 1652.60.
    def test_the_bill_keeps_within_the_budget(self):
        answer = self.sizes(example("shop"))
        length = {c["link"]: c["length_m"] for c in answer["network"]["cables"]}
        self.assertAlmostEqual(length["k1"], 7.9, delta=1e-6)
        self.assertAlmostEqual(length["k2"], 5.0, delta=1e-6)
        self.assertAlmostEqual(length["k3"], 1.5, delta=1e-6)
        bill = answer["bill"]
        self.assertEqual((bill["total"], bill["complete"], bill["money"]), (1652.6, True, "EUR"))
        self.assertEqual(bill["limits"], [{"requirement": "R6", "most": 1900, "verdict": "met"}])
        # Three heads more, and it does not.
        design = example("shop")
        for k in range(3):
            design["housings"].append(dict(design["housings"][1], id=f"C{k + 7}", streams=[]))
        short = self.sizes(design)
        self.assertEqual(short["bill"]["limits"][0]["verdict"], "not_met")
        self.assertIn("money_over", self.codes(short))

    # Closed form: 18 Mbit/s half of the day for 21 days are 2.04 TB; a mirror of 3 TB holds 2.7.
    def test_a_mirror_keeps_three_weeks(self):
        recorder, = self.sizes(example("shop"))["recording"]["recorders"]
        self.assertAlmostEqual(recorder["needed_tb"]["high"], 18e6 / 8 * 43200 * 21 / 1e12, delta=1e-6)
        self.assertAlmostEqual(recorder["usable_tb"], 2.7, delta=1e-9)


class ColdStore(Answers):
    # By hand: 2.25 m to the line under the ceiling, 18.15 m and 13.75 m along two walls, 4.55 m down to
    # the cabinet, 2 m of slack. The heater is on: 41 W at the head, 42 to 44 at the port.
    def test_heater_and_length(self):
        answer = self.sizes(example("cold_store"))
        feeding, = answer["power"]["feedings"]
        self.assertAlmostEqual(feeding["length_m"], 2.25 + 18.15 + 13.75 + 4.55 + 2, delta=1e-6)
        self.assertEqual(feeding["draw_w"]["cold_night"], 41)
        self.assertTrue(42 < feeding["source_w"]["cold_night"] < 44, feeding)
        self.assertEqual(self.codes(answer) & {"too_cold", "not_powered", "source_overloaded"}, set())


class Footbridge(Answers):
    # By hand: 1.2 m up, 41.2 m under the canopy, 1.2 m down, 4 m of slack; from the west switch 5.7 m
    # down the riser, 10.4 m and 3.1 m along the platform, 1.1 m down.
    def test_fibre_goes_along_the_canopy_and_down_the_riser(self):
        length = {c["link"]: c for c in self.sizes(example("footbridge"))["network"]["cables"]}
        self.assertAlmostEqual(length["f1"]["length_m"], 1.2 + 41.2 + 1.2 + 4, delta=1e-6)
        self.assertAlmostEqual(length["f2"]["length_m"], 5.7 + 10.4 + 3.1 + 1.1 + 4, delta=1e-6)
        self.assertEqual(length["f1"]["cut_off"], ["C2"])

    # Closed form: six streams of 6 Mbit/s for 31 days: 12.05 TB; five disks of 4 TB in level 5 hold 14.4.
    def test_a_month_fits(self):
        recorder, = self.sizes(example("footbridge"))["recording"]["recorders"]
        self.assertAlmostEqual(recorder["needed_tb"]["high"], 6 * 6e6 / 8 * 86400 * 31 / 1e12, delta=1e-6)
        self.assertAlmostEqual(recorder["usable_tb"], 14.4, delta=1e-9)


class CarParkDeck(Answers):
    # By hand: 0.05 m down to the tray, 16 m, 15.35 m and 7.4 m along it, 1 m down, 2 m of slack. At
    # their own ends four heads draw 41 W and four 12.5 W: 214 W, and some 2 % more at the switch.
    def test_lengths_and_one_switch_for_all(self):
        answer = self.sizes(example("car_park_deck"))
        cable = next(c for c in answer["network"]["cables"] if c["link"] == "k1")
        self.assertAlmostEqual(cable["length_m"], 0.05 + 16 + 15.35 + 7.4 + 1 + 2, delta=1e-6)
        source, = answer["power"]["sources"]
        self.assertTrue(214 < source["load_w"]["cold_night"] < 222, source)
        self.assertEqual(source["housings"], 8)
        # Eight heads ask for more than a smaller switch has.
        design = example("car_park_deck")
        switch = next(m for m in design["catalogue"]["models"] if m["kind"] == "switch")
        switch["capacity"].update(ports=6, poe_budget_w=180)
        self.assertTrue({"ports_short", "source_overloaded"} <= self.codes(self.sizes(design)))


class Schedules(Answers):
    def write(self, design, *options):
        path = os.path.join(self.temporary.name, "design.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        folder = os.path.join(self.temporary.name, "out")
        done = call("size", path, "--schedules", folder, *options)
        return done, folder

    def csv(self, folder, name):
        with open(os.path.join(folder, name + ".csv"), newline="", encoding="utf-8") as file:
            return list(csv.DictReader(file))

    # Published: RFC 4180 (CRLF, quotes doubled). The workbook is read back by another library, openpyxl.
    def test_workbook_and_csv_hold_the_same(self):
        done, folder = self.write(example("footbridge"), "--network", "10.20.0.0/24")
        self.assertIn(done.returncode, (0, 1), done.stderr)
        book = openpyxl.load_workbook(os.path.join(folder, "schedules.xlsx"))
        self.assertEqual(book.sheetnames, ["Cameras", "Cables", "Addresses", "Bill"])
        for name in book.sheetnames:
            rows = list(book[name].iter_rows(values_only=True))
            with open(os.path.join(folder, name.lower() + ".csv"), "rb") as file:
                raw = file.read()
            self.assertEqual(raw.count(b"\n"), raw.count(b"\r\n"))
            table = list(csv.reader(raw.decode("utf-8").splitlines(keepends=True)))
            self.assertEqual(len(table), len(rows))
            self.assertEqual(table[0], list(rows[0]))
            for cells, values in zip(table[1:], rows[1:]):
                for cell, value in zip(cells, values):
                    if isinstance(value, (int, float)):
                        self.assertAlmostEqual(float(cell), value, delta=0.51)
                    else:
                        self.assertEqual(cell, value or "")

    # By hand: three cables' lengths, an imager's aim, addresses by the rule from .2 on.
    def test_what_the_schedules_say(self):
        _, folder = self.write(example("footbridge"), "--network", "10.20.0.0/24")
        cables = {row["cable"]: row for row in self.csv(folder, "cables")}
        self.assertEqual(cables["f1"]["length m"], "47.6")
        self.assertEqual(cables["f2"]["along"], "riser_west; platform_duct")
        self.assertEqual((cables["f2"]["from storey"], cables["f2"]["to storey"]) != ("", ""), True)
        imagers = {row["imager"]: row for row in self.csv(folder, "cameras")}
        design = example("footbridge")
        aim = design["housings"][0]["imagers"][0]["aims"][0]
        self.assertAlmostEqual(float(imagers["C1.1"]["pan deg"]), aim["pan_deg"], delta=0.051)
        self.assertEqual(len(imagers), 6)
        self.assertEqual([row["address"] for row in self.csv(folder, "addresses")],
                         [f"10.20.0.{n}" for n in range(2, 7)])

    # A stated address stays, the rule steps over it; without a rule none is made up.
    def test_addresses_are_stated_or_by_the_rule(self):
        design = example("footbridge")
        design["services"]["devices"][0]["settings"] = [{"key": "address", "value": "10.20.0.3"}]
        done, folder = self.write(design)
        self.assertEqual([row["address"] for row in self.csv(folder, "addresses")],
                         ["10.20.0.3", "", "", "", ""])
        self.assertEqual(self.write(design)[0].returncode, 2)  # they are there already
        _, folder = self.write(design, "--network", "10.20.0.0/29", "--force")
        self.assertEqual([row["address"] for row in self.csv(folder, "addresses")],
                         ["10.20.0.3", "10.20.0.2", "10.20.0.4", "10.20.0.5", "10.20.0.6"])
        small = self.write(design, "--network", "10.20.0.0/30", "--force")[0]
        self.assertEqual(small.returncode, 3)
        self.assertIn("design.json: 1 problem", small.stderr)
        self.assertEqual(self.write(design, "--network", "10.20.0.9/24", "--force")[0].returncode, 2)

    # What a spreadsheet would take for a formula goes out as text.
    def test_formulas_are_defused(self):
        design = example("footbridge")
        design["housings"][0]["title"] = '=HYPERLINK("http://x","a, b")'
        design["housings"][1]["title"] = "Brücke \"Ost\""
        _, folder = self.write(design)
        titles = [row["title"] for row in self.csv(folder, "cameras")]
        self.assertIn("'" + design["housings"][0]["title"], titles)
        self.assertIn(design["housings"][1]["title"], titles)
        sheet = openpyxl.load_workbook(os.path.join(folder, "schedules.xlsx"))["Cameras"]
        column = [cell.value for cell in sheet[1]].index("title") + 1
        cell = sheet.cell(row=2, column=column)
        self.assertEqual((cell.value, cell.data_type), (design["housings"][0]["title"], "s"))

    # Property: the same design gives the same bytes.
    def test_same_bytes(self):
        _, folder = self.write(example("footbridge"))
        with open(os.path.join(folder, "schedules.xlsx"), "rb") as file:
            first = file.read()
        time.sleep(1.1)  # whatever would be dated would differ
        self.write(example("footbridge"), "--force")
        with open(os.path.join(folder, "schedules.xlsx"), "rb") as file:
            self.assertEqual(file.read(), first)


class WinterYard(Answers):
    # Closed form: five heads draw 110 W by day, 175 W by night and 205 W with their heaters on, at
    # their own ends; the switch gives 190 W. With the loss of some 50 m of cable a little more.
    def test_a_winter_night_overloads_the_switch(self):
        answer = self.sizes(example("winter_yard"))
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
        self.assertNotIn("source_overloaded", self.codes(self.sizes(design)))

    def test_one_imager_left_at_a_smaller_size_is_found(self):
        finding, = [f for f in self.sizes(example("winter_yard"))["findings"]
                    if f["code"] == "settings_uneven"]
        self.assertEqual(finding["about"][0], "c3_2")

    # Rules run on pairs of imagers, 1 and 2 or 3 and 4, of those that see them.
    def test_rules_run_on_fixed_pairs(self):
        analytics = self.sizes(example("winter_yard"))["analytics"]
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
        answer = self.sizes(design)
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
        self.assertIn("volts_short", self.codes(self.sizes(design)))
        # And 12 V cannot be made to do, over any of them.
        for model in design["catalogue"]["models"]:
            if model["kind"] == "supply":
                model["capacity"]["out_v"] = 12
        self.assertIn("cannot_be_supplied", self.codes(self.sizes(design)))

    # Closed form: with 21.6 V left of 24 a load of 18 W takes 18/21.6 A; the run on which 2.4 V are lost.
    def test_the_table_says_how_long_a_run_may_be(self):
        path = os.path.join(EXAMPLES, "solar_farm", "design.json")
        rows = [line.split() for line in call("size", path).stdout.splitlines()]
        ohm = {"power_2_5": 7.41, "power_4": 4.61}
        runs = [row for row in rows if len(row) > 9 and row[3] in ohm]
        self.assertTrue(runs)
        for row in runs:
            longest = 2.4 / (18 / 21.6) / (2 * ohm[row[3]] / 1000 * (1 + 0.00393 * 15))
            self.assertEqual(int(row[5]), math.floor(longest), row)

    # Each cabinet has two ways to the others: no link of the ring cuts anybody off.
    def test_the_ring_bears_one_failure(self):
        cables = self.sizes(example("solar_farm"))["network"]["cables"]
        for cable in cables:
            if cable["link"].startswith("ring_"):
                self.assertEqual(cable["cut_off"], [], cable["link"])
        self.assertEqual(len(next(c for c in cables if c["link"] == "to_rec")["cut_off"]), 22)


if __name__ == "__main__":
    unittest.main()
