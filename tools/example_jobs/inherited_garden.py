# SPDX-License-Identifier: Apache-2.0
"""A garden that came without a plan: lamps and transformer where they were seen, no cable. What was walked and clamped
there stands in examples/inherited/walk.json; it was computed from a wiring of which the job knows nothing."""
from builder import JobBuilder

PATH, UPLIGHT, WASH = "path-2w", "bullet-4w-36", "wash-5w-90"
SEEN = [
    ("A1", "Walk, first", PATH, 6, 3.6), ("A2", "Maple", UPLIGHT, 8.5, 2.3), ("A3", "Walk, second", PATH, 11, 3.5),
    ("A4", "Arbour", WASH, 13.5, 2.2), ("A5", "Walk, third", PATH, 16, 3.7), ("A6", "Birch, left", UPLIGHT, 20, 3.8),
    ("A7", "Walk, fourth", PATH, 24, 6), ("A8", "Garden wall", WASH, 28, 8.5), ("B1", "Bed, first", PATH, 7, 0.8),
    ("B2", "Holly", UPLIGHT, 10, 2.2), ("B3", "Bed, second", PATH, 12, 0.9), ("B4", "Birch, right", UPLIGHT, 17, -0.5),
    ("B5", "Gate, left", PATH, 19.5, -5.5), ("B6", "Gate, right", UPLIGHT, 22, -12),
]


def inherited_garden(stock):
    build = JobBuilder(
        stock,
        id="inherited-garden",
        title="A garden without a plan",
        created="2026-05-04",
        site={
            "latitude_deg": 41.6, "longitude_deg": -93.6, "time_zone": "America/Chicago",
            "address": "7 Fennel Row, Amberdown", "mains_v": 120, "mains_hz": 60, "ruleset": "us", "units": "metric",
            "currency": "USD",
        },
        client={"name": "Odo Larkspur", "wishes": [{"text": "Bring the old lights back to order."}]},
    )
    build.job["transformers"].append({
        "id": "T1", "name": "Garage wall", "item": "transformer-150va", "position": [0, 0], "mounting_height_m": 0.5,
        "mounting": "wall", "outputs": [{"id": "T1-A", "tap_v": 13}]})
    for id, name, item, x, y in SEEN:
        build.job["luminaires"].append({"id": id, "name": name, "item": item, "position": [x, y, 0.3]})
    return build.finished()
