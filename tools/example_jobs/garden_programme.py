# SPDX-License-Identifier: Apache-2.0
"""When the demo garden's lights are on: evenings by the sun, the walk again before dawn, less light late, a longer feast."""

WALK = ["front walk", "drive"]
GARDEN = ["patio", "birch bed", "pond"]


def add(build):
    build.job["programme"] = [
        {"id": "evening", "name": "Every evening", "on": {"at": "sunset", "offset_min": 15},
         "off": {"at": "clock", "time": "23:00"}},
        {"id": "late", "name": "Walk, dimmed till midnight", "zones": WALK, "on": {"at": "clock", "time": "23:00"},
         "off": {"at": "clock", "time": "00:30"}, "dim_pct": 40},
        {"id": "morning", "name": "Walk before dawn, working days", "zones": WALK,
         "days": ["mon", "tue", "wed", "thu", "fri"], "on": {"at": "clock", "time": "05:45"},
         "off": {"at": "sunrise", "offset_min": -10}},
        {"id": "weekend", "name": "Garden, longer at the weekend", "zones": GARDEN, "days": ["fri", "sat"],
         "on": {"at": "clock", "time": "23:00"}, "off": {"at": "clock", "time": "01:00"}},
        {"id": "holidays", "name": "House and oak over the holidays", "zones": ["facade and oak"],
         "from_day": "12-18", "to_day": "01-06", "on": {"at": "clock", "time": "23:00"},
         "off": {"at": "clock", "time": "01:00"}},
    ]
