# SPDX-License-Identifier: GPL-3.0-or-later
"""Property: whatever section of the handbook the sources, the findings or the pages refer to stands
in docs/handbook.md, which has sections 1 to 19, each once and in order."""
import glob
import os
import re
import unittest

ROOT = os.environ.get("BELVEDERE_SOURCE_DIR") or os.path.join(os.path.dirname(__file__), "..", "..")
LAST_SECTION = 19
# "handbook 5", "handbook 5, 19", "handbook 5 and 19", "handbook 2 to 4"
REFERENCE = re.compile(r"\bhandbook\s+(?:sections?\s+)?(\d+(?:(?:\s*,\s*|\s+and\s+|\s+to\s+)\d+)*)\b",
                       re.IGNORECASE)
STRING = r'"(?:[^"\\]|\\.)*"'


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


def files(*patterns):
    found = []
    for pattern in patterns:
        found += glob.glob(os.path.join(ROOT, pattern), recursive=True)
    return sorted(found)


def sections():
    text = read(os.path.join(ROOT, "docs", "handbook.md"))
    parts = re.split(r"^## (\d+)\. .+$", text, flags=re.MULTILINE)
    return list(zip(map(int, parts[1::2]), parts[2::2]))


def references(text):
    """Numbers of sections that a text refers to; comments may break a line within a reference."""
    text = re.sub(r"\n\s*(?://|#)\s*", " ", text)
    numbers = []
    for words in REFERENCE.findall(text):
        numbers += [int(n) for n in re.findall(r"\d+", words)]
        for low, high in re.findall(r"(\d+)\s+to\s+(\d+)", words):
            numbers += range(int(low), int(high) + 1)
    return numbers


def without_comments(text):
    return re.sub(rf"({STRING})|//[^\n]*", lambda m: m.group(1) or "", text)


def braced(text, inside):
    """The innermost {...} around a position that is in no string."""
    strings = [m.span() for m in re.finditer(STRING, text)]
    in_string = [False] * len(text)
    for low, high in strings:
        in_string[low:high] = [True] * (high - low)
    depth, start = 0, inside
    while True:
        start -= 1
        if not in_string[start]:
            depth += {"}": 1, "{": -1}.get(text[start], 0)
        if depth < 0:
            break
    depth, end = 0, start
    while True:
        if not in_string[end]:
            depth += {"{": 1, "}": -1}.get(text[end], 0)
        end += 1
        if depth == 0:
            return text[start:end]


def findings():
    """(file, text) of each finding that the sources write down: {code, Severity::..., section}."""
    for path in files("src/**/*.cpp"):
        text = without_comments(read(path))
        for match in re.finditer(r"\bSeverity::\w+\s*,", text):
            yield os.path.relpath(path, ROOT), braced(text, match.start())


class HandbookSections(unittest.TestCase):
    def test_sections_are_numbered_in_order_and_say_something(self):
        found = sections()
        self.assertEqual([n for n, _ in found], list(range(1, LAST_SECTION + 1)))
        for number, text in found:
            self.assertGreater(len(text.split()), 10, f"section {number}")

    def test_the_reader_of_references_reads_them_all(self):
        self.assertEqual(references("// see handbook 5\n// and 19)"), [5, 19])
        self.assertEqual(references("(handbook 2 to 4); Handbook 7, 8"), [2, 4, 2, 3, 4, 7, 8])
        self.assertEqual(references("the handbook has 19 sections"), [])

    def test_every_reference_has_its_section(self):
        known = {number for number, _ in sections()}
        said = 0
        for path in files("src/**/*.h", "src/**/*.cpp", "tests/**/*.cpp", "docs/*.md", "README.md"):
            for number in references(read(path)):
                said += 1
                self.assertIn(number, known, os.path.relpath(path, ROOT))
        self.assertGreater(said, 10)

    def test_every_finding_names_a_section(self):
        known = {str(number) for number, _ in sections()}
        said = 0
        for path, finding in findings():
            said += 1
            last = re.search(rf"({STRING})\s*\}}$", finding)
            self.assertIsNotNone(last, f"{path}: no section at the end of {finding}")
            self.assertIn(last.group(1).strip('"'), known, f"{path}: {finding}")
        self.assertGreaterEqual(said, 5)

    def test_sections_refer_to_sections_that_there_are(self):
        for number, text in sections():
            for words in re.findall(r"\bsections? (\d+(?:(?:, | and | to )\d+)*)", text):
                for other in re.findall(r"\d+", words):
                    self.assertLessEqual(int(other), LAST_SECTION, f"section {number}")

    def test_pages_and_headers_that_the_handbook_names_are_there(self):
        text = read(os.path.join(ROOT, "docs", "handbook.md"))
        for page in re.findall(r"\]\((\w+\.md)\)", text):
            self.assertTrue(os.path.exists(os.path.join(ROOT, "docs", page)), page)
        for header in re.findall(r"`(\w+/\w+\.h)`", text):
            self.assertTrue(os.path.exists(os.path.join(ROOT, "src", header)), header)


if __name__ == "__main__":
    unittest.main()
