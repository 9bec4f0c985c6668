# SPDX-License-Identifier: GPL-3.0-or-later
"""What the benchmarks of large sites share: sites of three sizes, a child's time and memory, and how
its processor time grows (1 is linear; of processor time, since others may use the machine)."""
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


def arguments(about, flag, flag_help):
    """The options of the command line, one flag of the benchmark's own among them."""
    parser = argparse.ArgumentParser(description=about,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("belvedere")
    parser.add_argument("--rounds", type=int, default=3)
    parser.add_argument("--threads", type=int, default=0)
    parser.add_argument(flag, action="store_true", help=flag_help)
    return parser.parse_args()


def sites(folder, *generator_flags):
    """(name, housings, path) of each size, written below the folder."""
    made = []
    for name, housings, triangles, zones in SIZES:
        place = os.path.join(folder, str(housings))
        subprocess.run([sys.executable, GENERATOR, place, "--housings", str(housings), "--triangles",
                        str(triangles), "--zones-m2", str(zones), *generator_flags], check=True)
        made.append((name, housings, os.path.join(place, "design.json")))
    return made


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


def medians(rounds, i):
    """Wall, processor and peak of the i-th call."""
    return tuple(statistics.median(r[i][k] for r in rounds) for k in range(3))


def growth(small, large):
    """The exponent between two pairs of housings and processor time."""
    return math.log(large[1] / small[1]) / math.log(large[0] / small[0])
