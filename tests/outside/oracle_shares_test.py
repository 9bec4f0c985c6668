# SPDX-License-Identifier: GPL-3.0-or-later
"""Outside: an oracle of our own that shares nothing with the program (tests/outside/oracle).

In 1,000 of 1,000 random scenes, each with two requirements, the oracle's sampled share lies within
the program's proven bounds, and no verdict contradicts it. The share asked for is put near the
oracle's, so that the program has to go on splitting. The oracle samples a lattice of low
discrepancy, 1,500 spots a zone: it is allowed 1.5 times the random error of as many random spots,
about three times what its lattice was found to be off by at worst (oracle.share).

    oracle_shares_test.py [first seed [number of scenes]]
"""
import multiprocessing
import os
import sys
import tempfile
import json

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "oracle"))
import oracle
import program
import scenes

SPOTS = 1500
FIRST_SEED, SCENES = 20250101, 1000


def examine(seed):
    """What is wrong in the scene of a seed, as lines; how many shares were mixed, how many verdicts
    undecided."""
    design = scenes.scene(seed)
    random = np.random.default_rng(seed + 1)
    site = oracle.Site(design, "day")
    sampled = {}
    for requirement in design["brief"]:
        share, error, area, _ = oracle.share(site, requirement, SPOTS)
        if area == 0:
            return [], 0, 0
        off = random.choice([-1, 1]) * (error + random.uniform(0, 0.03))
        requirement["share"] = round(float(min(max(share + off, 0.001), 1)), 4)
        sampled[requirement["id"]] = (share, error, area)
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "design.json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(design, file)
        try:
            proof = program.run_json("prove", path, "--json", "--threads", "1")
        except AssertionError as failure:
            return [f"seed {seed}: {failure}", program.keep(design, f"share_{seed}")], 0, 0
    wrong, mixed, undecided = [], 0, 0
    for row in proof["requirements"]:
        share, error, area = sampled[row["requirement"]]
        low, high, asked = row["share"]["low"], row["share"]["high"], row["asked"]
        mixed += 0.01 < share < 0.99
        undecided += row["verdict"] == "undecided"
        says = (f"seed {seed} {row['requirement']}: oracle {share:.4f} +- {error:.4f}, program "
                f"{low:.4f} to {high:.4f}, asked {asked:.4f}, {row['verdict']}")
        if not low - error <= share <= high + error:
            wrong.append(says + ": outside the bounds")
        if (row["verdict"] == "met" and share < asked - error or
                row["verdict"] == "not_met" and share > asked + error):
            wrong.append(says + ": the verdict contradicts")
        if abs(row["zone_m2"] / area - 1) > 0.1:
            wrong.append(says + f": zone of {row['zone_m2']:.3f} m2, oracle {area:.3f}")
    if wrong:
        wrong.append(f"seed {seed}: the design is kept as {program.keep(design, f'share_{seed}')}")
    return wrong, mixed, undecided


def main():
    program.need_program()
    first = int(sys.argv[1]) if len(sys.argv) > 1 else FIRST_SEED
    count = int(sys.argv[2]) if len(sys.argv) > 2 else SCENES
    failed = mixed = undecided = 0
    with multiprocessing.Pool(2) as pool:
        for wrong, m, u in pool.imap_unordered(examine, range(first, first + count), 4):
            failed += bool(wrong)
            mixed, undecided = mixed + m, undecided + u
            if wrong:
                print("\n".join(wrong), flush=True)
    print(f"{count - failed} of {count} scenes agree (first seed {first}); {mixed} requirements "
          f"with a share between 1 and 99 %, {undecided} undecided")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
