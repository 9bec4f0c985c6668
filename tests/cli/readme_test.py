# SPDX-License-Identifier: GPL-3.0-or-later
"""The README's first example is a test: what it shows of the shop is what the program prints."""
import os
import re
import unittest

from belvedere_cli import SOURCE_DIR, call

CALLS = {"prove": ["prove", "examples/shop/design.json"],
         "explain": ["explain", "examples/shop/design.json", "--requirement", "R1"]}


class Readme(unittest.TestCase):
    def test_shows_what_the_program_prints(self):
        with open(os.path.join(SOURCE_DIR, "README.md"), encoding="utf-8") as file:
            shown = re.findall(r"```\n(.*?)```", file.read(), flags=re.DOTALL)
        self.assertEqual(len(shown), len(CALLS))
        for block, arguments in zip(shown, CALLS.values()):
            self.assertIn(block.strip("\n"), call(*arguments, cwd=SOURCE_DIR).stdout)

    def test_files_that_it_names_are_there(self):
        with open(os.path.join(SOURCE_DIR, "README.md"), encoding="utf-8") as file:
            text = file.read()
        for path in re.findall(r"`((?:docs|examples|scripts|schema|src)/[\w./-]*)`|\]\(([^)]+)\)", text):
            name = path[0] or path[1]
            self.assertTrue(os.path.exists(os.path.join(SOURCE_DIR, name)), name)


if __name__ == "__main__":
    unittest.main()
