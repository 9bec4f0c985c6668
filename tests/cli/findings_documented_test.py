# SPDX-License-Identifier: GPL-3.0-or-later
"""Every finding's code that the sources use has its entry in docs/findings.md, and the other way
round; an entry says what all of them have to say."""
import glob
import os
import re
import unittest

SOURCE_DIR = os.environ.get("BELVEDERE_SOURCE_DIR",
                            os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
PARTS = ("Says", "Why", "How computed", "Source", "What to do")


def codes_in_sources():
    codes = set()
    for path in glob.glob(os.path.join(SOURCE_DIR, "src", "**", "*.cpp"), recursive=True):
        with open(path, encoding="utf-8") as file:
            text = file.read()
        # A finding is written {code, Severity, ...}; the code may be one of two.
        for words in re.findall(r'\{([^{};]*?),\s*(?:\w+ \?\s*)?(?:design::)?Severity::', text):
            codes.update(re.findall(r'"([a-z][a-z0-9_]*)"', words))
    return codes


def documented():
    with open(os.path.join(SOURCE_DIR, "docs", "findings.md"), encoding="utf-8") as file:
        text = file.read()
    parts = re.split(r"^## ([a-z][a-z0-9_]*)$", text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2]))


class FindingsDocumented(unittest.TestCase):
    def test_the_sources_have_findings(self):
        self.assertIn("share_short", codes_in_sources())
        self.assertIn("no_facing", codes_in_sources())

    def test_every_code_has_its_entry(self):
        self.assertEqual(sorted(codes_in_sources() - set(documented())), [])

    def test_no_entry_without_a_code(self):
        self.assertEqual(sorted(set(documented()) - codes_in_sources()), [])

    def test_entries_say_all_there_is_to_say(self):
        for code, entry in documented().items():
            for part in PARTS:
                self.assertIn(f"**{part}.**", entry, code)


if __name__ == "__main__":
    unittest.main()
