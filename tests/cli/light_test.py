# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere light: lamps, day and night, focus, pairing, sun."""
import hashlib
import json
import os
import tempfile
import unittest

import jsonschema

from belvedere_cli import EXAMPLES, SCHEMAS, call, call_json, write

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

    def write_room(change=None):
        if change:
            change(design)
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        return path
    return write_room


def yard(**changes):
    """An open slab with a zone of 10 x 10 m ahead of a camera without lamps: the design, to be changed."""
    design = {
        "format": "belvedere.design", "version": 1, "title": "A yard",
        "site": {
            "buildings": [{"id": "b", "storeys": [{
                "id": "s", "slab_m": 0.5, "height_m": 8,
                "outline": [[-30, -30], [30, -30], [30, 30], [-30, 30]]}]}],
            "zones": [{"id": "z", "storey": "s", "outline": [[-5, 5], [5, 5], [5, 15], [-5, 15]]}],
            "lights": [{"id": "glow", "kind": "ambient", "lux": 0.5}]},
        "situations": [{"id": "night", "lights": ["glow"]}],
        "brief": [{"id": "R1", "purpose": "see who is there", "kind": "see", "zone": "z",
                   "target": {"kind": "person"}, "task": "detect", "share": 0.9}],
        "catalogue": {"models": [{"id": "cam", "kind": "housing", "imagers": [{
            "slot": 1, "pan_deg": [-180, 180], "tilt_deg": [-90, 90], "roll_deg": [-180, 180],
            "pixels": [1920, 1080], "pitch_um": 2.8,
            "lens": {"family": "rectilinear", "hfov_deg": [90], "f_number": [1.6]}}]}]},
        "housings": [{"id": "C1", "model": "cam", "mount": {"fixing_m": [0, 0, 4]},
                      "imagers": [{"slot": 1, "aims": [{"pan_deg": 0, "tilt_deg": 20}]}]}]}
    design.update(changes)
    return design


def imager_of(design):
    return design["catalogue"]["models"][0]["imagers"][0]


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

    # Property: a model that says its lamps run together is said to, beside the pairing that would be best.
    def test_pairing_says_what_the_model_says(self):
        def together(d):
            d["catalogue"]["models"][0].setdefault("shared", []).append({"what": "lamps", "rule": "together"})
        with tempfile.TemporaryDirectory() as folder:
            for change, says in ((lambda d: None, False), (together, True)):
                path = room(folder)(change)
                _, answer = call_json("light", path, "--pairing", "--json")
                pairing, = answer["situations"][0]["pairings"]
                self.assertEqual(pairing.get("model_runs_together", False), says)
                self.assertEqual("run together" in " ".join(call("light", path, "--pairing").stdout.split()), says)

    # Property: where one imager alone is in mono both lamps are its, and the answer says that there was no choice;
    # where there was one it says nothing of the kind.
    def test_pairing_says_why_there_is_but_one(self):
        def one_in_mono(d):
            d["housings"][0]["imagers"][0]["mode"] = "colour"
        with tempfile.TemporaryDirectory() as folder:
            path = room(folder)(one_in_mono)
            _, answer = call_json("light", path, "--pairing", "--json")
            pairing, = answer["situations"][0]["pairings"]
            self.assertEqual(pairing["tried"], 1)
            self.assertEqual({lamp["follows"] for lamp in pairing["lamps"]}, {2})
            self.assertIn("imager 2 is the only one of", pairing["only"])
            self.assertIn("no other is possible", " ".join(call("light", path, "--pairing").stdout.split()))
            _, answer = call_json("light", room(folder)(), "--pairing", "--json")
            pairing, = answer["situations"][0]["pairings"]
            self.assertEqual(pairing["tried"], 2)
            self.assertNotIn("only", pairing)

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
            # Hours are those of Amsterdam's clocks in winter, an hour ahead of what 5 degrees east suggest.
            self.assertEqual((south["year"], south["utc_offset_h"]), (2026, 1))
            self.assertIn("clock at UTC+1", call("light", path, "--sun").stdout)
            chart = call("light", path, "--imager", "C1.1").stdout
            self.assertIn("2026-12-", chart)
            self.assertIn("#", chart)
            self.assertEqual(call("light", path, "--sun", "--imager", "C9.1").returncode, 2)

    # Property: what is asked of one situation is told of it, behind faces as in the picture, where the requirement must hold in
    # it; else the situation is named. A screen behind the faces, there by dusk alone, hides the sun.
    def test_the_sun_in_a_situation(self):
        design = yard()
        design["site"]["place"] = {"lat_deg": 52, "lon_deg": 5}
        design["site"]["solids"] = [{"id": "screen", "storey": "s", "kind": "other", "top_m": 7, "outline": [
            [-20, 16], [20, 16], [20, 17], [-20, 17]]}]
        design["site"]["place"]["north_deg"] = 180
        design["situations"] = [{"id": "day", "absent": ["screen"]}, {"id": "dusk"}, {"id": "night"}]
        design["brief"][0].update(target={"kind": "face"}, situations=["day", "dusk"], facings=[{"bearing_deg": 180}])
        with tempfile.TemporaryDirectory() as folder:
            path = write(folder, design)
            behind = {}
            for name in ("day", "dusk", "night"):
                _, answer = call_json("light", path, "--sun", "--situation", name, "--json")
                behind[name], = answer["backlight"]
            text = call("light", path, "--sun", "--situation", "night").stdout
        self.assertEqual([behind[name]["situation"] for name in ("day", "dusk", "night")], ["day", "dusk", "day"])
        self.assertGreater(behind["day"]["behind_h"], 2 * behind["dusk"]["behind_h"])
        self.assertIn("R1 (in day)", text)

    # Property: a camera that looks the same way from beside it is no way out of the sun; one that looks from the side of it is.
    def test_another_imager_is_named_where_it_has_much_less_sun(self):
        design = yard()
        design["site"]["place"] = {"lat_deg": 52, "lon_deg": 5, "north_deg": 180}
        design["situations"] = [{"id": "day"}]
        design["brief"][0].update(target={"kind": "face"}, share=0.01, px_per_m=20, facings=[{"bearing_deg": 180}])
        design["brief"][0].pop("task")
        beside = json.loads(json.dumps(design["housings"][0]))
        beside.update(id="C2")
        design["housings"].append(beside)
        said = {}
        with tempfile.TemporaryDirectory() as folder:
            for x, y, pan in ((0.2, 0, 0), (0, 24, 180)):
                beside["mount"]["fixing_m"] = [x, y, 4]
                beside["imagers"][0]["aims"][0]["pan_deg"] = pan
                design["brief"][0]["facings"] = [{"bearing_deg": 180}, {"bearing_deg": 0}]
                _, answer = call_json("prove", write(folder, design), "--json")
                said[pan] = [f["sentence"] for f in answer["findings"] if f["code"] == "backlight"]
        self.assertEqual(len(said[0]), 2)
        self.assertTrue(all("look from the other side" in sentence for sentence in said[0]), said[0])
        self.assertIn("for C2.1 only", said[180][0])

    # Property: the focus that the answer says to write into the aim serves as the proof took it to.
    def test_the_focus_said_is_the_one_proven(self):
        design = yard()
        imager_of(design).update(pixels=[3840, 2160], pitch_um=1.45, lens={
            "family": "rectilinear", "hfov_deg": [31], "f_number": [1.4]})
        design["site"]["zones"][0]["outline"] = [[-1, 6], [1, 6], [1, 29], [-1, 29]]
        design["brief"][0].update(task="recognise", share=0.05)
        stream = lambda name, wide: {"id": name, "from": [1], "size_px": [wide, wide * 9 // 16],
                                     "use": ["recorded"]}
        design["housings"][0]["streams"] = [stream("main", 1920), stream("small", 960)]
        with tempfile.TemporaryDirectory() as folder:
            path = write(folder, design)
            _, answer = call_json("light", path, "--json")
            focus = answer["situations"][0]["imagers"][0]["focus"]
            self.assertFalse(focus["stated"])
            _, chosen = call_json("prove", path, "--json")
            design["housings"][0]["imagers"][0]["aims"][0]["focus_m"] = focus["at_m"]
            _, stated = call_json("prove", write(folder, design), "--json")
        share = lambda proof: proof["requirements"][0]["share"]
        self.assertAlmostEqual(share(chosen)["low"], share(stated)["low"], 3)
        self.assertAlmostEqual(share(chosen)["high"], share(stated)["high"], 3)

    # By hand: 0.0123 lx where 0.04 lx are needed; what lamps alone decide is a share.
    def test_says_how_dark_it_is(self):
        design = yard()
        design["site"]["lights"][0]["lux"] = 0.0123
        imager_of(design)["least_light"] = {"lux": 0.04, "f_number": 1.6, "exposure_s": 0.04}
        with tempfile.TemporaryDirectory() as folder:
            said = call("prove", write(folder, design)).stdout
            self.assertIn("0.0123 lx where 0.04 is needed", " ".join(said.split()))
            del imager_of(design)["least_light"]
            design["catalogue"]["models"][0]["lamps"] = [
                {"slot": 1, "carried_by": 1, "range_m": 3, "beam_deg": 20}]
            said = call("prove", write(folder, design)).stdout
        self.assertIn("% of enough light", " ".join(said.split()))
        self.assertNotIn("e+", said)

    # By hand: a pole over the middle of a rack lights the floor beside it; a strip 1 m wide and 50 m
    # long has its row of the table, and a zone that no light reaches is dark and not even.
    def test_evenness_is_of_where_one_can_stand(self):
        pole = "TILT=NONE\n1 9000 1 2 1 1 2 0 0 0 1 1 90\n0 85\n0\n6000 6000\n"
        design = yard()
        design["site"]["lights"] = [{
            "id": "pole", "kind": "luminaire", "at_m": [0, 10, 7], "photometry": {
                "path": "pole.ies", "sha256": hashlib.sha256(pole.encode()).hexdigest()}}]
        design["situations"][0]["lights"] = ["pole"]
        zone = lambda name, x0, y0, x1, y1: {"id": name, "storey": "s", "outline": [
            [x0, y0], [x1, y0], [x1, y1], [x0, y1]]}
        design["site"]["zones"] += [zone("strip", -25, 3, 25, 4), zone("behind", -5, -29, 5, -25)]
        box = lambda name, x0, y0, x1, y1, top: dict(
            zone(name, x0, y0, x1, y1), kind="furniture", top_m=top)
        design["site"]["solids"] = [box("rack", -1, 9, 1, 11, 0.1), box("screen", -20, -22, 20, -21, 8)]
        with tempfile.TemporaryDirectory() as folder:
            with open(os.path.join(folder, "pole.ies"), "w", encoding="ascii") as file:
                file.write(pole)
            path = write(folder, design)
            code, answer = call_json("light", path, "--json")
            text = call("light", path).stdout
        self.assertEqual(code, 0)
        zones = {z["zone"]: z for z in answer["situations"][0]["zones"]}
        self.assertGreater(zones["z"]["least_lux"], 0)  # not that of the floor under the rack
        self.assertGreater(zones["strip"]["most_lux"], zones["strip"]["least_lux"])
        self.assertEqual(zones["behind"]["most_lux"], 0)
        row, = [line for line in text.splitlines() if line.strip().startswith("behind")]
        self.assertTrue(row.endswith("dark"), row)

    # Property: an aperture is written for a lens of which nobody states how wide it opens; it is said alone.
    def test_an_aperture_beside_no_stated_one(self):
        design = yard()
        for model in design["catalogue"]["models"]:
            for imager in model.get("imagers", []):
                imager["lens"].pop("f_number", None)
                imager.pop("least_light", None)
        design["housings"][0]["imagers"][0]["f_number"] = 16
        with tempfile.TemporaryDirectory() as folder:
            done = call("light", write(folder, design))
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("f/16", done.stdout)
        self.assertNotIn(" of f/", done.stdout)
        self.assertIn("[aperture_unstated]", done.stdout)
        self.assertIn("hold at f/1, and 256 times", " ".join(done.stdout.split()))

    # Property: white light dazzles an imager in colour as well as one in mono.
    def test_white_lamps_shine_into_colour_pictures(self):
        design = yard()
        lamp = json.loads(json.dumps(design["catalogue"]["models"][0]))
        lamp.update(id="white", lamps=[{"slot": 1, "range_m": 60, "beam_deg": 90, "wave_nm": 555}])
        design["catalogue"]["models"].append(lamp)
        design["housings"].append({
            "id": "W1", "model": "white", "mount": {"fixing_m": [0, 12, 2], "base_bearing_deg": 180},
            "imagers": [{"slot": 1, "mode": "colour", "aims": [{"pan_deg": 180, "tilt_deg": 0}]}]})
        with tempfile.TemporaryDirectory() as folder:
            for mode in ("colour", "mono"):
                design["housings"][0]["imagers"][0]["mode"] = mode
                _, answer = call_json("light", write(folder, design), "--json")
                found = [f for f in answer["findings"] if f["code"] == "lamp_in_frame"]
                self.assertEqual(len(found), 1, mode)

    # By hand: a lamp 12 m off and 2 m lower stands 10.5 deg above the axis of an aim that looks 20 deg down, in a picture
    # 58.7 deg high: 18.8 deg, 19 in whole degrees, farther down take it out. The first aim looks the other way.
    def test_every_aim_is_asked_for_lamps_in_the_picture(self):
        design = yard()
        design["catalogue"]["models"].append({"id": "white", "kind": "lamp", "lamps": [
            {"slot": 1, "range_m": 60, "beam_deg": 90, "wave_nm": 555}]})
        design["housings"].append({"id": "W1", "model": "white",
                                   "mount": {"fixing_m": [0, 12, 2], "base_bearing_deg": 180}})
        design["housings"][0]["imagers"][0]["aims"] = [
            {"pan_deg": pan, "tilt_deg": 20, "time_share": 0.5} for pan in (180, 0)]
        with tempfile.TemporaryDirectory() as folder:
            _, answer = call_json("light", write(folder, design), "--json")
            text = call("light", write(folder, design)).stdout
        found, = [f for f in answer["findings"] if f["code"] == "lamp_in_frame"]
        self.assertTrue(found["sentence"].startswith("C1.1 aim 2 (night)"), found["sentence"])
        self.assertIn("with aim 2 tilted 19 deg farther down it does not", found["sentence"])
        self.assertRegex(text, r"W1 lamp 1 +own cell +yes")

    # Property: what fails and what would mend it name the aim that they speak of.
    def test_answers_name_the_aim(self):
        design = yard()
        design["brief"][0].pop("task")
        design["brief"][0]["px_per_m"] = 120
        imager_of(design)["lens"].update(hfov_deg=[90, 30], focal_mm=[4, 14])
        design["housings"][0]["imagers"][0]["aims"] = [
            {"pan_deg": pan, "tilt_deg": 20, "time_share": 0.5} for pan in (180, 0)]
        with tempfile.TemporaryDirectory() as folder:
            path = write(folder, design)
            _, answer = call_json("explain", path, "--requirement", "R1", "--at", "0,10", "--json")
            point = answer["points"][0]
            self.assertEqual((point["imager"], point["name"]), ("C1.1", "C1.1 aim 2"))
            zoom, = [c for c in point["changes"] if c["kind"] == "zoom"]
            self.assertTrue(zoom["sentence"].startswith("C1.1 aim 2: zoom from"), zoom["sentence"])
            _, proof = call_json("prove", path, "--json")
            self.assertEqual(proof["requirements"][0]["worst"]["name"], "C1.1 aim 2")
            table = call("check", path).stdout
        self.assertRegex(table, r"\n    aim 2 +0\.00 +0\.00 +4\.00 +0\.0 +20\.0")

    # Closed form: a hundredth of a second is a whole pulse of lamps at 50 Hz, and at 60 Hz 1.2 of them; what is shorter than
    # one pulse is mended by none.
    def test_mains_of_fifty_and_of_sixty_hertz(self):
        pole = "TILT=NONE\n1 9000 1 2 1 1 2 0 0 0 1 1 90\n0 85\n0\n6000 6000\n"
        design = yard()
        design["site"]["lights"] = [{
            "id": "pole", "kind": "luminaire", "at_m": [0, 10, 7], "photometry": {
                "path": "pole.ies", "sha256": hashlib.sha256(pole.encode()).hexdigest()}}]
        design["situations"][0]["lights"] = ["pole"]
        said = {}
        with tempfile.TemporaryDirectory() as folder:
            with open(os.path.join(folder, "pole.ies"), "w", encoding="ascii") as file:
                file.write(pole)
            for hertz, exposure_s in ((50, 0.01), (60, 0.01), (60, 0.002), (50, 1 / 120)):
                design["site"]["mains_hz"] = hertz
                design["housings"][0]["imagers"][0]["exposure_s"] = exposure_s
                _, answer = call_json("light", write(folder, design), "--json")
                said[hertz, exposure_s] = [f["sentence"] for f in answer["findings"] if f["code"] == "mains_flicker"]
        self.assertEqual(said[50, 0.01], [])
        self.assertIn("leaves 16 % of the ripple of lamps on the mains at 60 Hz; 1/120 s leaves none",
                      said[60, 0.01][0])
        self.assertIn("only 1/120 s and whole multiples of it leave none", said[60, 0.002][0])
        self.assertIn("at 50 Hz; only 1/100 s and whole multiples of it leave none", said[50, 1 / 120][0])

    # Closed form, the thin lens: f = 1920 px / tan 15.5 deg at 1.45 um is 10.04 mm. Set to 10 m its image is 10.1 um behind
    # the focal plane; for infrared 30 um more, as at 2.52 m by light. Half of the shift each is within a pixel at f/10.3.
    def test_infrared_is_out_of_focus(self):
        design = yard()
        imager_of(design).update(pixels=[3840, 2160], pitch_um=1.45, lens={
            "family": "rectilinear", "hfov_deg": [31], "f_number": [1.4], "infrared_shift_um": 30})
        design["catalogue"]["models"][0]["lamps"] = [{"slot": 1, "carried_by": 1, "range_m": 60, "beam_deg": 40}]
        design["housings"][0]["imagers"][0]["aims"][0]["focus_m"] = 10
        with tempfile.TemporaryDirectory() as folder:
            sentences = []
            for shift in (30, 0):
                imager_of(design)["lens"]["infrared_shift_um"] = shift
                _, answer = call_json("light", write(folder, design), "--json")
                sentences.append([f["sentence"] for f in answer["findings"] if f["code"] == "infrared_focus"])
        self.assertIn("by light and nowhere by infrared; focused at 2.52 m", sentences[0][0])
        self.assertIn("from about f/10 on", sentences[0][0])
        self.assertEqual(sentences[1], [])

    # By hand: 1000 cd all about, 10 m behind whoever stands in the middle of the zone, put 10 lx on their backs. The camera's
    # lamp gives twice what is enough (0.05 lx) at its 20 m over 14, so that their faces count as 0.1 lx: a hundredth. Dimmed
    # to a five-hundredth, the light behind is a fifth of it.
    def test_a_lamp_does_not_outshine_the_ground_behind(self):
        lamp = "TILT=NONE\n1 9000 1 2 1 1 2 0 0 0 1 1 90\n0 180\n0\n1000 1000\n"
        design = yard()
        imager_of(design)["least_light"] = {"lux": 0.05, "f_number": 1.6, "exposure_s": 0.04}
        design["catalogue"]["models"][0]["lamps"] = [{"slot": 1, "carried_by": 1, "range_m": 20, "beam_deg": 80}]
        design["housings"][0]["imagers"][0]["mode"] = "mono"
        design["site"]["lights"] = [{
            "id": "behind", "kind": "luminaire", "at_m": [0, 20, 5], "photometry": {
                "path": "p.ies", "sha256": hashlib.sha256(lamp.encode()).hexdigest()}}]
        design["situations"][0]["lights"] = ["behind"]
        found = {}
        with tempfile.TemporaryDirectory() as folder:
            with open(os.path.join(folder, "p.ies"), "w", encoding="ascii") as file:
                file.write(lamp)
            for factor in (1, 0.002):
                design["site"]["lights"][0]["factor"] = factor
                _, answer = call_json("light", write(folder, design), "--json")
                found[factor] = [f for f in answer["findings"] if f["code"] == "lit_from_behind"]
        self.assertEqual(found[0.002], [])
        one, = found[1]
        self.assertGreater(one["found"]["value"], 60)
        self.assertLess(one["found"]["value"], 1000)

    # Property: photometry that cannot be used is told before anything is computed with it, named by a situation or not.
    def test_check_reads_photometry(self):
        design = yard()
        with tempfile.TemporaryDirectory() as folder:
            for text in ("", "TILT=NONE\n1 9000 1 2 1 1 2 0 0 0 1 1 90\n0 85\n0\n6000 -6000\n"):
                with open(os.path.join(folder, "p.ies"), "w", encoding="ascii") as file:
                    file.write(text)
                design["site"]["lights"][1:] = [{
                    "id": "pole", "kind": "luminaire", "at_m": [0, 10, 7], "photometry": {
                        "path": "p.ies", "sha256": hashlib.sha256(text.encode()).hexdigest()}}]
                done = call("check", write(folder, design))
                self.assertEqual(done.returncode, 3)
                self.assertIn("photometry_unusable", done.stdout + done.stderr)

    # Property: lamps of which all burn whoever they follow go with the imagers into whose pictures they shine.
    def test_pairing_goes_by_the_beams_where_the_brief_fares_alike(self):
        def crossed(d):
            for lamp, by in zip(d["catalogue"]["models"][0]["lamps"], (2, 1)):
                lamp["carried_by"] = by
        with tempfile.TemporaryDirectory() as folder:
            _, answer = call_json("light", room(folder)(crossed), "--pairing", "--json")
            pairing, = answer["situations"][0]["pairings"]
        self.assertEqual([(lamp["lamp"], lamp["follows"]) for lamp in pairing["lamps"]], [(1, 2), (2, 1)])

    # Common practice, no source: between the levels of its switch an imager stays as it was; the answer marks that. What is
    # asked of one situation is told of that one.
    def test_marks_who_stays_as_it_was(self):
        design = yard()
        design["site"]["lights"].append({"id": "twilight", "kind": "ambient", "lux": 4})
        design["situations"].append({"id": "dusk", "lights": ["twilight"]})
        with tempfile.TemporaryDirectory() as folder:
            path = write(folder, design)
            dusk, night = call("light", path, "--situation", "dusk").stdout, call("light", path, "--situation", "night").stdout
        self.assertIn("colour~", dusk)
        self.assertIn("stays as it was", dusk)
        self.assertNotIn("~", night)
        self.assertIn("(dusk)", dusk)
        self.assertNotIn("(night)", dusk)

    # Property: an exposure is said as a share of a second only where that says the same.
    def test_exposures_are_said_as_they_are(self):
        design = yard()
        imager_of(design)["least_light"] = {"lux": 0.04, "f_number": 1.6, "exposure_s": 0.04}
        with tempfile.TemporaryDirectory() as folder:
            for exposure_s, words in ((0.6, "f/1.6, 0.6 s"), (0.02, "f/1.6, 1/50 s"), (0.5, "f/1.6, 1/2 s")):
                design["housings"][0]["imagers"][0]["exposure_s"] = exposure_s
                self.assertIn(words, call("light", write(folder, design)).stdout)

    # Property: the year of one imager becomes a drawing, by the file's ending; a call that cannot be meant
    # so is refused before anything is computed.
    def test_the_suns_year_as_a_drawing(self):
        with tempfile.TemporaryDirectory() as folder:
            path, out = room(folder)(), lambda name: os.path.join(folder, name)
            for name, start in (("sun.svg", b"<?xml"), ("sun.pdf", b"%PDF"), ("sun.png", b"\x89PNG")):
                done = call("light", path, "--imager", "C1.1", "--chart", out(name))
                self.assertEqual(done.returncode, 0, done.stderr)
                self.assertIn("wrote", done.stdout)
                with open(out(name), "rb") as file:
                    self.assertTrue(file.read().startswith(start), name)
            with open(out("sun.svg"), encoding="utf-8") as file:
                self.assertIn("The sun on C1.1 in 2026", file.read())
            for wrong, words in ((["--imager", "C1.1", "--chart", out("sun.svg")], "--force"),
                                 (["--chart", out("other.svg")], "--imager"),
                                 (["--imager", "C1.1", "--chart", out("sun.gif")], ".svg")):
                done = call("light", path, *wrong)
                self.assertEqual(done.returncode, 2)
                self.assertIn(words, done.stderr)

    # Closed form: (4/1.6)^2 = 6.25 times the light; a lens opens no wider than it does, and prove says so.
    def test_a_lens_that_is_stopped_down(self):
        design = yard()
        imager_of(design)["least_light"] = {"lux": 0.04, "f_number": 1.6, "exposure_s": 0.04}
        set_imager = design["housings"][0]["imagers"][0]
        with tempfile.TemporaryDirectory() as folder:
            needed = {}
            for f_number in (1.2, 1.6, 4):
                set_imager["f_number"] = f_number
                path = write(folder, design)
                _, answer = call_json("light", path, "--json")
                imager = answer["situations"][0]["imagers"][0]
                needed[f_number] = imager["needed_lux"]
                self.assertEqual((imager["f_number"], imager["widest_f_number"]), (max(1.6, f_number), 1.6))
                _, proof = call_json("prove", path, "--json")
                found = [f for f in proof["findings"] if f["code"] == "aperture_too_wide"]
                self.assertEqual([f["about"] for f in found], [["C1.1"]] if f_number < 1.6 else [])
            self.assertIn("f/4 of f/1.6", call("light", path).stdout)
        self.assertAlmostEqual(needed[1.2], 0.04, 9)
        self.assertAlmostEqual(needed[4], 0.25, 9)

    def test_schema_is_sound(self):
        with open(os.path.join(SCHEMAS, "belvedere.light.schema.json"), encoding="utf-8") as file:
            jsonschema.Draft7Validator.check_schema(json.load(file))


if __name__ == "__main__":
    unittest.main()
