# SPDX-License-Identifier: GPL-3.0-or-later
"""Outside: the sun's position at 1,000 random times and places against another astronomy library
(ephem, which computes by its own series), topocentric and without refraction, in the years 2000 to
2050. The two may differ by 0.003 deg, for they foretell the Earth's rotation each in its own way; the
test prints the largest difference (0.0012 deg when it was written)."""
import math
import os
import random
import subprocess
import sys
import unittest

try:
    import ephem
except ImportError:
    ephem = None

PROGRAM = os.path.join(os.path.dirname(os.environ.get("BELVEDERE", "build/dev/belvedere")),
                       "sun_positions")


@unittest.skipIf(ephem is None, "python3-ephem is not installed")
class SunAlmanac(unittest.TestCase):
    def test_a_thousand_times_and_places(self):
        draw = random.Random(20031017)
        cases = [(draw.uniform(2451544.5, 2469807.5), draw.uniform(-89, 89), draw.uniform(-180, 180))
                 for _ in range(1000)]  # 2000 to 2050
        text = "".join("%.9f %.9f %.9f\n" % case for case in cases)
        out = subprocess.run([PROGRAM], input=text, capture_output=True, text=True, check=True).stdout
        worst = 0.0
        for (day, lat, lon), line in zip(cases, out.splitlines(), strict=True):
            azimuth, _, elevation = map(float, line.split())
            place = ephem.Observer()
            place.lat, place.lon, place.elevation, place.pressure = str(lat), str(lon), 0, 0
            place.date = ephem.Date(day - 2415020.0)
            sun = ephem.Sun(place)
            ours, theirs = (direction(azimuth, elevation),
                            direction(math.degrees(sun.az), math.degrees(sun.alt)))
            off = math.degrees(2 * math.asin(min(1.0, math.dist(ours, theirs) / 2)))
            worst = max(worst, off)
            self.assertLess(off, 0.003, f"{day} {lat} {lon}")
        print(f"largest difference {worst:.5f} deg", file=sys.stderr)


def direction(azimuth_deg, elevation_deg):
    a, e = math.radians(azimuth_deg), math.radians(elevation_deg)
    return (math.cos(e) * math.sin(a), math.cos(e) * math.cos(a), math.sin(e))


if __name__ == "__main__":
    unittest.main()
