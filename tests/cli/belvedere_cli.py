# SPDX-License-Identifier: GPL-3.0-or-later
"""Calls the program under test (environment BELVEDERE: its path) and reads what it prints."""
import json
import os
import subprocess
import sys

BELVEDERE = os.environ.get("BELVEDERE", "")
SOURCE_DIR = os.environ.get("BELVEDERE_SOURCE_DIR",
                            os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", ".."))
EXAMPLES = os.path.join(SOURCE_DIR, "examples")
SHOP = os.path.join(EXAMPLES, "shop", "design.json")
SCHEMAS = os.path.join(SOURCE_DIR, "schema")

if not os.access(BELVEDERE, os.X_OK):
    sys.exit("BELVEDERE must name the program to test")


def call(*arguments, env=None, cwd=None):
    """What a call gives back: returncode, stdout and stderr (text)."""
    return subprocess.run([BELVEDERE, *map(str, arguments)], capture_output=True, text=True,
                          check=False, env={**os.environ, **(env or {})}, cwd=cwd, timeout=600)


def call_json(*arguments):
    """The exit code and the object that a call prints on its standard output."""
    done = call(*arguments)
    return done.returncode, json.loads(done.stdout)


def shop():
    """The shop's design, to be changed by a test."""
    with open(SHOP, encoding="utf-8") as file:
        return json.load(file)


def write(folder, design, name="design.json"):
    path = os.path.join(folder, name)
    with open(path, "w", encoding="utf-8") as file:
        json.dump(design, file)
    return path
