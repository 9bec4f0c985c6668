# SPDX-License-Identifier: GPL-3.0-or-later
"""Pictures of imagers: size, what the file says of itself, the same bytes on any number of threads,
pages, and what is said of a wrong call."""
import json
import os
import re
import signal
import struct
import subprocess
import tempfile
import time
import unittest
import zlib

from belvedere_cli import BELVEDERE, EXAMPLES, call, shop, write


def small_shop():
    """The shop with imagers of few pixels."""
    design = shop()
    for model in design["catalogue"]["models"]:
        for imager in model.get("imagers", []):
            across, down = imager["pixels"]
            imager["pixels"] = [across // 8, down // 8]
    for housing in design["housings"]:
        for stream in housing.get("streams", []):
            stream["size_px"] = [size // 8 for size in stream["size_px"]]
    return design


def read_png(path):
    """Width, height and texts of a PNG (ISO/IEC 15948: chunks of length, type, data, CRC)."""
    with open(path, "rb") as file:
        data = file.read()
    if data[:8] != b"\x89PNG\r\n\x1a\n":
        raise ValueError("no PNG")
    at, texts, size = 8, {}, None
    while at < len(data):
        (length,), kind = struct.unpack(">I", data[at:at + 4]), data[at + 4:at + 8]
        body = data[at + 8:at + 8 + length]
        (crc,) = struct.unpack(">I", data[at + 8 + length:at + 12 + length])
        if crc != zlib.crc32(kind + body):
            raise ValueError("wrong CRC")
        if kind == b"IHDR":
            size = struct.unpack(">II", body[:8])
        elif kind == b"tEXt":
            key, text = body.split(b"\0", 1)
            texts[key.decode("latin-1")] = text.decode("latin-1")
        elif kind == b"zTXt":
            key, text = body.split(b"\0", 1)
            texts[key.decode("latin-1")] = zlib.decompress(text[1:]).decode("latin-1")
        elif kind == b"iTXt":
            key, rest = body.split(b"\0", 1)
            packed, rest = rest[0], rest[2:].split(b"\0", 2)[2]
            texts[key.decode("latin-1")] = (zlib.decompress(rest) if packed else rest).decode("utf-8")
        at += 12 + length
    return size, texts


def greys(path):
    """Rows of the mean of each pixel's channels, of a PNG of 8 bits (ISO/IEC 15948: filters)."""
    with open(path, "rb") as file:
        data = file.read()
    at, packed = 8, b""
    while at < len(data):
        (length,), kind = struct.unpack(">I", data[at:at + 4]), data[at + 4:at + 8]
        body = data[at + 8:at + 8 + length]
        if kind == b"IHDR":
            width, height, depth, colours = struct.unpack(">IIBB", body[:10])
        elif kind == b"IDAT":
            packed += body
        at += 12 + length
    if depth != 8 or colours not in (2, 6):
        raise ValueError("no picture of 8 bits")
    channels = 3 if colours == 2 else 4
    raw, step, rows = zlib.decompress(packed), width * channels, []
    before = bytearray(step)
    for y in range(height):
        kind = raw[y * (step + 1)]
        row = bytearray(raw[y * (step + 1) + 1:(y + 1) * (step + 1)])
        for i in range(step):
            left, up = row[i - channels] if i >= channels else 0, before[i]
            corner = before[i - channels] if i >= channels else 0
            guess = left + up - corner
            near = min((left, up, corner), key=lambda v: abs(guess - v))
            row[i] = (row[i] + (0, left, up, (left + up) // 2, near)[kind]) & 255
        rows.append([sum(row[i:i + 3]) / 3 for i in range(0, step, channels)])
        before = row
    return rows


def yard():
    """A camera over an open slab by day, no light stated."""
    return {
        "format": "belvedere.design", "version": 1, "title": "A yard",
        "site": {
            "buildings": [{"id": "b", "storeys": [{
                "id": "s", "slab_m": 0.5, "height_m": 8,
                "outline": [[-30, -30], [30, -30], [30, 30], [-30, 30]]}]}],
            "zones": [{"id": "z", "storey": "s", "outline": [[-1, 2], [1, 2], [1, 4], [-1, 4]]}],
            "lights": [{"id": "glow", "kind": "ambient", "lux": 0.001}]},
        "situations": [{"id": "day"}, {"id": "night", "lights": ["glow"]}],
        "brief": [{"id": "R1", "purpose": "see who sits there", "kind": "see", "zone": "z",
                   "target": {"kind": "face_seated"}, "task": "detect", "share": 0.5}],
        "catalogue": {"models": [{"id": "cam", "kind": "housing", "imagers": [{
            "slot": 1, "pan_deg": [-180, 180], "tilt_deg": [-90, 90], "roll_deg": [-180, 180],
            "pixels": [240, 136], "pitch_um": 5.6,
            "lens": {"family": "rectilinear", "hfov_deg": [90], "f_number": [1.6]},
            "least_light": {"lux": 0.05, "f_number": 1.6, "exposure_s": 0.04, "contrast": 0.3}}]}]},
        "housings": [{"id": "C1", "model": "cam", "mount": {"fixing_m": [0, 0, 4]},
                      "imagers": [{"slot": 1, "aims": [{"pan_deg": 0, "tilt_deg": 20}]}]}]}


def imager_of(design):
    return design["catalogue"]["models"][0]["imagers"][0]


class Pictures(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)
        self.design = write(self.folder.name, small_shop())
        self.out = os.path.join(self.folder.name, "view.png")

    def picture(self, *arguments):
        done = call("picture", self.design, *arguments, "--out", self.out, "--force")
        self.assertEqual(done.returncode, 0, done.stderr)
        return read_png(self.out)

    # Property: the imager's own pixels; the parameters stand in the file.
    def test_has_the_imagers_pixels_and_says_what_it_shows(self):
        size, texts = self.picture("--imager", "C1.1", "--figure", "1,3,1.6", "--grid", "--zones")
        pixels = small_shop()["catalogue"]["models"]
        twin = next(m for m in pixels if m["id"] == "twin")
        self.assertEqual(list(size), twin["imagers"][0]["pixels"])
        self.assertEqual(texts["Imager"], "C1.1")
        self.assertEqual(texts["Situation"], "open")
        self.assertEqual(texts["Figure"], "1,3,1.6")
        self.assertIn("pan ", texts["Look"])
        self.assertIn("not measured", texts["Note"])
        self.assertEqual(len(texts["Design SHA-256"]), 64)

    def test_same_bytes_on_any_number_of_threads(self):
        made = []
        for threads in (1, 2, 7):
            self.picture("--imager", "C1.2", "--when", "closed", "--threads", threads)
            with open(self.out, "rb") as file:
                made.append(file.read())
        self.assertEqual(made[0], made[1])
        self.assertEqual(made[0], made[2])

    def test_a_stream_is_as_large_as_it_says(self):
        design = small_shop()
        stream = design["housings"][0]["streams"][0]
        stream.update({"view": "crop", "region": [0.25, 0.25, 0.75, 0.75], "size_px": [100, 56]})
        self.design = write(self.folder.name, design)
        size, texts = self.picture("--imager", "C1.1", "--stream", stream["id"])
        self.assertEqual(size, (100, 56))
        self.assertEqual(texts["Stream"], stream["id"])

    # Property: by a moon of 0.1 lx an imager left to itself is in mono; by the shop's lamps in colour.
    def test_says_how_it_is_exposed(self):
        with open(os.path.join(EXAMPLES, "solar_farm", "design.json"), encoding="utf-8") as file:
            design = json.load(file)
        for model in design["catalogue"]["models"]:
            for imager in model.get("imagers", []):
                imager["pixels"] = [size // 8 for size in imager["pixels"]]
        farm = write(self.folder.name, design, "farm.json")
        done = call("picture", farm, "--imager", "P1.1", "--when", "night", "--out", self.out)
        self.assertEqual(done.returncode, 0, done.stderr)
        _, texts = read_png(self.out)
        self.assertEqual(texts["Mode"], "mono")
        _, texts = self.picture("--imager", "C1.1")
        self.assertEqual(texts["Mode"], "colour")
        self.assertNotIn("Gain", texts)

    def test_pages(self):
        size, texts = self.picture("--imager", "C1")
        self.assertEqual(texts["Camera"], "C1")
        self.assertGreater(size[0], 960)
        size, texts = self.picture("--imager", "C1", "--unrolled")
        self.assertEqual(texts["Camera, unrolled"], "C1")
        self.assertGreater(size[0], size[1])
        size, texts = self.picture("--requirement", "R1")
        self.assertEqual(texts["Requirement"], "R1")

    # What must not be seen is shown where it is seen most, and never called hidden.
    def test_a_withheld_zone_is_shown_where_it_is_densest(self):
        design = small_shop()
        design["brief"].append({"id": "R9", "purpose": "Not the counter", "kind": "withhold",
                                "zone": "customers", "target": {"kind": "custom", "band_m": [0, 1.8]},
                                "px_per_m": 1})
        design["brief"].append({"id": "R10", "purpose": "All allowed", "kind": "withhold",
                                "zone": "customers", "target": {"kind": "custom", "band_m": [0, 1.8]},
                                "px_per_m": 20000})
        path = write(self.folder.name, design)
        for requirement, outcome in (("R9", "filmed, though at most 1 px/m are allowed"),
                                     ("R10", "filmed, but no more than is allowed"),
                                     ("R5", "No imager can be made to show zone window")):
            out = os.path.join(self.folder.name, requirement + ".png")
            done = call("picture", path, "--requirement", requirement, "--out", out)
            self.assertEqual(done.returncode, 0, done.stderr)
            self.assertIn(outcome, read_png(out)[1]["Row 1"])

    def mean(self):
        """Of the middle of the picture."""
        rows = greys(self.out)
        part = lambda values: values[len(values) // 3:2 * len(values) // 3]
        rows = [part(row) for row in part(rows)]
        return sum(map(sum, rows)) / sum(map(len, rows))

    # By hand: at 8 m/s and 1/2000 s what moves smears by 4 mm, a twelfth of a pixel, whether or not the
    # situation says how light it is; at the longest exposure usual by 0.3 m.
    def test_smears_by_the_imagers_exposure(self):
        design = yard()
        shown = {}
        for exposure_s in (0.0005, None):
            design["housings"][0]["imagers"][0].pop("exposure_s", None)
            if exposure_s:
                design["housings"][0]["imagers"][0]["exposure_s"] = exposure_s
            self.design = write(self.folder.name, design)
            for speed in (0, 8):
                self.picture("--imager", "C1.1", "--figure", f"0,6,1.75,90,{speed}")
                shown[exposure_s, speed] = greys(self.out)
        def differ(exposure_s):
            a, b = shown[exposure_s, 0], shown[exposure_s, 8]
            return sum(abs(p - q) > 25 for r, s in zip(a, b) for p, q in zip(r, s))
        self.assertGreater(differ(None), 50)
        self.assertLess(differ(0.0005), differ(None) / 10)

    # Property: a camera unrolled is as dark as its imager's own picture, and says how it was exposed.
    def test_unrolled_is_exposed_as_the_imager_is(self):
        self.design = write(self.folder.name, yard())
        _, texts = self.picture("--imager", "C1.1", "--when", "night")
        self.assertIn("Gain", texts)
        own = self.mean()
        _, texts = self.picture("--imager", "C1", "--unrolled", "--when", "night")
        self.assertLess(self.mean(), own + 10)
        self.assertEqual(texts["C1.1 Mode"], "mono")
        self.assertIn("C1.1 Gain", texts)

    # Property: a contrast of 0 on a data sheet is none stated.
    def test_no_contrast_does_not_make_it_black(self):
        design = yard()
        design["site"]["lights"][0]["lux"] = 0.5
        shown = []
        for contrast in (0.3, 0):
            imager_of(design)["least_light"]["contrast"] = contrast
            self.design = write(self.folder.name, design)
            self.picture("--imager", "C1.1", "--when", "night")
            shown.append(self.mean())
        self.assertAlmostEqual(*shown, delta=1)

    # By hand: a seated face is judged from 1.05 to 1.35 m: whoever is drawn has the face at 1.2 m and is
    # 1.2 / 0.93 m tall.
    def test_page_shows_the_target_that_is_judged(self):
        design = yard()
        imager_of(design)["pixels"] = [960, 540]
        design["housings"][0]["imagers"][0]["aims"][0]["tilt_deg"] = 60
        self.design = write(self.folder.name, design)
        _, texts = self.picture("--requirement", "R1")
        self.assertIn("1.29 m tall", texts["Row 1"])
        _, high = re.search(r"; face (\d+) x (\d+) px", texts["Row 2"]).groups()
        self.assertGreater(int(high), 30, texts["Row 2"])  # the head is not cut off

    def test_says_what_is_wrong_with_a_call(self):
        for arguments, said in (
                (("--imager", "C1.3"), ("no imager \"C1.3\"", "C1.1", "C1.2", "C2.1")),
                (("--imager", "C1.1", "--when", "dusk"), ("no situation \"dusk\"", "open", "closed")),
                (("--imager", "C1.1", "--figure", "1"), ("X,Y",)),
                (("--imager", "C1.1", "--figure", "1,2,9"), ("0.3 to 2.6 m",)),
                (("--imager", "C1.1", "--sun", "180"), ("BEARING,ELEVATION",)),
                (("--imager", "C1.1", "--stream", "none"), ("no stream", "door_stream")),
                (("--imager", "C1.1", "--unrolled"), ("whole camera",)),
                (("--requirement", "R9"), ("no requirement \"R9\"", "R1")),
                (("--requirement", "R1", "--stream", "door_stream"), ("--requirement shows",)),
                (("--requirement", "R1", "--zones"), ("not with --requirement",)),
                (("--imager", "C1", "--unrolled", "--zones"), ("not with --unrolled",)),
                ((), ("--imager ID or --requirement ID",))):
            done = call("picture", self.design, *arguments, "--out", self.out)
            self.assertEqual(done.returncode, 2, arguments)
            for words in said:
                self.assertIn(words, " ".join(done.stderr.split()))
            self.assertFalse(os.path.exists(self.out))
        done = call("picture", self.design, "--imager", "C1.1", "--out",
                    os.path.join(self.folder.name, "view.jpg"))
        self.assertEqual(done.returncode, 2)
        self.assertIn(".png", done.stderr)

    # Property: what cannot be held in memory is not begun.
    def test_refuses_pictures_too_large_to_hold(self):
        design = yard()
        for shown, pixels in (("C1", [16, 100000]), ("C1.1", [100000, 100000])):
            imager_of(design)["pixels"] = pixels
            imager_of(design)["lens"]["hfov_deg"] = [1]
            self.design = write(self.folder.name, design)
            done = call("picture", self.design, "--imager", shown, "--out", self.out)
            self.assertEqual(done.returncode, 2, pixels)
            self.assertIn("million", done.stderr)

    def test_keeps_a_file_that_is_there(self):
        self.picture("--imager", "C2.1")
        done = call("picture", self.design, "--imager", "C2.1", "--out", self.out)
        self.assertEqual(done.returncode, 2)
        self.assertIn("--force", done.stderr)

    # Property: a cancelled picture leaves no file.
    def test_can_be_cancelled(self):
        design = shop()
        path = write(self.folder.name, design, "large.json")
        process = subprocess.Popen([BELVEDERE, "picture", path, "--imager", "C2.1", "--out", self.out],
                                   stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        time.sleep(0.4)
        process.send_signal(signal.SIGINT)
        _, err = process.communicate(timeout=60)
        self.assertEqual(process.returncode, 130, err)
        self.assertEqual(err, b"belvedere: cancelled\n")
        self.assertFalse(os.path.exists(self.out))


if __name__ == "__main__":
    unittest.main()
