# SPDX-License-Identifier: GPL-3.0-or-later
"""A long proof and every kind of picture end soon after SIGINT or SIGTERM, say so, and leave no half-written
file."""
import os
import signal
import statistics
import subprocess
import tempfile
import time
import unittest

from belvedere_cli import BELVEDERE, EXAMPLES

# Bounds that never come near enough, on cells that get ever smaller: many seconds of work, and
# more and more memory to give back.
LONG = ["prove", os.path.join(EXAMPLES, "ferry_terminal", "design.json"),
        "--width", "0", "--finest-m", "0.0001"]
WAITS_S = (0.3, 2.0, 2.5, 3.0, 3.5)
# The promise is 100 ms; what is measured is printed. Other work on the machine may take longer than
# that to let the program run at all, so the bound that fails the test is wider.
WITHIN_S = 1.0

# Of a picture that takes so long, signalled at these shares of its time: rays, then the file.
SHARES = (0.1, 0.4, 0.75, 0.95)
PICTURES = {
    "of 5 million pixels by day": ("winter_yard", "--imager", "C1.1", "--when", "day"),
    "by night": ("winter_yard", "--imager", "C1.1", "--when", "night"),
    "with zones and grid": ("ferry_terminal", "--imager", "C1.1", "--zones", "--grid"),
    "all imagers of a camera": ("winter_yard", "--imager", "C1", "--when", "night"),
    "unrolled": ("ferry_terminal", "--imager", "C1", "--unrolled"),
    "crops and test charts": ("shop", "--requirement", "R1"),
}


class Cancel(unittest.TestCase):
    def cancelled_after(self, signal_sent, wait_s, arguments):
        process = subprocess.Popen([BELVEDERE, *arguments], stdout=subprocess.PIPE,
                                   stderr=subprocess.PIPE)
        time.sleep(wait_s)
        self.assertIsNone(process.poll(), "the proof was not long enough for this test")
        sent = time.monotonic()
        process.send_signal(signal_sent)
        out, err = process.communicate(timeout=60)
        took_s = time.monotonic() - sent
        self.assertEqual(process.returncode, 130, err)
        self.assertEqual(err, b"belvedere: cancelled\n")
        self.assertEqual(out, b"")
        return took_s

    # Property: the median of a few tries, printed.
    def test_ends_soon(self):
        for which in (signal.SIGINT, signal.SIGTERM):
            took = [self.cancelled_after(which, wait_s, LONG) for wait_s in WAITS_S]
            print(f"{which.name}: median {1000 * statistics.median(took):.0f} ms")
            self.assertLess(statistics.median(took), WITHIN_S, took)

    # Property: wherever a picture is in its work, it ends soon after the signal, and nothing stands where it would
    # have been written. One that was through before the signal came tells nothing.
    def test_pictures_end_soon(self):
        for what, (example, *options) in PICTURES.items():
            with self.subTest(what), tempfile.TemporaryDirectory() as folder:
                call = [BELVEDERE, "picture", os.path.join(EXAMPLES, example, "design.json"), *options,
                        "--out", os.path.join(folder, "view.png"), "--force"]
                start = time.monotonic()
                subprocess.run(call, check=True, stdout=subprocess.DEVNULL)
                whole_s = time.monotonic() - start
                os.remove(os.path.join(folder, "view.png"))
                took = []
                for share in SHARES:
                    process = subprocess.Popen(call, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
                    time.sleep(share * whole_s)
                    sent = time.monotonic()
                    process.send_signal(signal.SIGINT)
                    out, err = process.communicate(timeout=60)
                    if process.returncode == 0:
                        os.remove(os.path.join(folder, "view.png"))
                        continue
                    took.append(time.monotonic() - sent)
                    self.assertEqual((process.returncode, err, out), (130, b"belvedere: cancelled\n", b""))
                    self.assertEqual(os.listdir(folder), [])
                self.assertGreater(len(took), len(SHARES) // 2)
                print(f"picture {what}: median {1000 * statistics.median(took):.0f} ms, "
                      f"most {1000 * max(took):.0f} ms")
                self.assertLess(statistics.median(took), WITHIN_S, took)

    # Property: nothing is left of an answer that was not given.
    def test_leaves_no_file(self):
        with tempfile.TemporaryDirectory() as folder:
            self.cancelled_after(signal.SIGINT, 0.4,
                                 [*LONG, "--json", os.path.join(folder, "proof.json")])
            self.assertEqual(os.listdir(folder), [])


if __name__ == "__main__":
    unittest.main()
