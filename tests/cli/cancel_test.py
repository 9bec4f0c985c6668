# SPDX-License-Identifier: GPL-3.0-or-later
"""A long proof ends soon after SIGINT or SIGTERM, says so, and leaves no half-written file."""
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
WITHIN_S = 0.1


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

    # Property: within 100 ms (the median of a few tries: other work may hold up the machine).
    def test_within_100_ms(self):
        for which in (signal.SIGINT, signal.SIGTERM):
            took = [self.cancelled_after(which, wait_s, LONG) for wait_s in WAITS_S]
            self.assertLess(statistics.median(took), WITHIN_S, took)

    # Property: nothing is left of an answer that was not given.
    def test_leaves_no_file(self):
        with tempfile.TemporaryDirectory() as folder:
            self.cancelled_after(signal.SIGINT, 0.4,
                                 [*LONG, "--json", os.path.join(folder, "proof.json")])
            self.assertEqual(os.listdir(folder), [])


if __name__ == "__main__":
    unittest.main()
