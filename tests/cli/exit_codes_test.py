# SPDX-License-Identifier: GPL-3.0-or-later
"""Exit codes and streams, as the command line promises them (docs/json.md, "Exit codes")."""
import os
import tempfile
import unittest

from belvedere_cli import SHOP, call, call_json, shop, write


class ExitCodes(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    # Property: 0 exactly when every verdict is met.
    def test_zero_when_all_is_met(self):
        done = call("prove", SHOP, "--only", "R2,R3,R5", "--quiet")
        self.assertEqual(done.returncode, 0, done.stderr)
        # R5 holds in both situations; R2 and R3 are kept as long as they ask.
        self.assertEqual(len(done.stdout.splitlines()), 6)
        self.assertTrue(all("  met " in line for line in done.stdout.splitlines()), done.stdout)

    # Property: the shop's near miss is an answer, not an error.
    def test_one_when_something_falls_short(self):
        done = call("prove", SHOP, "--only", "R1", "--quiet")
        self.assertEqual(done.returncode, 1)
        self.assertIn("not met", done.stdout)
        self.assertEqual(done.stderr, "")

    # Property: undecided counts as 1. (The share asked for is put between the bounds that cells of
    # a stated smallest size leave, until they can tell no more.)
    def test_one_when_undecided(self):
        design = shop()
        for _ in range(20):
            path = write(self.folder.name, design)
            code, proof = call_json("prove", path, "--only", "R1", "--finest-m", "0.2", "--json")
            self.assertEqual(code, 1)
            row = proof["requirements"][0]
            if row["verdict"] == "undecided":
                return
            design["brief"][0]["share"] = (row["share"]["low"] + row["share"]["high"]) / 2
        self.fail(f"the bounds met: {row['share']}")

    # Property: a wrong call is 2, says what is wrong on stderr and leaves stdout empty.
    def test_two_when_the_call_is_wrong(self):
        for arguments in ([], ["prov", SHOP], ["prove"], ["prove", SHOP, "--thread", "2"],
                          ["prove", SHOP, "--threads", "many"], ["prove", SHOP, "--only", "R9"],
                          ["prove", SHOP, SHOP], ["explain", SHOP, "--at", "1"],
                          ["explain", SHOP, "--requirement", "R6"],
                          ["explain", SHOP, "--at", "100,100"],
                          ["blind", SHOP, "--camera", "C9"], ["check", SHOP, "--json", SHOP]):
            done = call(*arguments)
            self.assertEqual(done.returncode, 2, arguments)
            self.assertEqual(done.stdout, "", arguments)
            self.assertNotEqual(done.stderr, "", arguments)

    # Property: the nearest right word is offered.
    def test_mistyped_words_get_the_nearest_right_one(self):
        self.assertIn('did you mean "prove"', call("prov", SHOP).stderr)
        self.assertIn('did you mean "--threads"', call("prove", SHOP, "--thread", "2").stderr)
        self.assertIn('did you mean "C1"', call("blind", SHOP, "--camera", "C11").stderr)

    # Property: a design that was asked to be overwritten is still there.
    def test_json_never_overwrites_the_design(self):
        path = write(self.folder.name, shop())
        before = os.stat(path).st_size
        self.assertEqual(call("prove", path, "--json", path).returncode, 2)
        self.assertEqual(os.stat(path).st_size, before)

    # Property: input that cannot be used is 3, all problems at once, each with its pointer.
    def test_three_with_all_problems_at_once(self):
        design = shop()
        design["brief"][0]["zone"] = "matt"
        design["housings"][1]["model"] = "sole"
        design["site"]["colour"] = "red"
        path = write(self.folder.name, design)
        for command in ("check", "prove", "explain", "blind"):
            done = call(command, path)
            self.assertEqual(done.returncode, 3, command)
            self.assertEqual(done.stdout, "", command)
            for pointer in ("/brief/0/zone", "/housings/1/model", "/site/colour"):
                self.assertIn(pointer, done.stderr, command)
            self.assertIn("mat", done.stderr)

    def test_three_for_a_file_that_is_not_there(self):
        self.assertEqual(call("prove", os.path.join(self.folder.name, "none.json")).returncode, 3)
        self.assertEqual(call("prove", self.folder.name).returncode, 3)

    # Property: the problems are data where data was asked for.
    def test_problems_as_json(self):
        design = shop()
        design["brief"][0]["zone"] = "matt"
        path = write(self.folder.name, design)
        code, problems = call_json("prove", path, "--json")
        self.assertEqual(code, 3)
        self.assertEqual((problems["format"], problems["version"]), ("belvedere.problems", 1))
        self.assertEqual([p["where"] for p in problems["problems"]], ["/brief/0/zone"])
        self.assertIn("mat", problems["problems"][0]["hint"])

    def test_help_and_version_are_data(self):
        for arguments in (["--help"], ["prove", "--help"], ["--version"]):
            done = call(*arguments)
            self.assertEqual((done.returncode, done.stderr), (0, ""), arguments)
            self.assertNotEqual(done.stdout, "")

    # Property: examples come before the options.
    def test_help_opens_with_examples(self):
        for command in ("check", "prove", "explain", "blind", "reach"):
            text = call(command, "--help").stdout
            self.assertLess(text.index("Examples"), text.index("Options"), command)

    # Property: data that cannot be written ends the run as a wrong call, not as a success.
    @unittest.skipUnless(os.path.exists("/dev/full"), "needs /dev/full")
    def test_an_answer_that_cannot_be_written_is_no_success(self):
        with open("/dev/full", "w", encoding="utf-8") as full:
            import subprocess
            from belvedere_cli import BELVEDERE
            done = subprocess.run([BELVEDERE, "prove", SHOP, "--only", "R2"], stdout=full,
                                  stderr=subprocess.PIPE, text=True, check=False)
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertEqual(call("prove", SHOP, "--json", "/nowhere/at/all.json").returncode, 2)


if __name__ == "__main__":
    unittest.main()
