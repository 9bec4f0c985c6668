# SPDX-License-Identifier: GPL-3.0-or-later
"""The README's first example is a test: what it shows of the shop is what the program prints.
`readme_test.py --accept` puts today's answer into the README instead; its diff is for reading."""
import os
import re
import sys
import unittest

from belvedere_cli import SOURCE_DIR, call

README = os.path.join(SOURCE_DIR, "README.md")
BLOCK = re.compile(r"```\n(.*?)```", flags=re.DOTALL)
# Of each block: the call, the line that it starts with, and that before which it ends.
SHOWN = ((["prove", "examples/shop/design.json"], "Pellow's shop", "\n\n  R2 "),
         (["explain", "examples/shop/design.json", "--requirement", "R1"], "  R1 in open", None))


def readme():
    with open(README, encoding="utf-8") as file:
        return file.read()


def excerpt(arguments, start, end):
    said = call(*arguments, cwd=SOURCE_DIR).stdout
    said = said[said.index(start):]
    return said[:said.index(end)] + "\n" if end else said


def accept():
    excerpts = iter([excerpt(*shown) for shown in SHOWN])
    text = BLOCK.sub(lambda _: "```\n" + next(excerpts) + "```", readme())
    with open(README, "w", encoding="utf-8") as file:
        file.write(text)


class Readme(unittest.TestCase):
    # Golden: the two answers that the README shows.
    def test_shows_what_the_program_prints(self):
        self.assertEqual(BLOCK.findall(readme()), [excerpt(*shown) for shown in SHOWN])

    def test_files_that_it_names_are_there(self):
        for path in re.findall(r"`((?:docs|examples|scripts|schema|src)/[\w./-]*)`|\]\(([^)]+)\)",
                               readme()):
            name = path[0] or path[1]
            self.assertTrue(os.path.exists(os.path.join(SOURCE_DIR, name)), name)


if __name__ == "__main__":
    if "--accept" in sys.argv:
        accept()
    else:
        unittest.main()
