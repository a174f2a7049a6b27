# SPDX-License-Identifier: Apache-2.0
"""A small job: eight lamps at two splices, no plan; lengths as paced."""
from builder import JobBuilder

UPLIGHT = "uplight-4.5w"
WASH = "wash-6.5w"


def small_garden(stock):
    build = JobBuilder(
        _with_shop_items(stock),
        id="small-garden",
        title="A small garden",
        created="2026-03-02",
        site={
            "latitude_deg": 41.6,
            "longitude_deg": -93.6,
            "time_zone": "America/Chicago",
            "address": "2 Larkstile Row, Amberdown",
            "mains_v": 120,
            "mains_hz": 60,
            "ruleset": "us",
            "units": "metric",
            "currency": "USD",
        },
        client={"name": "Ines Harrowgate", "wishes": [{"text": "Light on the hedge and on the way to the door."}]},
    )
    build.job["transformers"].append({
        "id": "T1", "name": "Shed wall", "item": "transformer-150va", "mounting_height_m": 0.5, "mounting": "wall",
        "outputs": [{"id": "T1-A", "tap_v": 13}]})
    for id, name in [("S1", "Splice by the hedge"), ("S2", "Splice by the door")]:
        build.job["joints"].append({"id": id, "name": name, "kind": "hub", "connector": "hub-box-10"})
    build.bare_cable("C1", "12awg-2", "T1-A", "S1", 30, depth_m=0.2, ground="lawn")
    build.bare_cable("C2", "12awg-2", "S1", "S2", 15, depth_m=0.2, ground="bed")
    for number in range(1, 5):
        _lamp(build, f"F{number}", f"Hedge uplight {number}", UPLIGHT, "S1", 8)
    for number in range(5, 8):
        _lamp(build, f"F{number}", f"Path light {number - 4}", "path-2w", "S2", 5)
    _lamp(build, "F8", "Door wash", WASH, "S2", 10)
    return build.finished()


def _lamp(build, id, name, item, joint, lead_m):
    build.job["luminaires"].append({"id": id, "name": name, "item": item})
    build.bare_cable(f"{id}-lead", "14awg-2", joint, id, lead_m, depth_m=0.2, ground="bed")


def _with_shop_items(stock):
    """The stock and two lamps of this shop's own: a job may carry any item."""
    def derived(base, **changes):
        return {**next(item for item in stock["luminaires"] if item["id"] == base), **changes}

    own = [
        derived("bullet-4w-36", id=UPLIGHT, title="Uplight, 4.5 W, 36 degrees", power_w=4.5, power_va=6,
                window_min_v=10, v_regulation_min=10),
        derived("wash-5w-90", id=WASH, title="Wall wash, 6.5 W, 90 degrees", power_w=6.5, power_va=9, window_min_v=10,
                v_regulation_min=10),
    ]
    return {**stock, "luminaires": [*stock["luminaires"], *own]}
