# SPDX-License-Identifier: Apache-2.0
"""Where the demo garden's lamps look, how high the step lights sit, and the shields that keep the neighbour's bedroom dark."""
import math

WASH_TILT_DEG = 52  # from 0.9 m before a wall of 6.2 m: the beam's upper edge meets its top

# id -> the place that the lamp is aimed at
TARGETS = {
    "B3": (6, 8, 8.1), "B4": (6, 8, 8.1),                # oak
    "ES2": (32.6, 33.4, 5.5), "ES3": (32.6, 33.4, 5.5),  # birch clump
    "EN2": (31.5, 41, 5), "EN3": (31.5, 41, 5),          # maple
    "EN5": (34.2, 40.4, 0.9),                            # ferns
    "F2": (11.4, 43.4, 2.9), "F3": (11.4, 43.4, 2.9),    # crab apple
    "F4": (4.8, 44.8, 1),                                # stone lantern
    "F6": (2.6, 35, 3.25), "F7": (2.6, 35, 3.25),        # hawthorn
}
# id -> azimuth, tilt; upright lamps have a side only
AIMS = {
    **{id: (0, WASH_TILT_DEG) for id in ("A1", "A2", "B1", "B2")},
    **{id: (90, 0) for id in ("A8", "A9", "A10")},  # across the steps
    "B5": (0, -90),                                  # moonlight
    **{id: (270, 0) for id in ("C1", "C2", "C3")},   # onto the drive
    **{id: (180, 0) for id in ("D3", "D4", "D5", "D6")},
}
HEIGHTS_M = {"A8": 0.35, "A9": 0.5, "A10": 0.65, "D3": 0.42, "D4": 0.42, "D5": 0.42, "D6": 0.42}
# What the bedroom next door would see past: each a good part wider than the beam, so that the picture stays.
SHIELDS_DEG = {"B1": 60, "B3": 60, "B4": 50, "B5": 60, "EN3": 50, "F2": 60, "F3": 60, "F4": 35, "F6": 45, "F7": 60}


def aim(job, shielded):
    for lamp in job["luminaires"]:
        id = lamp["id"]
        if id in HEIGHTS_M:
            lamp["position"] = [*lamp["position"][:2], HEIGHTS_M[id]]
        if id in TARGETS:
            lamp["azimuth_deg"], lamp["tilt_deg"] = _aim_at(lamp["position"], TARGETS[id])
        if id in AIMS:
            lamp["azimuth_deg"], lamp["tilt_deg"] = AIMS[id]
        if shielded and id in SHIELDS_DEG:
            lamp["shield_cut_off_deg"] = SHIELDS_DEG[id]


def _aim_at(lamp, target):
    east, north, up = (t - p for t, p in zip(target, lamp))
    azimuth_deg = math.degrees(math.atan2(east, north)) % 360
    return round(azimuth_deg, 1), round(math.degrees(math.atan2(up, math.hypot(east, north))), 1)
