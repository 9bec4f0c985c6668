#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""An estate's services sized: a tenth, a third and the whole of 1,000 housings, 4,000 imagers, 12,000
streams and 60 switches, as scripts/make_large_site.py --services writes them; and what falls when a part
of it fails, without a brief (what services alone answer) and, with --brief, with 100 requirements proven
first. Prints wall time, processor time, peak memory, and the exponent of growth (1 is linear: of
processor time, since others may use the machine).

    bench_services.py BELVEDERE [--rounds N] [--threads N] [--brief]
"""
import json
import os
import tempfile

from large_sites import arguments, growth, medians, run, sites


def without_brief(source, target):
    with open(source, encoding="utf-8") as file:
        design = json.load(file)
    design["brief"] = []
    with open(target, "w", encoding="utf-8") as file:
        json.dump(design, file)


def main():
    options = arguments(__doc__, "--brief", "failures with a brief of 100 requirements too")
    threads = ["--threads", str(options.threads)]
    with tempfile.TemporaryDirectory() as folder:
        calls = []  # what, name, housings, words after the program
        for name, housings, whole in sites(folder, "--share", "0.05", "--services"):
            bare = os.path.join(os.path.dirname(whole), "bare.json")
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
        wall, processor, peak = medians(rounds, i)
        spent.setdefault(what, []).append((housings, processor))
        print(f"{what:24} {name:10} wall {wall:6.2f} s   processor {processor:6.2f} s   "
              f"peak {peak:5.0f} MiB")
    for what, results in spent.items():
        print(f"{what}: growth from {results[0][0]} to {results[-1][0]} housings: exponent "
              f"{growth(results[0], results[-1]):.2f}")


if __name__ == "__main__":
    main()
