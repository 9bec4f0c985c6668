#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A large site proven: a tenth, a third and the whole of 1,000 housings, 4,000 imagers, a million
triangles and 100,000 m2 of zones, as scripts/make_large_site.py writes them. Prints wall time,
processor time, peak memory, and the exponent of growth between sizes (1 is linear: of processor
time, since others may use the machine).

    bench_large.py BELVEDERE [--rounds N] [--threads N] [--full]

--full adds reasons and worst spots (the program without --no-spots).
"""
import tempfile

from large_sites import arguments, growth, medians, run, sites


def main():
    options = arguments(__doc__, "--full", "reasons and worst spots too")
    flags = ["--quiet", "--threads", str(options.threads)]
    flags += [] if options.full else ["--no-spots"]
    with tempfile.TemporaryDirectory() as folder:
        large = sites(folder)
        rounds = [[run([options.belvedere, "prove", design, *flags]) for _, _, design in large]
                  for _ in range(options.rounds)]
    results = []
    for i, (name, housings, _) in enumerate(large):
        wall, processor, peak = medians(rounds, i)
        results.append((housings, processor))
        print(f"{name:10} wall {wall:6.1f} s   processor {processor:6.1f} s   peak {peak:6.0f} MiB"
              f"   ({rounds[0][i][3]})")
    for small, larger in [*zip(results, results[1:]), (results[0], results[-1])]:
        print(f"growth of processor time from {small[0]} to {larger[0]} housings: exponent "
              f"{growth(small, larger):.2f}")


if __name__ == "__main__":
    main()
