# SPDX-License-Identifier: GPL-3.0-or-later
"""Wrong calls are told what is right: what there is, what is allowed, before anything is computed."""
import os
import tempfile
import unittest

from belvedere_cli import EXAMPLES, SHOP, call, shop, write


def said(text):
    """Without the breaks that the page puts in."""
    return " ".join(text.split())


class Calls(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.addCleanup(self.folder.cleanup)

    def refused(self, *arguments):
        done = call(*arguments, cwd=self.folder.name)
        self.assertEqual(done.returncode, 2, (arguments, done.stdout, done.stderr))
        self.assertEqual(done.stdout, "", arguments)
        return said(done.stderr)

    # Property: an unknown id is answered with those that there are, the nearest first.
    def test_unknown_ids_list_the_known_ones(self):
        for command in (["prove", SHOP, "--only", "R7"], ["explain", SHOP, "--requirement", "R7"],
                        ["draw", SHOP, "--requirement", "R7"]):
            self.assertIn("It has R1, R2, R3, R4, R5, R6", self.refused(*command))
        self.assertIn('did you mean "closed"? It has closed, open',
                      self.refused("blind", SHOP, "--situation", "closd"))
        self.assertIn("it has open, closed", self.refused("explain", SHOP, "--situation", "monday"))
        self.assertIn("it has ground", self.refused("draw", SHOP, "--storey", "attic_two"))
        self.assertIn("It has C2, C1", self.refused("blind", SHOP, "--camera", "C22"))

    # Property: a long list is cut, and says by how much.
    def test_long_lists_are_cut(self):
        design = shop()
        for i in range(30):
            design["brief"].append({**design["brief"][0], "id": f"Q{i}"})
        path = write(self.folder.name, design)
        text = self.refused("prove", path, "--only", "Q29x")
        self.assertIn('did you mean "Q29"? It has Q29, Q2', text)
        self.assertIn("and 24 more", text)

    # Property: a situation in which a requirement is not asked for is an error that names its own.
    def test_situations_of_a_requirement(self):
        for command in ("explain", "draw"):
            text = self.refused(command, SHOP, "--requirement", "R1", "--situation", "closed")
            self.assertIn('R1 is not asked for in situation "closed", only in open', text)

    # Property: a malformed number is quoted, with what is allowed.
    def test_malformed_numbers(self):
        for arguments, says in (
                (["prove", SHOP, "--threads", "2x"], '"2x" is no whole number from 0 to 1024'),
                (["prove", SHOP, "--threads", "2.5"], '"2.5" is no whole number from 0 to 1024'),
                (["draw", SHOP, "--threads", "-1"], '"-1" is no whole number from 0 to 1024'),
                (["prove", SHOP, "--width", "narrow"], '"narrow" is no number from 0 to 1'),
                (["prove", SHOP, "--finest-m", "nan"], '"nan" is no number from 0.0001 to 10'),
                (["explain", SHOP, "--at", "1,b"], '"b" is no number'),
                (["explain", SHOP, "--effort-aim", "1e400"], '"1e400" is no number'),
                (["blind", SHOP, "--target-m", "1,2m"], '"2m" is no number from 0 to 100'),
                (["draw", SHOP, "--dpi", "5"], '"5" is no number from 20 to 1200')):
            self.assertIn(says, self.refused(*arguments))

    # Property: what cannot be written is said before anything is computed: even of a design that is
    # not there.
    def test_writability_is_checked_first(self):
        for command in ("prove", "check", "explain", "blind"):
            text = self.refused(command, "none.json", "--json", "nofolder/x.json")
            self.assertEqual(text.count("nofolder/x.json"), 1)
            self.assertIn('there is no folder "nofolder"', text)
        self.assertIn("it is a folder", self.refused("prove", SHOP, "--json", "."))
        text = self.refused("reach", "--pixels", "1920x1080", "--hfov", "90", "--json", "no/x.json")
        self.assertIn('there is no folder "no"', text)
        text = self.refused("draw", SHOP, "--out", "nofolder/x.svg")
        self.assertEqual(text.count("nofolder/x.svg"), 1)

    # Property: a zoom that the lens does not have is answered with the one that it has.
    def test_zoom_out_of_range_states_the_range(self):
        design = shop()
        housing = next(h for h in design["housings"] if h["id"] == "C2")
        housing["imagers"][0]["aims"][0]["hfov_deg"] = 200
        done = call("check", write(self.folder.name, design))
        self.assertEqual(done.returncode, 3)
        self.assertRegex(said(done.stderr), r"zoom_out_of_range.*it has 105\.00 \(wide\) to "
                                            r"\d+\.\d\d deg \(tele\)")


if __name__ == "__main__":
    unittest.main()
