# SPDX-License-Identifier: GPL-3.0-or-later
"""What people read: 100 columns, no colour but on a terminal, no command of a file's own."""
import fcntl
import glob
import os
import pty
import re
import select
import struct
import subprocess
import tempfile
import termios
import unittest

from belvedere_cli import BELVEDERE, EXAMPLES, SHOP, call, shop, write

COLUMNS = 100


def on_terminal(*arguments, env=None, columns=0):
    """What the program writes when its standard output is a terminal, so wide (0: it does not say)."""
    leader, follower = pty.openpty()
    fcntl.ioctl(follower, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    process = subprocess.Popen([BELVEDERE, *arguments], stdout=follower,
                               stderr=subprocess.DEVNULL,
                               env={**os.environ, "COLUMNS": "", **(env or {})})
    os.close(follower)
    text = b""
    while select.select([leader], [], [], 60)[0]:
        try:
            part = os.read(leader, 65536)
        except OSError:  # the other end is closed
            break
        if not part:
            break
        text += part
    process.wait()
    os.close(leader)
    return text.decode("utf-8", "replace")


class Page(unittest.TestCase):
    def assert_fits(self, text, said_by):
        for line in text.splitlines():
            self.assertLessEqual(len(line), COLUMNS, f"{said_by}: {line}")

    # Property: no line is longer than the page, whatever the example.
    def test_every_answer_fits_the_page(self):
        for design in sorted(glob.glob(os.path.join(EXAMPLES, "*", "design.json"))):
            for arguments in (["check", design], ["prove", design],
                              ["blind", design, "--outlines"]):
                done = call(*arguments)
                self.assertIn(done.returncode, (0, 1), done.stderr)
                self.assert_fits(done.stdout + done.stderr, arguments)
        for arguments in (["explain", SHOP, "--may-change"],
                          ["explain", SHOP, "--requirement", "R1"],
                          ["--help"], ["check", "--help"], ["prove", "--help"],
                          ["explain", "--help"], ["blind", "--help"], ["reach", "--help"],
                          ["prov"], ["prove", "nowhere.json"]):
            done = call(*arguments)
            self.assert_fits(done.stdout + done.stderr, arguments)

    # Property: long ids and titles are wrapped or cut, never run over the edge; control characters
    # of a file's own reach no terminal.
    def test_a_file_commands_no_terminal_and_breaks_no_page(self):
        with tempfile.TemporaryDirectory() as folder:
            design = shop()
            design["title"] = "x" * 300
            design["brief"][0]["purpose"] = "w" * 250 + "\n\tand so on"
            done = call("prove", write(folder, design))
            design["title"] = "\x1b[2J\u009b31m"
            design["\x1b[31m"] = 1
            refused = call("prove", write(folder, design))
        self.assertEqual(done.returncode, 1, done.stderr)
        self.assertEqual(refused.returncode, 3)
        for text in (done.stdout, refused.stderr):
            self.assert_fits(text, "a file's own words")
            self.assertNotRegex(text, r"[\x00-\x09\x0b-\x1f\x7f-\x9f]")
        self.assertIn("and so on", done.stdout)

    # Property: words of the call that are shown again command no terminal either.
    def test_a_call_commands_no_terminal(self):
        for arguments in (["prove", "\x1b[2J.json"], ["pro\x1b[2Jve"], ["prove", SHOP, "--\x1b[2J"],
                          ["prove", SHOP, "--only", "R\x1b[2J"],
                          ["prove", SHOP, "--width", "\x1b[2J"]):
            done = call(*arguments)
            self.assertIn(done.returncode, (2, 3))
            self.assertNotIn("\x1b", done.stdout + done.stderr, arguments)

    # Property: a figure and its per cent sign stand on one line; who serves no spot alone is not told so
    # once for each imager.
    def test_per_cent_signs_stay_with_their_figures(self):
        done = call("prove", os.path.join(EXAMPLES, "winter_yard", "design.json"))
        served = [line for line in done.stdout.splitlines() if "48.2" in line]
        self.assertTrue(served)
        self.assertNotRegex(done.stdout, r"(?m)^ *%")
        self.assertNotIn("alone 0.0", done.stdout)
        self.assertIn("nothing hangs on one of them", done.stdout)

    # Property: the last column is used and never passed (one-letter words find any slip by one).
    def test_wraps_at_the_last_column(self):
        with tempfile.TemporaryDirectory() as folder:
            design = shop()
            for purpose in ("a " * 400, "bb " * 400):
                design["brief"][0]["purpose"] = purpose
                self.assert_fits(call("prove", write(folder, design)).stdout, purpose[:2])

    # Property: colour on a terminal only, never with NO_COLOR (as no-color.org has it: set and not
    # empty) or a dumb one; the words are the same either way.
    def test_colour_on_a_terminal_only(self):
        plain = call("prove", SHOP).stdout
        self.assertNotIn("\x1b", plain)
        terminal = {"TERM": "xterm", "NO_COLOR": ""}
        coloured = on_terminal("prove", SHOP, env=terminal)
        self.assertIn("\x1b[", coloured)
        without = on_terminal("prove", SHOP, env={**terminal, "NO_COLOR": "1"})
        self.assertNotIn("\x1b", without)
        self.assertNotIn("\x1b", on_terminal("prove", SHOP, env={**terminal, "TERM": "dumb"}))
        words = re.sub(r"\x1b\[[0-9;]*m", "", coloured).replace("\r\n", "\n")
        self.assertEqual(words, plain)

    # Property: as wide as the terminal, as COLUMNS where that is set, at least 72; 100 in a pipe,
    # whatever COLUMNS says.
    def test_as_wide_as_the_terminal(self):
        def widest(text):
            return max(map(len, text.replace("\r\n", "\n").splitlines()))
        plain = {"NO_COLOR": "1"}
        for columns, env, least, most in ((160, {}, 130, 160), (80, {}, 70, 80), (40, {}, 64, 72),
                                          (160, {"COLUMNS": "90"}, 80, 90), (0, {}, 90, 100)):
            for arguments in (["prove", SHOP], ["check", SHOP], ["blind", SHOP], ["reach", "--help"],
                              ["explain", SHOP, "--requirement", "R1"]):
                text = on_terminal(*arguments, env={**plain, **env}, columns=columns)
                self.assertLessEqual(widest(text), most, (columns, env, arguments))
                if arguments[0] == "prove":
                    self.assertGreaterEqual(widest(text), least, (columns, env))
        piped = call("prove", SHOP, env={"COLUMNS": "72"})
        self.assertEqual(piped.stdout, call("prove", SHOP).stdout)

    # Property: the verdict is words and numbers.
    def test_verdicts_are_words_and_numbers(self):
        self.assertRegex(call("prove", SHOP).stdout, r"not met \d+\.\d to \d+\.\d % of 95")

    # Property: both frames are in the camera table: C1 looks west (270) from a housing whose zero
    # is north, so its own pan is -90; C2's zero is west, so its own pan is 0.
    def test_camera_table_has_both_frames(self):
        for command in ("check", "prove"):
            text = call(command, SHOP).stdout
            self.assertRegex(text, r"C1\.1 .* 270\.0 .* -90\.0 ")
            self.assertRegex(text, r"C2\.1 .* 270\.0 .* 0\.0 ")

    # Property: an answer says whether light is judged, and carries its cautions.
    def test_says_how_light_is_judged(self):
        text = call("prove", SHOP).stdout
        self.assertEqual(text.count("Light is judged too, by the lights that each situation names."), 1)
        self.assertIn("walk-test", text)
        self.assertIn("Local codes and licensed practice come first.", text)

    # Property: the edition is printed, and that the figures of 2025 are from memory.
    def test_edition_is_printed(self):
        self.assertIn("IEC 62676-4:2014", call("prove", SHOP).stdout)
        design = shop()
        design["task_table"] = {"edition": "2025"}
        for requirement in design["brief"]:
            words = {"identify": "validate", "recognise": "perceive", "observe": "discern"}
            if "task" in requirement:
                requirement["task"] = words[requirement["task"]]
        with tempfile.TemporaryDirectory() as folder:
            text = call("prove", write(folder, design)).stdout
        self.assertIn("IEC 62676-4:2025", text)
        self.assertIn("figures from memory, unconfirmed", text)


class Alike(unittest.TestCase):
    YARD = os.path.join(EXAMPLES, "winter_yard", "design.json")

    def test_findings_that_differ_only_in_whom_they_are_about_are_said_once(self):
        text = call("prove", self.YARD).stdout
        self.assertEqual(text.count("[imager_not_needed]"), 1)
        self.assertIn("Likewise C1.2 to C1.4, C2.1 to C2.4, C3.1 to C3.4, C4.1 to C4.4, C5.1 to C5.4.",
                      " ".join(text.split()))

    def test_rows_numbered_on_with_the_same_cells_are_one_row(self):
        text = call("light", self.YARD).stdout
        self.assertEqual(len(re.findall(r"^  C1\.1 to C1\.4 ", text, re.M)), 1)  # alike by day
        self.assertEqual(len(re.findall(r"^  C1\.2 ", text, re.M)), 1)         # not at night
        self.assertEqual(len(re.findall(r"^  C1 lamp 2 ", text, re.M)), 2)      # two stay two

    def test_gaps_of_a_ring_take_a_line_a_head(self):
        text = call("prove", self.YARD).stdout
        self.assertRegex(" ".join(text.split()),
                         r"C1 0 deg down: 118\.5 to 331\.5; 40 deg down: 117\.5 to 332\.5; "
                         r"from 50 deg down: all round")


if __name__ == "__main__":
    unittest.main()
