# SPDX-License-Identifier: GPL-3.0-or-later
"""JSON answers: each fits its schema, gives the same bytes on any number of threads, and holds
what the text says."""
import glob
import json
import os
import tempfile
import unittest

import jsonschema

from belvedere_cli import EXAMPLES, SCHEMAS, SHOP, call, call_json, shop, write


def schema(name):
    with open(os.path.join(SCHEMAS, name + ".schema.json"), encoding="utf-8") as file:
        loaded = json.load(file)
    jsonschema.Draft7Validator.check_schema(loaded)
    return loaded


def numbers(value):
    if isinstance(value, float):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from numbers(item)
    elif isinstance(value, list):
        for item in value:
            yield from numbers(item)


class JsonAnswers(unittest.TestCase):
    # Property: real answers fit their schemas.
    def test_answers_fit_their_schemas(self):
        for design in sorted(glob.glob(os.path.join(EXAMPLES, "*", "design.json"))):
            for command, name in (("prove", "belvedere.proof"), ("check", "belvedere.check"),
                                  ("blind", "belvedere.blind"), ("light", "belvedere.light")):
                code, answer = call_json(command, design, "--json")
                self.assertIn(code, (0, 1), design)
                jsonschema.validate(answer, schema(name))
                self.assertEqual((answer["format"], answer["version"]), (name, 1))
        for arguments in (["--requirement", "R1"], ["--requirement", "R5"], ["--may-change"], []):
            _, answer = call_json("explain", SHOP, *arguments, "--json")
            jsonschema.validate(answer, schema("belvedere.explanation"))

    # Property: so does reach, with and without what may be absent; every schema has its section.
    def test_reach_fits_its_schema(self):
        camera = ["reach", "--pixels", "2592x1944", "--json"]
        for more in (["--hfov", 100], ["--hfov", 100, "--height", 3, "--tilt", 35],
                     ["--hfov", 49, "--vfov", 37, "--width-at", "5,10", "--scale", "2025"],
                     ["--hfov", 185, "--family", "equidistant", "--height", 3, "--tilt", -90]):
            _, answer = call_json(*camera, *more)
            jsonschema.validate(answer, schema("belvedere.reach"))
        with open(os.path.join(SCHEMAS, "..", "docs", "json.md"), encoding="utf-8") as file:
            page = file.read()
        for path in glob.glob(os.path.join(SCHEMAS, "*.schema.json")):
            name = os.path.basename(path)[:-len(".schema.json")]
            if name not in ("belvedere.design", "belvedere.catalogue"):  # docs/format.md
                self.assertIn(f"`schema/{name}.schema.json`", page)
                self.assertIn(f"\n## {name}\n", page)

    # Property: a preview says that it is one, in text and data, on which lattice it stands and how
    # long it took; it has no bounds or verdicts and never ends with 0; its estimates are near the
    # proof's bounds.
    def test_previews_say_what_they_are(self):
        for design in sorted(glob.glob(os.path.join(EXAMPLES, "*", "design.json"))):
            code, preview = call_json("prove", design, "--preview", "--preview-ms", 50, "--json")
            self.assertEqual(code, 1)
            jsonschema.validate(preview, schema("belvedere.preview"))
            self.assertEqual(preview["notice"], "preview, not a proof")
            _, proof = call_json("prove", design, "--no-spots", "--json")
            proven = {(r["requirement"], r["situation"]): r["share"] for r in proof["requirements"]
                      if r["kind"] == "see" and "without" not in r}
            rows = {(r["requirement"], r["situation"]): r for r in preview["requirements"]}
            self.assertEqual(rows.keys(), proven.keys())
            for key, row in rows.items():
                self.assertGreater(row["share_estimate"], proven[key]["low"] - 0.05, key)
                self.assertLess(row["share_estimate"], proven[key]["high"] + 0.05, key)
            self.assertNotIn("verdict", json.dumps(preview))
        for flag in ("--quiet", "--preview-ms=20"):
            done = call("prove", SHOP, "--preview", flag)
            self.assertEqual(done.returncode, 1)
            self.assertIn("preview, not a proof", done.stdout)

    def test_problems_fit_their_schema(self):
        design = shop()
        design["brief"][0]["zone"] = "matt"
        del design["housings"]
        with tempfile.TemporaryDirectory() as folder:
            for path in (write(folder, design), os.path.join(folder, "none.json")):
                code, problems = call_json("check", path, "--json")
                self.assertEqual(code, 3)
                jsonschema.validate(problems, schema("belvedere.problems"))

    # Property: a schema that lets anything pass would prove nothing: keys of none are refused.
    def test_schemas_refuse_what_does_not_fit(self):
        _, proof = call_json("prove", SHOP, "--only", "R1", "--json")
        for spoil in (lambda p: p.update(seconds=1.0),
                      lambda p: p["requirements"][0].pop("verdict"),
                      lambda p: p["requirements"][0].update(verdict="perhaps"),
                      lambda p: p["requirements"][0]["share"].update(low=1.5)):
            spoilt = json.loads(json.dumps(proof))
            spoil(spoilt)
            with self.assertRaises(jsonschema.ValidationError):
                jsonschema.validate(spoilt, schema("belvedere.proof"))

    # Property: the number of threads changes no byte.
    def test_same_bytes_on_1_2_and_7_threads(self):
        for example in ("shop", "ferry_terminal"):
            design = os.path.join(EXAMPLES, example, "design.json")
            said = {call("prove", design, "--threads", n, "--json", "-").stdout for n in (1, 2, 7)}
            self.assertEqual(len(said), 1, example)
            said = {call("prove", design, "--threads", n).stdout for n in (1, 2, 7)}
            self.assertEqual(len(said), 1, example)

    # Property: rounded to a millionth, so that last bits do not show.
    def test_numbers_are_rounded(self):
        _, proof = call_json("prove", SHOP, "--json")
        for value in numbers(proof):
            self.assertLess(abs(value * 1e6 - round(value * 1e6)), 1e-3, value)

    # Property: with a file, the text still goes to stdout, and the file holds what - would print;
    # --json first and the only file last is the design.
    def test_json_to_a_file_and_to_stdout_agree(self):
        with tempfile.TemporaryDirectory() as folder:
            path = os.path.join(folder, "proof.json")
            done = call("prove", SHOP, "--json", path)
            self.assertIn("Requirements", done.stdout)
            with open(path, encoding="utf-8") as file:
                written = file.read()
            self.assertEqual(os.listdir(folder), ["proof.json"])
        self.assertEqual(call("prove", SHOP, "--json").stdout, written)
        self.assertEqual(call("prove", SHOP, "--json", "-").stdout, written)
        self.assertEqual(call("prove", "--json", SHOP).stdout, written)

    # Property: bounds are ordered, verdicts follow from them, reasons fill what is not served.
    def test_verdicts_follow_from_bounds(self):
        for design in sorted(glob.glob(os.path.join(EXAMPLES, "*", "design.json"))):
            code, proof = call_json("prove", design, "--json")
            rows = proof["requirements"]
            judged = rows + proof["demands"]
            self.assertEqual(code == 0, all(row["verdict"] == "met" for row in judged) and not any(
                f["severity"] == "shortfall" for f in proof["findings"]))
            self.assertEqual(proof["all_met"], code == 0)
            for row in rows:
                if row["kind"] == "withhold":
                    densest, most = row["densest_px_per_m"], row["needed_px_per_m"]
                    self.assertLessEqual(densest["low"], densest["high"])
                    want = ("met" if densest["high"] <= most else
                            "not_met" if densest["low"] > most else "undecided")
                else:
                    share = row["share"]
                    self.assertLessEqual(share["low"], share["high"])
                    want = ("met" if share["low"] >= row["asked"] - 1e-6 else
                            "not_met" if share["high"] < row["asked"] - 1e-6 else "undecided")
                    self.assertLessEqual(sum(r["share"] for r in row["reasons"]), 1 + 1e-6)
                self.assertEqual(row["verdict"], want, row)

    # Property: the shop's near miss is named with its measure: too coarse, by less than a tenth.
    def test_near_miss_is_reported_with_its_measure(self):
        _, answer = call_json("explain", SHOP, "--requirement", "R1", "--json")
        point = answer["points"][0]
        self.assertFalse(point["served"])
        self.assertEqual(point["reason"], "too_coarse")
        self.assertEqual(point["measure"]["needed"], 250)
        self.assertGreater(point["measure"]["found"], 0.9 * 250)
        self.assertAlmostEqual(point["measure"]["margin"],
                               point["measure"]["found"] / point["measure"]["needed"], 5)

    # Property: points are answered in their order, without changes unless asked for.
    def test_points_file(self):
        with tempfile.TemporaryDirectory() as folder:
            points = [{"requirement": "R1", "at": [0.5, 3]},
                      {"requirement": "R4", "at": [3, 3], "situation": "open"},
                      {"requirement": "R1", "at": [5, 5]}]
            path = write(folder, points, "points.json")
            _, answer = call_json("explain", SHOP, "--points", path, "--json")
            jsonschema.validate(answer, schema("belvedere.explanation"))
            self.assertEqual([(p["requirement"], p["at"]) for p in answer["points"]],
                             [(p["requirement"], p["at"]) for p in points])
            self.assertEqual([p["inside"] for p in answer["points"]], [True, True, False])
            self.assertTrue(all("changes" not in p for p in answer["points"]))
            _, answer = call_json("explain", SHOP, "--points", path, "--changes", "--json")
            self.assertTrue(all("changes" in p for p in answer["points"]))
            bad = write(folder, [{"requirement": "R11", "at": [0.5, 3]},
                                 {"requirement": "R1", "at": "here"}, 7], "bad.json")
            code, problems = call_json("explain", SHOP, "--points", bad, "--json")
            self.assertEqual(code, 3)
            self.assertEqual([p["where"] for p in problems["problems"]],
                             ["/0/requirement", "/1/at", "/2"])

    # Property: nothing in the answer tells the time or the folder.
    def test_answers_do_not_depend_on_where_and_when(self):
        with tempfile.TemporaryDirectory() as folder:
            with open(SHOP, encoding="utf-8") as file:
                text = file.read()
            path = os.path.join(folder, "other.json")
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
            self.assertEqual(call("prove", path, "--json").stdout,
                             call("prove", SHOP, "--json").stdout)


if __name__ == "__main__":
    unittest.main()
