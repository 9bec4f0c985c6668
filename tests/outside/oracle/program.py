# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the program under test (environment BELVEDERE: its path) on designs."""
import json
import os
import subprocess
import sys

BELVEDERE = os.environ.get("BELVEDERE", "")


def need_program():
    if not BELVEDERE or not os.access(BELVEDERE, os.X_OK):
        sys.exit("BELVEDERE must name the program to test")


def run_json(*arguments, may_exit=(0, 1)):
    """The JSON object that a call prints, or an AssertionError with what it said."""
    done = subprocess.run([BELVEDERE, *map(str, arguments)], capture_output=True, text=True,
                          check=False)
    if done.returncode not in may_exit:
        raise AssertionError(f"belvedere {' '.join(map(str, arguments))} exits "
                             f"{done.returncode}:\n{done.stdout[-2000:]}{done.stderr[-2000:]}")
    return json.loads(done.stdout)


def keep(design, name):
    """Saves a counter-example beside the build, and tells where."""
    folder = os.path.join(os.path.dirname(os.path.abspath(BELVEDERE)), "counter_examples")
    os.makedirs(folder, exist_ok=True)
    path = os.path.join(folder, name + ".json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump(design, file, indent=1)
    return path
