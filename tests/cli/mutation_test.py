#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Property: whatever is done to a design's structure, the program ends with 0 to 3: never with a
crash, never with 4 (our own mistake).

300 seeded mutations of the examples: members removed, doubled, renamed, exchanged with others,
values of other types and magnitudes. Each is checked; each that is still sound is proven too.
"""
import copy
import json
import os
import pathlib
import random
import shutil
import subprocess
import tempfile

ROOT = pathlib.Path(os.environ.get("BELVEDERE_SOURCE_DIR",
                                   pathlib.Path(__file__).resolve().parents[2]))
PROGRAM = os.environ["BELVEDERE"]
SEED = 19990101
COUNT = 300
SECONDS = 60  # a proof that takes longer is stopped: it did not crash

VALUES = [None, True, False, 0, -1, 1, 2, 0.5, 1e-9, -1e-9, 1e9, 1e308, -1e308, 90, 180, 360, 89.999,
          "", "x", "all", "day", "any_housing", [], {}, [[]], [0, 0], [[0, 0], [0, 0], [0, 0]],
          [[0, 0], [1, 1], [1, 0], [0, 1]], {"id": "x"}]


def places(value, found):
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in items:
        found.append((value, key))
        if isinstance(inner, (dict, list)):
            places(inner, found)
    return found


def mutate(tree, rng):
    spots = places(tree, [])
    holder, key = rng.choice(spots)
    what = rng.randrange(7)
    if what == 0:
        del holder[key]
    elif what == 1:
        holder[key] = rng.choice(VALUES)
    elif what == 2:  # another part of the same file
        other, other_key = rng.choice(spots)
        holder[key] = copy.deepcopy(other[other_key])
    elif what == 3 and isinstance(holder, list):
        holder.insert(key, copy.deepcopy(holder[key]))
    elif what == 4 and isinstance(holder, list):
        rng.shuffle(holder)
    elif what == 5 and isinstance(holder, dict):
        holder[rng.choice(["id", "x", "outline", str(key) + "s"])] = holder[key]
    else:  # a number, nudged or blown up
        numbers = [(h, k) for h, k in spots
                   if isinstance(h[k], (int, float)) and not isinstance(h[k], bool)]
        if numbers:
            holder, key = rng.choice(numbers)
            holder[key] = rng.choice([-holder[key], holder[key] * 1.01, holder[key] + 1e-9,
                                      holder[key] * 1000, holder[key] / 1000, 0])


def run(arguments):
    try:
        done = subprocess.run([PROGRAM, *arguments], capture_output=True, timeout=SECONDS)
        return done.returncode, done.stderr
    except subprocess.TimeoutExpired:
        return 0, b""


def main():
    designs = []
    for path in sorted((ROOT / "examples").rglob("*.json")):
        tree = json.loads(path.read_text())
        if isinstance(tree, dict) and tree.get("format") == "belvedere.design":
            designs.append((path, tree))
    # Small ones are proven in a moment; the large ones are checked only.
    ends = {0: 0, 1: 0, 2: 0, 3: 0}
    proven = 0
    with tempfile.TemporaryDirectory() as folder:
        for path, _ in designs:
            shutil.copytree(path.parent, pathlib.Path(folder) / path.parent.name,
                            dirs_exist_ok=True)
        for number in range(COUNT):
            rng = random.Random(SEED + number)
            path, tree = designs[number % len(designs)]
            tree = copy.deepcopy(tree)
            for _ in range(rng.choice([1, 1, 1, 2, 4])):
                mutate(tree, rng)
            mutated = pathlib.Path(folder) / path.parent.name / "mutated.json"
            mutated.write_text(json.dumps(tree))
            commands = [["check"]]
            code, errors = run(["check", str(mutated)])
            if code != 3 and path.parent.name == "shop":
                commands.append(["prove"])
                code, errors = run(["prove", str(mutated)])
                proven += 1
            assert code in ends, (f"mutation {number} of {path.relative_to(ROOT)} (seed {SEED}) "
                                  f"ends {commands[-1]} with {code}: {errors[-2000:]!r}")
            ends[code] += 1
    assert ends[3] > COUNT // 4 and ends[0] + ends[1] > 0, ends
    print(f"{COUNT} mutations: exits {ends}; {proven} proven")


if __name__ == "__main__":
    main()
