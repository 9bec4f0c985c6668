# SPDX-License-Identifier: GPL-3.0-or-later
"""Outside: clips made by ffmpeg, their packets listed by ffprobe and added up here, against
belvedere measure. Skipped where ffmpeg is not installed."""
import json
import math
import os
import shutil
import subprocess
import tempfile
import unittest

BELVEDERE = os.environ["BELVEDERE"]


def belvedere(*arguments, **more):
    return subprocess.run([BELVEDERE, *map(str, arguments)], capture_output=True, text=True,
                          check=False, timeout=300, **more)


@unittest.skipUnless(shutil.which("ffmpeg") and shutil.which("ffprobe"), "ffmpeg is not installed")
class Clips(unittest.TestCase):
    def setUp(self):
        self.temporary = tempfile.TemporaryDirectory()
        self.addCleanup(self.temporary.cleanup)

    def clip(self, name, *codec, seconds=6, fps=10, size="320x240"):
        path = os.path.join(self.temporary.name, name)
        subprocess.run(["ffmpeg", "-v", "error", "-f", "lavfi", "-i",
                        f"testsrc2=size={size}:rate={fps}:duration={seconds}", *codec, path],
                       check=True, stdin=subprocess.DEVNULL, timeout=300)
        return path

    def packets(self, path):
        out = subprocess.run(["ffprobe", "-v", "error", "-select_streams", "v:0", "-show_packets",
                              "-of", "json", path], capture_output=True, check=True, text=True)
        return json.loads(out.stdout)["packets"]

    def test_rate_is_that_of_the_packets(self):
        for name, codec, gop in (("a.mp4", ["-c:v", "mpeg4", "-g", "10", "-bf", "0"], 10),
                                 ("b.mkv", ["-c:v", "mpeg4", "-g", "20", "-bf", "0"], 20),
                                 ("c.avi", ["-c:v", "mjpeg"], 1)):
            path = self.clip(name, *codec)
            packets = self.packets(path)
            figures = json.loads(belvedere("measure", path, "--json").stdout)["clip"]
            mean = sum(int(p["size"]) for p in packets) * 8e-6 / 6
            self.assertAlmostEqual(figures["mean_mbps"], mean, delta=0.01 * mean, msg=name)
            self.assertEqual(figures["size_px"], [320, 240])
            self.assertAlmostEqual(figures["frames_per_s"], 10, delta=0.01)
            self.assertEqual(figures["gop_frames"], gop, name)
            first = min(float(p.get("dts_time", p.get("pts_time"))) for p in packets)
            windows = [0.0] * 6
            for p in packets:
                at = float(p.get("dts_time", p.get("pts_time"))) - first
                windows[min(5, int(at + 1e-6))] += int(p["size"]) * 8e-6
            p95 = sorted(windows)[math.ceil(0.95 * 6) - 1]
            self.assertAlmostEqual(figures["p95_mbps"], p95, delta=0.01 * p95, msg=name)

    def test_broken_and_missing_clips_are_refused(self):
        path = os.path.join(self.temporary.name, "broken.mp4")
        with open(path, "wb") as file:
            file.write(b"\0\0\0\x18ftypmp42" + b"x" * 5000)
        for bad in (path, path + ".no"):
            done = belvedere("measure", bad)
            self.assertEqual(done.returncode, 3, done)
            self.assertIn("clip_unreadable", done.stderr)

    def test_without_the_tool_it_says_what_to_install(self):
        path = self.clip("a.mp4", "-c:v", "mpeg4")
        done = belvedere("measure", path, env={**os.environ, "PATH": self.temporary.name})
        self.assertEqual(done.returncode, 3)
        self.assertIn("ffmpeg", done.stderr)

    # What is measured is kept as evidence and wins over the estimate.
    def test_clip_becomes_evidence(self):
        source = os.path.join(os.environ["BELVEDERE_SOURCE_DIR"], "examples", "winter_yard")
        shutil.copytree(source, self.temporary.name, dirs_exist_ok=True)
        design = os.path.join(self.temporary.name, "design.json")
        path = self.clip("yard.mp4", "-c:v", "mpeg4")
        done = belvedere("measure", path, "--into", design, "--stream", "c1_1")
        self.assertEqual(done.returncode, 0, done.stderr)
        answer = json.loads(belvedere("size", design, "--json").stdout)
        stream = next(s for s in answer["streams"] if s["stream"] == "c1_1")
        self.assertEqual(stream["rate_from"], "measured")
        figures = json.loads(belvedere("measure", path, "--json").stdout)["clip"]
        self.assertAlmostEqual(stream["mean_mbps"]["typical"], figures["mean_mbps"], delta=1e-5)
        self.assertEqual(belvedere("measure", path, "--into", design, "--stream", "nix").returncode, 2)


if __name__ == "__main__":
    unittest.main()
