# SPDX-License-Identifier: Apache-2.0
"""A small job: eight lamps, two splices, no plan; lengths as paced."""
from builder import JobBuilder


def small_garden(stock):
    build = JobBuilder(
        stock,
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
        client={"name": "Ines Harrowgate", "wishes": [{"text": "Light on the hedge and the way to the door."}]},
    )
    return build
