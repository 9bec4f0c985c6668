# SPDX-License-Identifier: GPL-3.0-or-later
"""Outside: an oracle of our own that shares nothing with the program (tests/outside/oracle).

At 99.9 % or more of random spots over many random scenes the program gives the oracle's reason: the
first test that fails, of the imager nearest to serving. Spots within 1e-6 of a limit are left out
and counted; where only part of a band must be served, so are those whose part is too near to tell
by the oracle's sampling of heights.

    oracle_reasons_test.py [first seed [number of scenes]]
"""
import collections
import json
import multiprocessing
import os
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "oracle"))
import oracle
import program
import scenes

SPOTS = 100          # of a requirement
FIRST_SEED, SCENES = 770001, 200
AGREE = 0.999
HEIGHTS = 65


def examine(seed):
    """(spots compared, left out, [disagreements], reasons met with)."""
    design = scenes.scene(seed, requirements=3)
    site = oracle.Site(design, "day")
    asked, wanted, left_out = [], [], 0
    for requirement in design["brief"]:
        spots, _ = oracle.zone_spots(site, site.zones[requirement["zone"]], SPOTS)
        if not len(spots):
            continue
        words, _, near = oracle.judge(site, requirement, spots, HEIGHTS)
        left_out += int(near.sum())
        for spot, word in zip(spots[~near], words[~near]):
            asked.append({"requirement": requirement["id"], "at": [float(v) for v in spot]})
            wanted.append(word)
    if not asked:
        return 0, left_out, [], {}
    with tempfile.TemporaryDirectory() as folder:
        path, points = os.path.join(folder, "design.json"), os.path.join(folder, "points.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        with open(points, "w", encoding="utf-8") as file:
            json.dump(asked, file)
        try:
            found = program.run_json("explain", path, "--points", points, "--json")["points"]
        except AssertionError as failure:
            program.keep(design, f"reason_{seed}")
            return len(asked), left_out, [f"seed {seed}: {failure}"] * len(asked), {}
    wrong = []
    if len(found) != len(asked):
        wrong = [f"seed {seed}: {len(asked)} points asked, {len(found)} answered"] * len(asked)
    else:
        for point, ask, word in zip(found, asked, wanted):
            says = "served" if point["served"] else point["reason"]
            if says != word:
                wrong.append(f"seed {seed} {ask['requirement']} at {ask['at']}: oracle {word}, "
                             f"program {says} ({point.get('imager')})")
    if wrong:
        program.keep(design, f"reason_{seed}")
    return len(asked), left_out, wrong, collections.Counter(wanted)


def main():
    program.need_program()
    first = int(sys.argv[1]) if len(sys.argv) > 1 else FIRST_SEED
    count = int(sys.argv[2]) if len(sys.argv) > 2 else SCENES
    compared = left_out = differ = 0
    reasons = collections.Counter()
    with multiprocessing.Pool(2) as pool:
        for n, out, wrong, met in pool.imap_unordered(examine, range(first, first + count), 4):
            compared, left_out, differ = compared + n, left_out + out, differ + len(wrong)
            reasons.update(met)
            if wrong:
                print("\n".join(wrong[:3]), flush=True)
    print(f"{compared - differ} of {compared} spots agree, {left_out} left out near a limit "
          f"(first seed {first}); {dict(reasons)}")
    sys.exit(0 if compared and differ <= (1 - AGREE) * compared else 1)


if __name__ == "__main__":
    main()
