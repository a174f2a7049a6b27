# SPDX-License-Identifier: Apache-2.0
"""The demo's photograph as a view: what a person would mark on it, put where the known camera says that it is.

The picture and the outlines of what grows come from tools/demo_photograph (tools/make_demo_photograph writes both).
"""
import hashlib
import json
import math
import pathlib

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PICTURE = ROOT / "examples" / "ostrey-front.jpg"
MARKS = pathlib.Path(__file__).resolve().parent / "front_marks.json"

WIDTH, HEIGHT, FOCAL = 1600, 1067, 1000
PLACE = (16.9, -3.0, 1.6)
YAW, PITCH = math.radians(-13.5), math.radians(6.5)
AHEAD = (math.sin(YAW) * math.cos(PITCH), math.cos(YAW) * math.cos(PITCH), math.sin(PITCH))
RIGHT = (math.cos(YAW), -math.sin(YAW), 0.0)
DOWN = (AHEAD[1] * RIGHT[2] - AHEAD[2] * RIGHT[1], AHEAD[2] * RIGHT[0] - AHEAD[0] * RIGHT[2],
        AHEAD[0] * RIGHT[1] - AHEAD[1] * RIGHT[0])
NEAREST_M = 0.5
HORIZON = 560  # about: nothing of the sky lies below
CROWN_ENDS, TRUNK_BEGINS = 400, 520  # between, a person's outline runs in from the crown to the trunk

# Where the plants stand of which the tool gives outlines.
FEET = {"oak": (6, 8), "shrub-1": (9.9, 14.9), "shrub-2": (11.3, 14.5), "shrub-3": (12.6, 15.0),
        "shrub-4": (13.8, 14.6), "shrub-5": (19.95, 14.7), "shrub-6": (21.1, 15.0), "shrub-7": (22.4, 14.5),
        "shrub-8": (23.7, 14.9), "shrub-9": (24.8, 14.6)}
LOWER_WINDOWS = (11.0, 13.25, 20.75, 23.0)
UPPER_WINDOWS = (11.0, 13.25, 16.9, 20.75, 23.0)
LIT_WINDOWS = {("lower", 11.0), ("lower", 13.25), ("upper", 20.75)}


def add(build):
    marks = json.loads(MARKS.read_text(encoding="utf-8"))
    build.job["views"] = [{
        "id": "front",
        "name": "From the street",
        "image": hashlib.sha256(PICTURE.read_bytes()).hexdigest(),
        "width_px": WIDTH,
        "height_px": HEIGHT,
        "taken": "2026-03-20",
        "view_point": "eye-street",
        "calibration": _calibration(),
        "surfaces": _surfaces(),
        "trees": [_tree(name, marks["outlines"][name]) for name in FEET],
        "masks": _masks(marks["skyline"]),
        "measures": [{"id": "door-height", "name": "Front door, height", "surface": "front",
                      "from_px": _mark((16.42, 16, 0.5)), "to_px": _mark((16.42, 16, 2.6))}],
        "night": {"camera_share": 0.6, "exposure_stops": 0, "ambient_lx": 0.1, "white_k": 3200},
        "notes": "Rendered from a modelled house: nobody's garden.",
    }]


def _calibration():
    known = [(16.2, 13, 0), (17.6, 13, 0), (17.6, 2, 0), (25, 18, 3.2)]
    return {
        "method": "vanishing_points",
        "focal_px": FOCAL,
        "wall": {
            "corners_px": [_mark(p) for p in [(9, 16, 0.5), (25, 16, 0.5), (25, 16, 6), (9, 16, 6)]],
            "left": [9, 16, 0.5],
            "right": [25, 16, 0.5],
            "height_m": 5.5,
        },
        "references": [{"pixel_px": _mark(p), "site": list(p)} for p in known],
    }


def _surfaces():
    lawn = [(-3, 0), (-3, 40), (8.9, 40), (8.9, 13.1), (26, 13.1), (26, 0)]
    up, south = [0, 0, 1], [0, -1, 0]
    slope = _unit((0, -3.5, 6.05))
    pieces = [
        ("lawn", "Lawn", "ground", lawn, [0, 0, 0], up, 0.14),
        ("bed-west", "Bed, west", "ground", [(9, 13.2), (14.5, 13.2), (14.5, 16), (9, 16)], [0, 0, 0], up, 0.08),
        ("bed-east", "Bed, east", "ground", [(19.3, 13.2), (25.8, 13.2), (25.8, 16), (19.3, 16)], [0, 0, 0], up, 0.08),
        ("walk", "Front walk", "ground", [(16.2, 0), (17.6, 0), (17.6, 13), (16.2, 13)], [0, 0, 0], up, 0.25),
        ("garage", "Garage", "wall", [(25.1, 18, 0), (33, 18, 0), (33, 18, 3.15), (25.1, 18, 3.15)], [25, 18, 0],
         south, 0.5),
        ("roof", "Roof", "roof", [(8.6, 15.45, 6.2), (25.4, 15.45, 6.2), (25.4, 21.5, 9.7), (8.6, 21.5, 9.7)],
         [9, 15.45, 6.2], slope, 0.1),
        ("front", "House front", "wall", [(9, 16, 0), (25, 16, 0), (25, 16, 6.05), (9, 16, 6.05)], [9, 16, 0], south,
         0.5),
        ("porch", "Porch front", "wall", [(14.5, 14.2, 0), (19.3, 14.2, 0), (19.3, 14.2, 0.5), (14.5, 14.2, 0.5)],
         [14.5, 14.2, 0], south, 0.25),
        ("steps", "Front steps", "steps", [(16, 13, 0), (17.8, 13, 0), (17.8, 14.2, 0.5), (16, 14.2, 0.5)],
         [16, 13, 0], _unit((0, -0.5, 1.2)), 0.35),
    ]
    return [{"id": id, "name": name, "kind": kind, "outline_px": _outline(corners), "on_plane": on, "normal": way,
             "reflectance": reflectance}
            for id, name, kind, corners, on, way, reflectance in pieces]


def _tree(name, outline):
    x, y = FEET[name]
    if name == "oak":
        outline = [_towards_trunk(px, py) for px, py in outline]
    tree = {"id": f"picture-{name}", "outline_px": outline, "foot": [x, y, 0]}
    return {**tree, "tree": "tree-oak", "reflectance": 0.14} if name == "oak" else tree


def _towards_trunk(x, y):
    share = min(1, max(0, (y - CROWN_ENDS) / (TRUNK_BEGINS - CROWN_ENDS)))
    return [round(x + share * (min(250, max(120, x)) - x)), y]


def _masks(skyline):
    # Where the oak's trunk hides what ends the sky, its neighbours tell.
    ends = [[x, y if y < HORIZON else min(y for _, y in skyline[max(0, i - 3):i + 4])]
            for i, (x, y) in enumerate(skyline)]
    sky = [[0, 0], [WIDTH, 0], *reversed(ends)]
    masks = [{"id": "sky", "kind": "sky", "outline_px": sky}]
    for floor, xs, from_z, to_z in [("lower", LOWER_WINDOWS, 1.35, 3.0), ("upper", UPPER_WINDOWS, 4.15, 5.6)]:
        for number, x in enumerate(xs, 1):
            corners = [(x - 0.5, 16, from_z), (x + 0.5, 16, from_z), (x + 0.5, 16, to_z), (x - 0.5, 16, to_z)]
            mask = {"id": f"window-{floor}-{number}", "kind": "window", "outline_px": _outline(corners)}
            if (floor, x) in LIT_WINDOWS:
                mask["luminance_cd_m2"] = 4 if floor == "lower" else 2.5
                mask["colour_temperature_k"] = 2600
            masks.append(mask)
    return masks


# The camera ---------------------------------------------------------------------------------------------------

def _dot(p, q):
    return sum(a * b for a, b in zip(p, q))


def _unit(way):
    size = math.sqrt(_dot(way, way))
    return [round(part / size, 9) for part in way]


def _seen(point):
    point = (*point, 0) if len(point) == 2 else point
    away = tuple(a - b for a, b in zip(point, PLACE))
    return _dot(RIGHT, away), _dot(DOWN, away), _dot(AHEAD, away)


def _pixel(seen):
    return WIDTH / 2 + FOCAL * seen[0] / seen[2], HEIGHT / 2 + FOCAL * seen[1] / seen[2]


def _mark(point):
    """As a careful person clicks: on whole picture elements."""
    return [round(part) for part in _pixel(_seen(point))]


def _cut(points, depth):
    """What of an outline lies where depth(point) >= 0."""
    out = []
    for p, q in zip(points, points[1:] + points[:1]):
        a, b = depth(p), depth(q)
        if a >= 0:
            out.append(p)
        if (a >= 0) != (b >= 0):
            out.append(tuple(u + a / (a - b) * (v - u) for u, v in zip(p, q)))
    return out


def _outline(corners):
    seen = _cut([_seen(corner) for corner in corners], lambda p: p[2] - NEAREST_M)
    points = [_pixel(p) for p in seen]
    for depth in (lambda p: p[0], lambda p: WIDTH - p[0], lambda p: p[1], lambda p: HEIGHT - p[1]):
        points = _cut(points, depth)
    return [[round(x), round(y)] for x, y in points]
