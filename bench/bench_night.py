#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What judging light costs: the proof of one design by night over that by day, the whole brief asked in
both situations and everything else the same. Processor time of `belvedere prove --no-spots --quiet`,
the two turn about, medians.

    bench_night.py BELVEDERE DESIGN DAY NIGHT [RUNS]
"""
import json
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile


def variant(design, situation):
    """All that is asked, asked in that situation alone."""
    out = json.loads(json.dumps(design))
    out["situations"] = [s for s in out["situations"] if s["id"] == situation]
    if not out["situations"]:
        sys.exit(f"the design has no situation {situation}")
    for requirement in out["brief"]:
        requirement.pop("situations", None)
    return out


def seconds(command):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False)
    if done.returncode not in (0, 1):
        sys.exit(done.stderr.decode())
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def main():
    if len(sys.argv) < 5:
        sys.exit(__doc__)
    belvedere, path, day, night = sys.argv[1:5]
    runs = int(sys.argv[5]) if len(sys.argv) > 5 else 5
    with open(path, encoding="utf-8") as file:
        design = json.load(file)
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(os.path.dirname(os.path.abspath(path)), folder, dirs_exist_ok=True)
        commands = {}
        for situation in (day, night):
            written = os.path.join(folder, f"bench_{situation}.json")
            with open(written, "w", encoding="utf-8") as file:
                json.dump(variant(design, situation), file)
            commands[situation] = [belvedere, "prove", written, "--no-spots", "--quiet", "--threads", "1"]
        took = {situation: [] for situation in commands}
        for _ in range(runs):
            for situation, command in commands.items():
                took[situation].append(seconds(command))
    by_day, by_night = (statistics.median(took[s]) for s in (day, night))
    ratios = [n / d for d, n in zip(took[day], took[night])]
    print(f"{path}: {day} {by_day:.2f} s, {night} {by_night:.2f} s, ratio {by_night / by_day:.2f} "
          f"({min(ratios):.2f} to {max(ratios):.2f}), load {os.getloadavg()[0]:.1f}")


if __name__ == "__main__":
    main()
