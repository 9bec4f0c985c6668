# SPDX-License-Identifier: GPL-3.0-or-later
"""Property: a room includes only the rooms in its line of CMakeLists.txt (docs/architecture.md), and
the libraries that stop at one file appear in no other."""
import os
import re
import unittest

ROOT = os.environ.get("BELVEDERE_SOURCE_DIR") or os.path.join(os.path.dirname(__file__), "..", "..")


def sources(room):
    folder = os.path.join(ROOT, "src", room)
    for name in sorted(os.listdir(folder)):
        if name.endswith((".h", ".cpp")):
            with open(os.path.join(folder, name), encoding="utf-8") as file:
                yield name, file.read()


def allowed():
    with open(os.path.join(ROOT, "CMakeLists.txt"), encoding="utf-8") as file:
        lines = re.findall(r"belvedere_room\((\w+)\s+ROOMS([\w\s]*?)\s+LIBS", file.read())
    return {room: set(rooms.split()) for room, rooms in lines}


class Rooms(unittest.TestCase):
    def test_includes_follow_the_link_list(self):
        rooms = allowed()
        self.assertIn("proof", rooms)
        for room, may in rooms.items():
            for name, text in sources(room):
                for included in re.findall(r'#include "(\w+)/', text):
                    self.assertIn(included, may | {room},
                                  f"src/{room}/{name} includes {included}/, which its line lacks")

    def test_qt_stays_in_the_rooms_that_paint(self):
        for room in allowed():
            if room in ("drawing", "desk"):
                continue
            for name, text in sources(room):
                self.assertNotRegex(text, r"#include <Q", f"src/{room}/{name}")

    def test_libraries_stop_at_their_file(self):
        for room in allowed():
            for name, text in sources(room):
                if name != "ray_caster.cpp":
                    self.assertNotIn("<embree3/", text, f"src/{room}/{name}")
                if name != "sun_position.cpp":
                    self.assertNotIn("<libnova/", text, f"src/{room}/{name}")
                if name != "time_zone.cpp":
                    self.assertNotIn("<date/", text, f"src/{room}/{name}")
                if name != "workbook.cpp":
                    self.assertNotIn("<xlsxwriter.h>", text, f"src/{room}/{name}")
                if name != "polygon_boolean.cpp":
                    self.assertNotIn("<geos_c.h>", text, f"src/{room}/{name}")


if __name__ == "__main__":
    unittest.main()
