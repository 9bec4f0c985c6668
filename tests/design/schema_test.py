#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The JSON Schemas and the reader agree.

Property: a file under examples/ that the program reads is valid under its schema; and of seeded
mutations of the whole sample, the schema refuses only what the program refuses, and refuses all
that the program refuses for a reason that a schema can know.
"""
import copy
import json
import os
import pathlib
import random
import subprocess
import tempfile

import jsonschema

ROOT = pathlib.Path(os.environ.get("BELVEDERE_SOURCE_DIR",
                                   pathlib.Path(__file__).resolve().parents[2]))
PROGRAM = os.environ["BELVEDERE"]
SEED = 20260331
MUTATIONS = 150

# What can be said of one value at a time. A wrong unit can also be a wall's length, which the
# schema does not know: such a problem points at a list of points.
STRUCTURAL = {"unknown_key", "missing_key", "wrong_type", "null_value", "unknown_word",
              "wrong_length", "out_of_range"}


def schema(name):
    loaded = json.loads((ROOT / "schema" / f"belvedere.{name}.schema.json").read_text())
    jsonschema.Draft7Validator.check_schema(loaded)
    return jsonschema.Draft7Validator(loaded)


def problems_of(path):
    run = subprocess.run([PROGRAM, "check", "--json", str(path)], capture_output=True, text=True)
    assert run.returncode in (0, 1, 3), (path, run.returncode, run.stderr)
    return json.loads(run.stdout)["problems"] if run.returncode == 3 else []


def places(value, found):
    """Every (holder, key) of a tree."""
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in items:
        found.append((value, key))
        if isinstance(inner, (dict, list)):
            places(inner, found)
    return found


def mutate(tree, rng):
    holder, key = rng.choice(places(tree, []))
    what = rng.randrange(5)
    if what == 0 and isinstance(holder, dict):
        del holder[key]
    elif what == 1 and isinstance(holder, dict):
        holder[str(key) + "x"] = holder.pop(key)
    else:
        holder[key] = rng.choice([None, True, -1e12, 1.5, "word", [], {}, [1, 2, 3, 4, 5, 6, 7]])


def main():
    design, catalogue = schema("design"), schema("catalogue")
    read = 0
    for path in sorted((ROOT / "examples").rglob("*.json")):
        tree = json.loads(path.read_text())
        kind = tree.get("format") if isinstance(tree, dict) else None
        if kind == "belvedere.catalogue":
            catalogue.validate(tree)
        elif kind == "belvedere.design" and not problems_of(path):
            design.validate(tree)
            read += 1
    assert read >= 1, "no example was read"

    data = ROOT / "tests" / "design" / "data"
    whole = json.loads((data / "whole.json").read_text())
    design.validate(whole)
    catalogue.validate(json.loads((data / "gear.json").read_text()))
    refused = agreed = 0
    with tempfile.TemporaryDirectory() as folder:
        for item in data.iterdir():
            (pathlib.Path(folder) / item.name).write_bytes(item.read_bytes())
        path = pathlib.Path(folder) / "whole.json"
        for number in range(MUTATIONS):
            rng = random.Random(SEED + number)
            tree = copy.deepcopy(whole)
            mutate(tree, rng)
            path.write_text(json.dumps(tree))
            problems = problems_of(path)
            valid = design.is_valid(tree)
            codes = {p["code"] for p in problems}
            refused += bool(problems)
            assert valid or problems, (number, "the schema refuses what the program reads",
                                       next(design.iter_errors(tree)))
            if codes & STRUCTURAL:
                assert not valid, (number, "the schema takes what the program refuses", problems)
                agreed += 1
    assert agreed >= MUTATIONS // 3, agreed
    print(f"{read} examples; {MUTATIONS} mutations, {refused} refused, {agreed} by both")


if __name__ == "__main__":
    main()
