#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""An estate's services sized: a tenth, a third and the whole of 1,000 housings, 4,000 imagers, 12,000
streams and 60 switches, as scripts/make_large_site.py --services writes them; and what falls when a part
of it fails, without a brief (what services alone answer) and, with --brief, with 100 requirements proven
first. Prints wall time, processor time, peak memory, and the exponent of growth (1 is linear: of
processor time, since others may use the machine).

    bench_services.py BELVEDERE [--rounds N] [--threads N] [--brief]
"""
import argparse
import json
import math
import os
import statistics
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from bench_large import GENERATOR, SIZES, run  # noqa: E402


def without_brief(source, target):
    with open(source, encoding="utf-8") as file:
        design = json.load(file)
    design["brief"] = []
    with open(target, "w", encoding="utf-8") as file:
        json.dump(design, file)


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("belvedere")
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--threads", type=int, default=0)
    parser.add_argument("--brief", action="store_true")
    options = parser.parse_args()
    threads = ["--threads", str(options.threads)]
    with tempfile.TemporaryDirectory() as folder:
        calls = []  # name, housings, words after the program
        for name, housings, triangles, zones in SIZES:
            place = os.path.join(folder, str(housings))
            subprocess.run([sys.executable, GENERATOR, place, "--housings", str(housings),
                            "--triangles", str(triangles), "--zones-m2", str(zones), "--share", "0.05",
                            "--services"], check=True)
            whole = os.path.join(place, "design.json")
            bare = os.path.join(place, "bare.json")
            without_brief(whole, bare)
            calls.append(("check", name, housings, ["check", bare]))
            calls.append(("size", name, housings, ["size", bare, *threads]))
            calls.append(("size --failures", name, housings, ["size", bare, "--failures", *threads]))
            if options.brief:
                calls.append(("prove", name, housings, ["prove", whole, "--quiet", *threads]))
                calls.append(("size --failures, brief", name, housings,
                              ["size", whole, "--failures", *threads]))
        rounds = [[run([options.belvedere, *words]) for *_, words in calls]
                  for _ in range(options.rounds)]
    spent = {}
    for i, (what, name, housings, _) in enumerate(calls):
        wall, processor, peak = (statistics.median(r[i][k] for r in rounds) for k in range(3))
        spent.setdefault(what, []).append((housings, processor))
        print(f"{what:24} {name:10} wall {wall:6.2f} s   processor {processor:6.2f} s   "
              f"peak {peak:5.0f} MiB")
    for what, ((n, a), *_, (m, b)) in spent.items():
        print(f"{what}: growth from {n} to {m} housings: exponent {math.log(b / a) / math.log(m / n):.2f}")


if __name__ == "__main__":
    main()
