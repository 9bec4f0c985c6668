#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What judging light costs: the proof of one design by night over that by day, the whole brief asked in
both situations and everything else the same. Processor time of `belvedere prove --no-spots --quiet`,
the two turn about, medians; how far apart the bounds stay, at most, in either.

    bench_night.py BELVEDERE [--runs RUNS]                     farm, yard and deck of the examples
    bench_night.py BELVEDERE DESIGN DAY NIGHT [--runs RUNS]    one design's situations

The deck is `examples/car_park_deck/below_beams.json` with 14 luminaires between its beams, seven over each
lane, in a situation `lanes`: every other bay of cars is taken, as in `busy`.
"""
import argparse
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


def with_lanes(design):
    """The deck under luminaires in every other bay between its beams, as its ramps have them."""
    lights = design["site"]["lights"]
    like = next(light for light in lights if light["id"] == "light_ramp_up")
    added = [dict(like, id=f"lane_{n}_{y}", at_m=[round(2.4 + 9.6 * n, 1), y, like["at_m"][2]])
             for y in (8, 24) for n in range(7)]
    lights.extend(added)
    design["situations"].append({"id": "lanes", "title": "Night, lanes lit",
                                 "lights": [light["id"] for light in added]})
    return design


def seconds(command):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    if done.returncode not in (0, 1):
        sys.exit(done.stderr.decode())
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    shares = [row["share"] for row in json.loads(done.stdout)["requirements"] if row.get("share")]
    apart = max(share["high"] - share["low"] for share in shares)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime, apart


def measure(belvedere, path, design, day, night, runs):
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(os.path.dirname(os.path.abspath(path)), folder, dirs_exist_ok=True)
        commands = {}
        for situation in (day, night):
            written = os.path.join(folder, f"bench_{situation}.json")
            with open(written, "w", encoding="utf-8") as file:
                json.dump(variant(design, situation), file)
            commands[situation] = [belvedere, "prove", written, "--no-spots", "--json", "--threads", "1"]
        took = {situation: [] for situation in commands}
        apart = {}
        for _ in range(runs):
            for situation, command in commands.items():
                second, apart[situation] = seconds(command)
                took[situation].append(second)
    by_day, by_night = (statistics.median(took[s]) for s in (day, night))
    ratios = [n / d for d, n in zip(took[day], took[night])]
    print(f"{path}: {day} {by_day:.2f} s, {night} {by_night:.2f} s, ratio {by_night / by_day:.2f} "
          f"({min(ratios):.2f} to {max(ratios):.2f}); bounds apart {100 * apart[day]:.2f} and "
          f"{100 * apart[night]:.2f} points; load {os.getloadavg()[0]:.1f}", flush=True)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("belvedere")
    parser.add_argument("one", nargs="*", metavar="DESIGN DAY NIGHT")
    parser.add_argument("--runs", type=int, default=5)
    asked = parser.parse_args()
    if len(asked.one) not in (0, 3):
        parser.error("give a design with the names of two of its situations, or nothing")
    examples = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "examples")
    deck = ("car_park_deck/below_beams.json", "busy", "lanes")
    for path, day, night in ([asked.one] if asked.one else
                             [(os.path.join(examples, name), *two) for name, *two in (
                                 ("solar_farm/corners.json", "day", "night"),
                                 ("winter_yard/design.json", "day", "night"), deck)]):
        with open(path, encoding="utf-8") as file:
            design = json.load(file)
        if night == deck[2]:
            design = with_lanes(design)
        measure(asked.belvedere, os.path.relpath(path), design, day, night, asked.runs)


if __name__ == "__main__":
    main()
