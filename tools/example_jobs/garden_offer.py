# SPDX-License-Identifier: Apache-2.0
"""The offer of the demo: the front of the house first, the garden behind it as a second phase, a plainer variant.

Rates are invented; an hour costs what the planner takes where an offer does not say, so that it plans as without one.
"""

FRONT = ("A", "B", "C")


def add(build):
    lamps = [lamp["id"] for lamp in build.job["luminaires"]]
    for sleeve in build.job["plan"]["sleeves"]:
        sleeve["laid"] = True
    build.job["offer"] = {
        "number": "2026-017",
        "date": "2026-03-16",
        "rates": {
            "labour_price_minor_per_h": 8500,
            "labour_cost_minor_per_h": 4000,
            "trip_price_minor": 2500,
            "trip_cost_minor": 1400,
            "sundries_cost_minor": 4000,
            "crew_size": 2,
            "trip_h": 0.75,
            "work_day_h": 8,
            "night_visit_h": 1.5,
            "night_visit_people": 2,
            "commissioning_min_per_lamp": 2.5,
            "commissioning_min_per_output": 15,
        },
        "margins": {
            "material_markup_pct": 60,
            "overhead_pct": 10,
            "margin_floor_pct": 35,
            "tax_pct": 6.25,
            "tax_on": "material",
            "tax_name": "Sales tax on material",
        },
        "terms": {
            "deposit_pct": 25,
            "deposit_rule": "ten-percent-or-1000",
            "valid_days": 30,
            "exclusions": [
                "Rock, roots above 50 mm and buried rubble: by the hour, after you have been asked.",
                "Sleeves under paving that are not on the plan.",
                "Work on the 120 V side: by a licensed electrician, on a bill of its own.",
                "Repair of irrigation and other private lines that nobody has marked.",
            ],
            "warranties": [
                {"subject": "Lights and transformers", "years": 5},
                {"subject": "Our work", "years": 2},
            ],
            "text": "Plants are worked around with care; those that stand in a trench are set back where they stood. "
                    "What is added or left out after signing is priced and agreed in writing before it is built.",
        },
        "options": [
            {
                "id": "front",
                "kind": "phase",
                "title": "Phase 1: the front",
                "text": "Steps and walk made safe, the house front, the oak seen from the street, the drive.",
                "luminaires": [lamp for lamp in lamps if lamp.startswith(FRONT)],
            },
            {
                "id": "back",
                "kind": "phase",
                "title": "Phase 2: patio, birches and pond",
                "text": "A quiet light round the patio, the birch bed, and the pond as the last thing seen from the kitchen.",
                "luminaires": [lamp for lamp in lamps if not lamp.startswith(FRONT)],
            },
            {
                "id": "plainer",
                "kind": "variant",
                "title": "All of it, with smaller uplights",
                "text": "The oak and the pond with 4 W in place of 6 W: softer, and a little cheaper.",
                "swaps": [{"item": "bullet-6w-36", "with": "bullet-4w-36"}],
            },
        ],
    }
