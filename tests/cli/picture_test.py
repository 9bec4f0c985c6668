# SPDX-License-Identifier: GPL-3.0-or-later
"""Pictures of imagers: size, what the file says of itself, the same bytes on any number of threads,
pages, and what is said of a wrong call."""
import json
import os
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
