# SPDX-License-Identifier: GPL-3.0-or-later
"""belvedere draw from the outside: files, names, refusals, exit codes."""
import json
import os
import pathlib
import re
import subprocess
import tempfile
import unittest
import xml.etree.ElementTree

PROGRAM = os.environ.get("BELVEDERE", "belvedere")
EXAMPLES = pathlib.Path(os.environ.get("BELVEDERE_SOURCE_DIR", ".")) / "examples"


def draw(folder, *words):
    environment = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "QT_QPA_PLATFORM")}
    return subprocess.run([PROGRAM, "draw", *map(str, words)], cwd=folder, env=environment,
                          capture_output=True, text=True, timeout=300)


class DrawCommand(unittest.TestCase):
    def setUp(self):
        self.kept = tempfile.TemporaryDirectory()
        self.folder = pathlib.Path(self.kept.name)
        self.shop = EXAMPLES / "shop" / "design.json"

    def tearDown(self):
        self.kept.cleanup()

    def test_shop_becomes_an_a3_sheet_whose_text_is_text(self):
        # Property: no display is needed, and what was written is said.
        run = draw(self.folder, self.shop, "--out", "plan.svg")
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertEqual(run.stderr, "")
        self.assertIn("wrote plan.svg", run.stdout)
        sheet = xml.etree.ElementTree.parse(self.folder / "plan.svg").getroot()
        self.assertEqual((sheet.get("width"), sheet.get("height")), ("420mm", "297mm"))
        words = " | ".join(t.text.strip() for t in sheet.iter("{http://www.w3.org/2000/svg}text"))
        for word in ("Pellow's shop", "R1  Inside the door", "too coarse", "Ground floor"):
            self.assertIn(word, words)

    def test_same_design_same_bytes(self):
        # Property: architecture's promise, for both kinds of file.
        for kind in ("svg", "png"):
            for name in ("a", "b"):
                run = draw(self.folder, self.shop, "--out", f"{name}.{kind}")
                self.assertEqual(run.returncode, 0, run.stderr)
            self.assertEqual((self.folder / f"a.{kind}").read_bytes(),
                             (self.folder / f"b.{kind}").read_bytes())

    def test_one_file_a_storey(self):
        # Property: the footbridge has two storeys; one alone keeps the name as given.
        bridge = EXAMPLES / "footbridge" / "design.json"
        run = draw(self.folder, bridge, "--out", "bridge.svg")
        self.assertEqual(run.returncode, 0, run.stderr)
        written = sorted(p.name for p in self.folder.iterdir())
        self.assertEqual(len(written), 2)
        for name in written:
            self.assertRegex(name, r"^bridge-.+\.svg$")
        storey = written[0][len("bridge-"):-len(".svg")]
        run = draw(self.folder, bridge, "--storey", storey, "--out", "one.svg")
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertTrue((self.folder / "one.svg").exists())

    def test_refuses_to_replace_a_file_unless_forced(self):
        # Property: nothing that is there is lost by mistake.
        (self.folder / "plan.svg").write_text("mine")
        run = draw(self.folder, self.shop, "--out", "plan.svg")
        self.assertEqual(run.returncode, 2)
        self.assertIn("--force", run.stderr)
        self.assertEqual((self.folder / "plan.svg").read_text(), "mine")
        run = draw(self.folder, self.shop, "--out", "plan.svg", "--force")
        self.assertEqual(run.returncode, 0, run.stderr)
        self.assertNotEqual((self.folder / "plan.svg").read_text(), "mine")

    def test_a_requirement_is_drawn_close_up(self):
        # Property: a larger scale than the storey's, a round one; its zone and the camera that
        # serves it are there, zones beside the view are not.
        def words_and_scale(*more):
            run = draw(self.folder, EXAMPLES / "ferry_terminal" / "doors.json", "--force", *more)
            self.assertEqual(run.returncode, 0, run.stderr)
            sheet = xml.etree.ElementTree.parse(self.folder / "doors.svg").getroot()
            texts = sheet.iter("{http://www.w3.org/2000/svg}text")
            return [t.text.strip() for t in texts], float(re.search(r"1:(\d+)", run.stdout)[1])

        whole, whole_scale = words_and_scale()
        close, close_scale = words_and_scale("--requirement", "R1")
        self.assertLess(close_scale, whole_scale)
        self.assertIn(close_scale, (20, 25, 50, 100, 200, 250))
        self.assertTrue(any(w.startswith("R1  ") for w in close))
        self.assertLess(len(close), len(whole))

    def test_services_say_of_the_brief_what_the_plan_says(self):
        # Property: who serves is known on both sheets, so that what is kept of a zone nobody serves is too.
        design = json.loads(self.shop.read_text(encoding="utf-8"))
        for housing in design["housings"]:
            for imager in housing["imagers"]:
                imager["masks"] = [[[0, 0], [1, 0], [1, 1], [0, 1]]]
        (self.folder / "blind.json").write_text(json.dumps(design), encoding="utf-8")
        said = []
        for words in ((), ("--services",)):
            run = draw(self.folder, "blind.json", "--out", "plan.svg", "--force", *words)
            self.assertEqual(run.returncode, 0, run.stderr)
            sheet = xml.etree.ElementTree.parse(self.folder / "plan.svg").getroot()
            texts = [t.text.strip() for t in sheet.iter("{http://www.w3.org/2000/svg}text") if t.text]
            said.append([t for t in texts if re.match(r"(met|not met|undecided): ", t)])
        self.assertIn("not met: nothing serves it", said[0])
        self.assertEqual(said[0], said[1])

    def test_threads_change_no_byte(self):
        # Property: architecture's promise.
        for n in (1, 2):
            run = draw(self.folder, self.shop, "--out", f"{n}.svg", "--threads", n)
            self.assertEqual(run.returncode, 0, run.stderr)
        self.assertEqual((self.folder / "1.svg").read_bytes(), (self.folder / "2.svg").read_bytes())

    def test_wrong_calls_are_told_what_is_right(self):
        # Property: exit code 2, a sentence, and no file.
        for words, says in ((["--out", "plan.gif"], ".svg"),
                            (["--storey", "grund"], "ground"),
                            (["--situation", "opne"], "open"),
                            (["--requirement", "R9"], "R9"),
                            (["--requirement", "R6"], "R6"),
                            (["--requirement", "R1", "--situation", "closed"], "closed"),
                            (["--out", "no_such_folder/plan.svg"], "cannot be written")):
            run = draw(self.folder, self.shop, *words)
            self.assertEqual(run.returncode, 2, (words, run.stdout, run.stderr))
            self.assertIn(says, run.stderr)
        self.assertEqual(list(self.folder.iterdir()), [])
        run = draw(self.folder, "nowhere.json")
        self.assertIn(run.returncode, (2, 3))


if __name__ == "__main__":
    unittest.main()
