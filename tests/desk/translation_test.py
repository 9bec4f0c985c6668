# SPDX-License-Identifier: GPL-3.0-or-later
"""Property: whatever the window marks for translation, src/desk/words/*.ts translates: every word, with
the places for values (%1, %n), one and many where things are counted, and a key to press where the
English has one. Nothing is kept that the window no longer says.

`translation_test.py --missing` prints what is missing as lines to fill in.
"""
import functools
import os
import re
import sys
import unittest
import xml.etree.ElementTree as xml
from xml.sax.saxutils import escape

ROOT = os.environ.get("BELVEDERE_SOURCE_DIR") or os.path.join(os.path.dirname(__file__), "..", "..")
DESK = os.path.join(ROOT, "src", "desk")
ROOMS = [DESK, os.path.join(ROOT, "src", "drawing")]  # what they mark is on screen
LITERAL = r'"((?:[^"\\]|\\.)*)"'
MARKED = re.compile(r"\b(?:tr|said|partWords|translate|QT_TR_NOOP|QT_TRANSLATE_NOOP)\(\s*(?=\")")
ESCAPES = {"n": "\n", "t": "\t", '"': '"', "\\": "\\"}


def literals(text, at):
    """The string literals, joined as the compiler does, that stand from `at` on; and where they end."""
    said = ""
    while True:
        found = re.compile(r"\s*" + LITERAL).match(text, at)
        if not found:
            return said, at
        said += re.sub(r"\\(.)", lambda e: ESCAPES[e.group(1)], found.group(1))
        at = found.end()


@functools.cache
def marked():
    """Every string of the window that is marked, with the file that says it first."""
    said = {}
    for folder, _, names in [one for room in ROOMS for one in sorted(os.walk(room))]:
        for name in sorted(names):
            if not name.endswith((".cpp", ".h")):
                continue
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                text = re.sub(r"^\s*//.*$", "", file.read(), flags=re.M)
            for call in MARKED.finditer(text):
                words, end = literals(text, call.end())
                if "translate(" in call.group() or "TRANSLATE" in call.group():  # context first
                    words, _ = literals(text, text.index(",", end) + 1)
                if words:
                    said.setdefault(words, name)
    return said


@functools.cache
def translated(path):
    said = {}
    for message in xml.parse(path).getroot().iter("message"):
        translation = message.find("translation")
        if translation.get("type") == "unfinished":
            continue
        forms = [form.text or "" for form in translation.findall("numerusform")]
        said[message.findtext("source")] = forms or [translation.text or ""]
    return said


def languages():
    folder = os.path.join(DESK, "words")
    return [os.path.join(folder, name) for name in sorted(os.listdir(folder)) if name.endswith(".ts")]


def of(path):
    """What a language has to say: of English, one and many of what is counted."""
    return [w for w in marked() if "%n" in w or not path.endswith("_en.ts")]


def places(words):
    return sorted(re.findall(r"%(?:L?\d+|n)|\{\}", words))


def keys(words):
    return len(re.findall(r"&\w", words.replace("&&", "")))


class Translation(unittest.TestCase):
    def test_the_source_is_read(self):
        said = marked()
        self.assertGreater(len(said), 400)
        self.assertIn("&Open ...", said)
        # Joined over lines, with an escape.
        self.assertTrue(any(len(words) >= 120 for words in said))

    def test_none_is_missing(self):
        for path in languages():
            missing = [w for w in of(path) if not any(translated(path).get(w, [""]))]
            self.assertEqual(missing, [], f"{path} lacks {len(missing)}: --missing prints them")

    def test_none_is_kept_that_nobody_says(self):
        for path in languages():
            self.assertEqual([w for w in translated(path) if w not in marked()], [], path)

    def test_values_find_their_places(self):
        for path in languages():
            for words, forms in translated(path).items():
                for form in forms:
                    here = places(form)
                    if len(forms) == 2 and form is forms[0]:  # "one" may stand for %n
                        here = sorted(set(here) | ({"%n"} if "%n" in words else set()))
                    self.assertEqual(here, places(words), f"{words!r} in {path}")

    def test_counted_things_have_one_and_many(self):
        for path in languages():
            for words, forms in translated(path).items():
                self.assertEqual(len(forms), 2 if "%n" in words else 1, f"{words!r} in {path}")

    def test_keys_to_press_are_kept(self):
        for path in languages():
            for words, forms in translated(path).items():
                for form in forms:
                    self.assertEqual(keys(form), keys(words), f"{words!r} in {path}")


def print_missing():
    for path in languages():
        known = translated(path)
        said = marked()
        for words in sorted((w for w in of(path) if w not in known), key=lambda w: (said[w], w)):
            form = "<numerusform></numerusform>" * 2 if "%n" in words else ""
            print(f"<message><source>{escape(words)}</source><translation>{form}</translation></message>")


if __name__ == "__main__":
    if "--missing" in sys.argv:
        print_missing()
    else:
        unittest.main()
