# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere light: lamps, day and night, focus, pairing, sun."""
import json
import os
import tempfile
import unittest

import jsonschema

from belvedere_cli import EXAMPLES, SCHEMAS, call, call_json

FARM = os.path.join(EXAMPLES, "solar_farm", "design.json")
TERMINAL = os.path.join(EXAMPLES, "ferry_terminal", "design.json")


def room(folder):
    """A dark room 12 m wide with a zone at each end: one head of two imagers looks at both, and one
    lamp, carried by imager 1, can follow either. The first zone is asked for."""
    zone = lambda name, x0, x1: {"id": name, "storey": "floor",
                                 "outline": [[x0, 1], [x1, 1], [x1, 3], [x0, 3]]}
    imager = lambda slot: {"slot": slot, "pixels": [1920, 1080],
                           "lens": {"family": "rectilinear", "hfov_deg": [90], "f_number": [1.6]},
                           "pan_deg": [-180, 180], "tilt_deg": [-10, 90], "roll_deg": [0, 0]}
    lamp = lambda slot, by: {"slot": slot, "carried_by": by, "beam_deg": 60, "range_m": 12}
    ask = lambda name, at: {"id": name, "purpose": "see who is there", "kind": "see", "zone": at,
                            "target": {"kind": "person"}, "task": "detect", "share": 0.9}
    design = {
        "format": "belvedere.design", "version": 1, "title": "A dark room",
        "site": {
            "place": {"lat_deg": 52, "lon_deg": 5, "north_deg": 0, "time_zone": "Europe/Amsterdam"},
            "buildings": [{"id": "b", "storeys": [{
                "id": "floor", "floor_m": 0, "height_m": 4,
                "outline": [[-6, 0], [6, 0], [6, 4], [-6, 4]]}]}],
            "lights": [{"id": "glow", "kind": "ambient", "lux": 0.01}],
            "zones": [zone("west", -5, -3), zone("east", 3, 5)]},
        "situations": [{"id": "night", "lights": ["glow"]}],
        "brief": [ask("R1", "west"), ask("R2", "east")],
        "catalogue": {"models": [{
            "id": "twin", "kind": "housing", "imagers": [imager(1), imager(2)],
            "lamps": [lamp(1, 1), lamp(2, 2)]}]},
        "housings": [{
            "id": "C1", "model": "twin", "storey": "floor", "mount": {"fixing_m": [0, 2, 3.5]},
            "imagers": [{"slot": 1, "aims": [{"pan_deg": 270, "tilt_deg": 30}]},
                        {"slot": 2, "aims": [{"pan_deg": 90, "tilt_deg": 30}]}]}]}
    path = os.path.join(folder, "design.json")

    def write(change=None):
        if change:
            change(design)
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        return path
    return write


class Light(unittest.TestCase):
    # Property: what burns by night does not by day, and imagers are in mono by night alone.
    def test_day_and_night(self):
        code, answer = call_json("light", FARM, "--json")
        self.assertEqual(code, 0)
        day, night = answer["situations"]
        self.assertTrue(all(i["mode"] == "colour" for i in day["imagers"]))
        self.assertTrue(all(i["mode"] == "mono" for i in night["imagers"]))
        self.assertFalse(any(lamp["burns"] for lamp in day["lamps"]))
        self.assertTrue(all(lamp["burns"] for lamp in night["lamps"]))

    # Common practice, no source: lamps of a group serve both zones; a lamp that is off leaves its own
    # zone dark, and prove says so.
    def test_a_zone_without_lamp_is_too_dark(self):
        with tempfile.TemporaryDirectory() as folder:
            write = room(folder)
            code, _ = call_json("prove", write(), "--json")
            self.assertEqual(code, 0)
            off = lambda d: d["housings"][0].update(
                lamps=[{"slot": 1}, {"slot": 2, "follows": 0}])
            code, proof = call_json("prove", write(off), "--json")
            self.assertEqual(code, 1)
            west, east = proof["requirements"]
            self.assertEqual((west["verdict"], east["verdict"]), ("met", "not_met"))
            self.assertEqual(east["reasons"][0]["reason"], "too_dark")

    # Property: of two lamps, each carried by its imager, the pairing found is the one that holds both.
    def test_pairing_is_solved(self):
        with tempfile.TemporaryDirectory() as folder:
            crossed = lambda d: d["housings"][0].update(
                lamps=[{"slot": 1, "follows": 0}, {"slot": 2, "follows": 0}])
            _, answer = call_json("light", room(folder)(crossed), "--pairing", "--json")
            pairing, = answer["situations"][0]["pairings"]
            self.assertEqual(pairing["held"], ["R1", "R2"])
            self.assertEqual(pairing["held_as_written"], 0)
            self.assertEqual(pairing["without"], [])

    # Property: with one lamp for two imagers, one of them is said to go without.
    def test_pairing_says_who_goes_without(self):
        def one_lamp(d):
            d["catalogue"]["models"][0]["lamps"].pop()
        with tempfile.TemporaryDirectory() as folder:
            path = room(folder)(one_lamp)
            _, answer = call_json("light", path, "--pairing", "--json")
            pairing, = answer["situations"][0]["pairings"]
            self.assertEqual(pairing["held"], ["R1"])
            self.assertEqual(pairing["short"], ["R2"])
            self.assertEqual(len(pairing["without"]), 1)
            self.assertIn("goes without", call("light", path, "--pairing").stdout)

    # Closed form: north of the tropics, on an open roof, a camera that looks level to the south has
    # the sun in its picture in winter, one that looks north has not.
    def test_sun(self):
        def turned(d):
            for imager, pan in zip(d["housings"][0]["imagers"], (180, 0)):
                imager["aims"][0] = {"pan_deg": pan, "tilt_deg": 0}
        with tempfile.TemporaryDirectory() as folder:
            path = room(folder)(turned)
            code, answer = call_json("light", path, "--sun", "--json")
            self.assertEqual(code, 0)
            south, north = answer["sun"]
            self.assertGreater(south["in_frame_h"], 300)
            self.assertEqual(north["in_frame_h"], 0)
            chart = call("light", path, "--imager", "C1.1").stdout
            self.assertIn("2026-12-", chart)
            self.assertIn("#", chart)
            self.assertEqual(call("light", path, "--sun", "--imager", "C9.1").returncode, 2)

    def test_schema_is_sound(self):
        with open(os.path.join(SCHEMAS, "belvedere.light.schema.json"), encoding="utf-8") as file:
            jsonschema.Draft7Validator.check_schema(json.load(file))


if __name__ == "__main__":
    unittest.main()
