#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes large designs for measuring: buildings of storeys of 40 rooms, seeded, the same bytes each
time. Rooms are 5 x 5 x 3.2 m, 8 by 5 to a storey, with a door in every inner wall and furniture.

    make_large_site.py OUT                   1,000 housings of 4 imagers, 1,000,000 triangles,
                                             100,000 m2 of zones: 20 buildings of 5 storeys
    make_large_site.py OUT --housings 100 --triangles 100000 --zones-m2 10000
    make_large_site.py OUT --building ordinary     one storey, about 1,300 solids
    make_large_site.py OUT --building cluttered    one storey, 40,000 small solids
    make_large_site.py OUT --building meshes       5 storeys, 200 rooms, 500,000 triangles

Furniture in meshes is boxes, which the program keeps as convex bodies, or with --pieces ells
L-shaped blocks, which stay triangles.

--open-air hangs the housings in a yard about the buildings, on a place on Earth, each with a zone of faces before
it in place of the rooms' requirements: for the sun.

--services adds what carries, powers and keeps: three switches to a building, a recorder in each, three
streams to an imager, one of them recorded, cables along the walls and down a riser, and a viewer.

OUT becomes a folder with design.json and, where furniture is meshes, OBJ files beside it (metres,
z up, named by SHA-256 in the design). What was written is told on stdout.
"""
import argparse
import hashlib
import json
import math
import os
import random

ROOM_M, HEIGHT_M, COLUMNS, ROWS = 5.0, 3.2, 8, 5
ROOMS, STOREYS = COLUMNS * ROWS, 5
STOREY_M = 3.6                       # floor to floor
STOREY_M2 = ROOMS * ROOM_M * ROOM_M
APART_M = 60                         # of buildings
MESHES = 12                          # different rooms of furniture, used again and again
TRIANGLES_OF_WALLS = 45              # a room's share of walls and slab


def flat(value):
    if isinstance(value, float) and value == int(value):
        return str(int(value))
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(k)}: {flat(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flat, value)) + "]"
    return json.dumps(value)


def lines(value, indent=0, used=0):
    """JSON text; what fits into 100 columns stays on its line."""
    if not isinstance(value, (dict, list)) or not value:
        return flat(value)
    if indent and len(value) < 50 and used + len(text := flat(value)) < 100:
        return text
    pad = " " * (indent + 2)
    if isinstance(value, dict):
        parts = [pad + (head := f"{json.dumps(k)}: ") + lines(v, indent + 2, len(pad + head))
                 for k, v in value.items()]
        return "{\n" + ",\n".join(parts) + "\n" + " " * indent + "}"
    parts = [pad + lines(v, indent + 2, len(pad)) for v in value]
    return "[\n" + ",\n".join(parts) + "\n" + " " * indent + "]"


def rectangle(x0, y0, x1, y1):
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return [[round(x, 3), round(y, 3)] for x, y in corners]


def storey(number, building):
    """Outer walls inside the outline, inner walls on the grid's lines with a door per room."""
    w, d = COLUMNS * ROOM_M, ROWS * ROOM_M
    key = f"{building}s{number}"
    walls = [{"id": f"{key}_outer", "thickness_m": 0.2,
              "path": [[0.1, 0.1], [w - 0.1, 0.1], [w - 0.1, d - 0.1], [0.1, d - 0.1], [0.1, 0.1]]}]
    across = [("x", i, [[i * ROOM_M, 0.1], [i * ROOM_M, d - 0.1]], ROWS) for i in range(1, COLUMNS)]
    along = [("y", i, [[0.1, i * ROOM_M], [w - 0.1, i * ROOM_M]], COLUMNS) for i in range(1, ROWS)]
    for axis, i, path, doors in across + along:
        openings = [{"id": f"{key}_{axis}{i}_{n}", "from_m": round(ROOM_M * n + 1.9, 3),
                     "width_m": 1.0, "head_m": 2.1} for n in range(doors)]
        walls.append({"id": f"{key}_{axis}{i}", "path": path, "thickness_m": 0.1,
                      "openings": openings})
    return {"id": key, "floor_m": round((number - 1) * STOREY_M, 3),
            "slab_m": round(STOREY_M - HEIGHT_M, 3) if number > 1 else 0.3, "height_m": HEIGHT_M,
            "outline": rectangle(0, 0, w, d), "walls": walls}


def furniture_box(rng, sizes, heights):
    """(x0, y0, x1, y1, base, top) within a room, off its walls; coordinates of the room."""
    w, d = rng.uniform(*sizes), rng.uniform(*sizes)
    x, y = rng.uniform(0.2, ROOM_M - 0.2 - w), rng.uniform(0.2, ROOM_M - 0.2 - d)
    tall = rng.uniform(*heights)
    base = rng.choice([0, 0, rng.uniform(0.4, 1.8)])
    return tuple(round(v, 3) for v in (x, y, x + w, y + d, base, min(base + tall, 2.9)))


def box_mesh(boxes):
    """OBJ text of boxes, twelve triangles each."""
    faces = ((1, 3, 2), (1, 4, 3), (5, 6, 7), (5, 7, 8), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6),
             (3, 4, 8), (3, 8, 7), (4, 1, 5), (4, 5, 8))
    text = []
    for n, (x0, y0, x1, y1, z0, z1) in enumerate(boxes):
        for z in (z0, z1):
            text += [f"v {x} {y} {z}" for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]
        text += ["f " + " ".join(str(8 * n + i) for i in face) for face in faces]
    return "\n".join(text) + "\n"


def ell_mesh(boxes):
    """OBJ text of L-shaped blocks in the boxes' place, twenty triangles each: not convex."""
    plan = ((0, 0), (1, 0), (1, 0.4), (0.4, 0.4), (0.4, 1), (0, 1))
    flat_faces = ((0, 1, 2), (0, 2, 3), (0, 3, 5), (3, 4, 5))
    text = []
    for n, (x0, y0, x1, y1, z0, z1) in enumerate(boxes):
        first = 12 * n + 1
        for z in (z0, z1):
            text += [f"v {x0 + u * (x1 - x0):.4f} {y0 + v * (y1 - y0):.4f} {z}" for u, v in plan]
        for a, b, c in flat_faces:
            text += [f"f {first + a} {first + c} {first + b}",
                     f"f {first + 6 + a} {first + 6 + b} {first + 6 + c}"]
        for a in range(6):
            b = (a + 1) % 6
            text += [f"f {first + a} {first + b} {first + 6 + b}",
                     f"f {first + a} {first + 6 + b} {first + 6 + a}"]
    return "\n".join(text) + "\n"


PIECES = {"boxes": (12, box_mesh), "ells": (20, ell_mesh)}  # triangles a piece, writer


def housing(name, storey_id, corner, floor, imagers):
    """A head near a room's middle under the ceiling, its imagers evenly around."""
    x, y = corner
    return {"id": name, "model": "head", "storey": storey_id,
            "mount": {"fixing_m": [round(x + 2.4, 3), round(y + 2.6, 3), round(floor + 3.0, 3)]},
            "imagers": [{"slot": s, "aims": [{"pan_deg": round(360 * (s - 1) / imagers + 10, 3),
                                              "tilt_deg": 35, "hfov_deg": 95}]}
                        for s in range(1, imagers + 1)]}


CATALOGUE = [
    {"id": "sw24", "kind": "switch", "price": 900, "power": {"idle_w": 30},
     "capacity": {"ports": 24, "uplinks": 4, "poe_class": 4, "port_mbps": 1000,
                  "uplink_mbps": 10000, "poe_budget_w": 370}},
    {"id": "rec", "kind": "recorder", "price": 4000, "power": {"idle_w": 90},
     "capacity": {"channels": 400, "bays": 24, "uplink_mbps": 10000, "write_mb_per_s": 400}},
    {"id": "disk", "kind": "disk", "price": 300,
     "capacity": {"size_tb": 16, "write_mb_per_s": 200, "workload_tb_per_year": 550}},
    {"id": "view", "kind": "viewer", "price": 1500, "capacity": {"uplink_mbps": 1000}},
    {"id": "cat6", "kind": "cable", "price": 1,
     "capacity": {"media": "twisted_pair", "port_mbps": 1000, "ohm_per_km": 66.8}},
    {"id": "fibre", "kind": "cable", "price": 2, "capacity": {"media": "fibre", "longest_m": 2000}}]


def streams(name, imagers):
    """Of each imager: one recorded, one viewed, one for phones."""
    out = []
    for s in range(1, imagers + 1):
        for use, size, rate in (("recorded", [2592, 1944], 6), ("viewed", [1280, 960], 2),
                                ("phone", [640, 480], 0.5)):
            out.append({"id": f"{name}_{s}_{use}", "from": [s], "size_px": size,
                        "frames_per_s": 12, "codec": "H.265",
                        "rate": {"kind": "capped", "mbps": rate}, "use": [use]})
    return out


def add_services(site, housings, imagers):
    """Switches on the lowest, middle and topmost storey of each building, the nearest for each head."""
    devices, links, recording, screens = [], [], [], []
    site["containment"] = []
    level_of = {}
    for building in site["buildings"]:
        key, (x, y) = building["id"], building["origin_m"]
        storeys = building["storeys"]
        top = storeys[-1]["floor_m"] + HEIGHT_M
        site["containment"].append({"id": f"{key}_riser", "title": "Riser",
                                    "path": [[x + 0.15, y + 0.15, 1], [x + 0.15, y + 0.15, top]]})
        levels = sorted({0, (len(storeys) - 1) // 2, len(storeys) - 1})
        for i, one in enumerate(storeys):
            level_of[one["id"]] = (key, min(levels, key=lambda level, i=i: abs(level - i)))
        for n, level in enumerate(levels):
            floor = storeys[level]["floor_m"]
            devices.append({"id": f"{key}_S{level}", "model": "sw24",
                            "at_m": [x + 0.4, y + 0.4, round(floor + 1.5, 3)]})
            if n:
                links.append({"id": f"{key}_up{level}", "from": f"{key}_S{level}",
                              "to": f"{key}_S{levels[n - 1]}", "cable": "fibre"})
        devices.append({"id": f"{key}_R", "model": "rec", "at_m": [x + 0.9, y + 0.4, 1.5],
                        "disks": {"model": "disk", "count": 20, "raid": "6"}})
        links.append({"id": f"{key}_rec", "from": f"{key}_R", "to": f"{key}_S0", "cable": "fibre"})
        if building is not site["buildings"][0]:
            links.append({"id": f"{key}_core", "from": f"{key}_S0",
                          "to": f"{site['buildings'][0]['id']}_S0", "cable": "fibre"})
    first = site["buildings"][0]
    x, y = first["origin_m"]
    devices.append({"id": "V", "model": "view", "at_m": [x + 1.4, y + 0.4, 1.5]})
    links.append({"id": "to_view", "from": "V", "to": f"{first['id']}_S0", "cable": "cat6"})
    for n, one in enumerate(housings):
        key, level = level_of[one["storey"]]
        one["streams"] = streams(one["id"], imagers)
        links.append({"id": f"k{n + 1}", "from": one["id"], "to": f"{key}_S{level}", "cable": "cat6",
                      "slack_m": 2})
        for s in range(1, imagers + 1):
            recording.append({"id": f"keep_{one['id']}_{s}", "stream": f"{one['id']}_{s}_recorded",
                              "device": f"{key}_R", "days": 31})
        if n % 20 == 0:
            screens.append({"id": f"show_{one['id']}", "stream": f"{one['id']}_1_viewed",
                            "device": "V", "tile_px": [640, 480]})
    return {"devices": devices, "links": links, "recording": recording, "screens": screens}


def add_open_air(design, seed):
    """A place on Earth and a yard about the buildings: all housings hang there, each imager looking out from its own
    bearing with a zone of faces 12 m ahead of the first, so that the sun's year is asked of every one of them."""
    rng, wide, ahead_m = random.Random(seed), 40, 12
    site = design["site"]
    site["place"] = {"lat_deg": 50, "lon_deg": 8, "time_zone": "Europe/Berlin"}
    blocks = [tuple(b["origin_m"]) for b in site["buildings"]]
    w, d = COLUMNS * ROOM_M, ROWS * ROOM_M
    low = [min(b[i] for b in blocks) - wide for i in (0, 1)]
    high = [max(b[i] for b in blocks) + size + wide for i, size in ((0, w), (1, d))]
    site["buildings"].append({"id": "yard", "storeys": [
        {"id": "open", "floor_m": -0.5, "slab_m": 0.2, "height_m": 30, "outline": rectangle(*low, *high)}]})
    design["brief"] = []
    for n, one in enumerate(design["housings"], 1):
        while True:
            x, y = (round(rng.uniform(low[i] + 5, high[i] - 5), 3) for i in (0, 1))
            if not any(bx - 2 < x < bx + w + 2 and by - 2 < y < by + d + 2 for bx, by in blocks):
                break
        one.update(storey="open", mount={"fixing_m": [x, y, 5]})
        first = rng.uniform(0, 360)
        for k, imager in enumerate(one["imagers"]):
            pan = round((first + 360 * k / len(one["imagers"])) % 360, 3)
            imager["aims"] = [{"pan_deg": pan, "tilt_deg": 10, "hfov_deg": 60}]
        pan = one["imagers"][0]["aims"][0]["pan_deg"]
        px, py = (at + ahead_m * turn(math.radians(pan)) for at, turn in ((x, math.sin), (y, math.cos)))
        site["zones"].append({"id": f"q{n}", "storey": "open", "use": "outside",
                              "outline": rectangle(px - 1, py - 1, px + 1, py + 1)})
        design["brief"].append({"id": f"Q{n}", "zone": f"q{n}", "target": {"kind": "face"}, "task": "observe",
                                "share": 0.9, "situations": ["day"],
                                "facings": [{"bearing_deg": round((pan + 180) % 360, 3)}]})


def make(options):
    rng = random.Random(options.seed)
    storeys = max(1, round(options.zones_m2 / STOREY_M2))
    rooms = storeys * ROOMS
    site = {"buildings": [], "solids": [], "zones": []}
    brief, places = [], []
    mesh_solids = []
    for n in range(storeys):
        block, level = divmod(n, STOREYS)
        origin = ((block % 5) * APART_M, (block // 5) * APART_M)
        if level == 0:
            site["buildings"].append({"id": f"b{block + 1}", "origin_m": list(origin),
                                      "storeys": []})
        building = site["buildings"][-1]
        one = storey(level + 1, building["id"])
        building["storeys"].append(one)
        x0, y0 = origin
        site["zones"].append({"id": f"z{n + 1}", "storey": one["id"], "outline": rectangle(
            x0 + 0.2, y0 + 0.2, x0 + COLUMNS * ROOM_M - 0.2, y0 + ROWS * ROOM_M - 0.2)})
        brief.append({"id": f"R{n + 1}", "zone": f"z{n + 1}", "target": {"kind": options.target},
                      "task": options.task, "share": options.share, "situations": ["day"]})
        for r in range(ROOMS):
            corner = (x0 + (r % COLUMNS) * ROOM_M, y0 + (r // COLUMNS) * ROOM_M)
            places.append((one["id"], corner, one["floor_m"]))
    site["buildings"][-1]["storeys"][-1]["roof_m"] = 0.3

    solids = 0
    if options.boxes:
        for n, (storey_id, (x, y), _) in enumerate(places):
            for k in range(options.boxes):
                a, b, c, d, base, top = furniture_box(rng, options.sizes, options.heights)
                site["solids"].append({"id": f"f{n}_{k}", "storey": storey_id, "kind": "furniture",
                                       "outline": rectangle(x + a, y + b, x + c, y + d),
                                       "base_m": base, "top_m": top})
                solids += 1
    pieces_in_mesh = 0
    triangles_a_piece, mesh_text = PIECES[options.pieces]
    if options.triangles:
        of_furniture = options.triangles / rooms - TRIANGLES_OF_WALLS
        pieces_in_mesh = max(1, round(of_furniture / triangles_a_piece))
        files = []
        for m in range(min(MESHES, rooms)):
            sizes = (0.1, 1.2) if pieces_in_mesh < 60 else (0.03, 0.4)
            text = mesh_text([furniture_box(rng, sizes, (0.1, 1.2)) for _ in range(pieces_in_mesh)])
            path = f"furniture_{m + 1}.obj"
            with open(os.path.join(options.out, path), "w", encoding="ascii") as file:
                file.write(text)
            files.append({"path": path, "sha256": hashlib.sha256(text.encode()).hexdigest()})
        for n, (storey_id, (x, y), _) in enumerate(places):
            mesh_solids.append({"id": f"m{n}", "storey": storey_id, "kind": "mesh",
                                "file": files[n % len(files)], "place_m": [x, y, 0]})
        site["solids"] += mesh_solids
    housings = []
    for n in range(options.housings):
        storey_id, corner, floor = places[n * rooms // options.housings]
        housings.append(housing(f"C{n + 1}", storey_id, corner, floor, options.imagers))
    limits = {"pan_deg": [-180, 180], "tilt_deg": [0, 90], "roll_deg": [-180, 180]}
    model = {"id": "head", "title": "Ring of imagers, 95 to 31 degrees", "maker": "Quillmere",
             "kind": "housing",
             "imagers": [dict({"slot": s, "pixels": [2592, 1944], "lens": {
                 "family": "rectilinear", "hfov_deg": [95, 31], "f_number": [1.6]}}, **limits)
                 for s in range(1, options.imagers + 1)]}
    design = {"format": "belvedere.design", "version": 1,
              "title": f"Generated site, seed {options.seed}", "task_table": {"edition": "2014"},
              "site": site, "situations": [{"id": "day", "title": "Day"}], "brief": brief,
              "catalogue": {"models": [model]}, "housings": housings}
    if options.services:
        model["price"] = 1600
        model["power"] = {"idle_w": 12, "feeds": [{"kind": "poe", "poe_class": 4}]}
        design["catalogue"]["models"] += CATALOGUE
        design["services"] = add_services(site, housings, options.imagers)
        for requirement in brief:
            requirement["keep_days"] = 31
    if options.open_air:
        add_open_air(design, options.seed)
    with open(os.path.join(options.out, "design.json"), "w", encoding="ascii") as file:
        file.write(lines(design) + "\n")
    triangles = pieces_in_mesh * triangles_a_piece * len(mesh_solids) + TRIANGLES_OF_WALLS * rooms
    print(f"{options.out}/design.json: {storeys} storeys, {rooms} rooms, {solids} solids, "
          f"{triangles} triangles of meshes and walls, {len(housings)} housings, "
          f"{len(housings) * options.imagers} imagers, {len(brief)} requirements on "
          f"{storeys * STOREY_M2:.0f} m2")


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("out")
    parser.add_argument("--building", choices=["ordinary", "cluttered", "meshes"])
    parser.add_argument("--housings", type=int)
    parser.add_argument("--imagers", type=int, default=4)
    parser.add_argument("--triangles", type=int)
    parser.add_argument("--pieces", choices=sorted(PIECES), default="boxes")
    parser.add_argument("--zones-m2", type=float)
    parser.add_argument("--target", default="face")
    parser.add_argument("--task", default="recognise")
    parser.add_argument("--share", type=float, default=0.9)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--services", action="store_true")
    parser.add_argument("--open-air", action="store_true")
    options = parser.parse_args()
    defaults = {  # zones_m2, housings, boxes a room, their sizes and heights, triangles
        None: (100000, 1000, 0, None, None, 1000000),
        "ordinary": (STOREY_M2, ROOMS, 29, (0.3, 1.2), (0.4, 2.0), 0),
        "cluttered": (STOREY_M2, ROOMS, 1000, (0.03, 0.15), (0.05, 0.3), 0),
        "meshes": (STOREYS * STOREY_M2, STOREYS * ROOMS, 0, None, None, 500000),
    }[options.building]
    zones_m2, housings, options.boxes, options.sizes, options.heights, triangles = defaults
    options.zones_m2 = zones_m2 if options.zones_m2 is None else options.zones_m2
    options.housings = housings if options.housings is None else options.housings
    options.triangles = triangles if options.triangles is None else options.triangles
    os.makedirs(options.out, exist_ok=True)
    make(options)


if __name__ == "__main__":
    main()
