#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A large site proven: a tenth, a third and the whole of 1,000 housings, 4,000 imagers, a million
triangles and 100,000 m2 of zones, as scripts/make_large_site.py writes them. Prints wall time,
processor time, peak memory, and the exponent of growth between sizes (1 is linear: of processor
time, since others may use the machine).

    bench_large.py BELVEDERE [--rounds N] [--threads N] [--full]

--full adds reasons and worst spots (the program without --no-spots).
"""
import argparse
import math
import os
import statistics
import subprocess
import sys
import tempfile
import time

GENERATOR = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "scripts",
                         "make_large_site.py")
SIZES = (("a tenth", 100, 100_000, 10_000), ("a third", 333, 333_333, 33_000),
         ("the whole", 1000, 1_000_000, 100_000))  # housings, triangles, zones m2


def run(command):
    """(wall s, processor s, peak MiB, last line of output) of a child."""
    start = time.monotonic()
    with tempfile.TemporaryFile() as out:
        child = subprocess.Popen(command, stdout=out)
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        out.seek(0)
        last = out.read().decode().strip().rsplit("\n", 1)[-1]
    if child.returncode not in (0, 1):
        sys.exit(f"{command[0]} ended with {child.returncode}")
    return (time.monotonic() - start, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, last)


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("belvedere")
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--threads", type=int, default=0)
    parser.add_argument("--full", action="store_true")
    options = parser.parse_args()
    flags = ["--quiet", "--threads", str(options.threads)]
    flags += [] if options.full else ["--no-spots"]
    results = []
    with tempfile.TemporaryDirectory() as folder:
        sites = []
        for name, housings, triangles, zones in SIZES:
            place = os.path.join(folder, str(housings))
            subprocess.run([sys.executable, GENERATOR, place, "--housings", str(housings),
                            "--triangles", str(triangles), "--zones-m2", str(zones)], check=True)
            sites.append((name, housings, os.path.join(place, "design.json")))
        rounds = [[run([options.belvedere, "prove", design, *flags]) for _, _, design in sites]
                  for _ in range(options.rounds)]
    for i, (name, housings, _) in enumerate(sites):
        wall, processor, peak = (statistics.median(r[i][k] for r in rounds) for k in range(3))
        results.append((housings, processor))
        print(f"{name:10} wall {wall:6.1f} s   processor {processor:6.1f} s   peak {peak:6.0f} MiB"
              f"   ({rounds[0][i][3]})")
    for (n, a), (m, b) in zip(results, results[1:] + results[:1]):
        if m < n:
            n, a, m, b = m, b, n, a
        print(f"growth of processor time from {n} to {m} housings: exponent "
              f"{math.log(b / a) / math.log(m / n):.2f}")


if __name__ == "__main__":
    main()
