# SPDX-License-Identifier: Apache-2.0
"""The demo job: forty lamps on two transformers, as a chain, a hub, a spur under the drive, a loop, a tee and a far run.

`garden(stock, sound)`: as planned at first, with three mistakes planted (docs/guide.md tells which), or put right.
"""
import front_view
import garden_aims
import garden_offer
import garden_plan
import garden_programme
from builder import JobBuilder

TRUNK = "12awg-2"
THIN = "14awg-2"
SEALED = "gel-tube-crimp"
UNSEALED = "wire-nut-large"
HUB = "hub-box-10"
PATH = "path-3w"
WASH = "wash-5w-60"
STEP = "step-1.5w"
UPLIGHT = "bullet-6w-36"
SMALL_UPLIGHT = "bullet-4w-36"


def garden(stock, sound):
    build = JobBuilder(
        stock,
        id="ostrey-garden",
        title="The Ostrey garden, put right" if sound else "The Ostrey garden",
        created="2026-03-14",
        site={
            "latitude_deg": 40.0,
            "longitude_deg": -89.0,
            "time_zone": "America/Chicago",
            "address": "14 Tillerpatch Lane, Quenby Falls",
            "mains_v": 120,
            "mains_hz": 60,
            "ruleset": "us",
            "units": "us",
            "currency": "USD",
            "soil": "clay",
        },
        client={
            "name": "Maud and Tobin Ostrey",
            "contact": "by letter",
            "wishes": [
                {"text": "The front steps are scary after dark."},
                {"text": "We love the oak. Please let us see it from the street."},
                {"text": "Nothing that shines into the neighbour's bedroom."},
                {"text": "A quiet light round the patio, and the pond as the last thing you see from the kitchen."},
                {"text": "Leave room for a pavilion behind the pond, in a few years."},
            ],
            "notes": "Dog digs along the west fence. Irrigation runs under both lawns: not marked by the public service.",
        },
    )
    garden_plan.draw(build)
    front_view.add(build)
    _transformers(build, sound)
    _front_walk(build)
    _front_hub(build)
    _drive(build, sound)
    _patio_loop(build)
    _birch_tee(build, sound)
    _pond_run(build)
    garden_aims.aim(build.job, shielded=sound)
    garden_offer.add(build)
    garden_programme.add(build)
    return build.finished()


def _transformers(build, sound):
    # Smaller protective devices than the units come with, so that a short at the far end still trips.
    build.transformer(
        "T1", "Front, by the garage", "transformer-300va", (25.2, 17.2),
        [{"id": "T1-A", "tap_v": 12, "limit_a": 15}],
        mounting_height_m=0.5, mounting="wall", receptacle="outlet-front", controls=["timer-astronomic"])
    build.transformer(
        "T2", "Back wall", "transformer-600va", (23.4, 27.2),
        [{"id": "T2-A", "tap_v": 12, "limit_a": 15}, {"id": "T2-B", "tap_v": 13 if sound else 12, "limit_a": 10}],
        mounting_height_m=0.5, mounting="wall", receptacle="outlet-back", controls=["timer-astronomic"])


def _chain(build, run, start, lamps, cable, zone):
    """Lamps in a row, each on its own lead at an in-line splice beside it; `lamps`: (name, item, splice, lamp, via)."""
    previous = start
    for number, (name, item, splice, lamp, via, more) in enumerate(lamps, 1):
        last = number == len(lamps)
        joint = f"{run}-J{number}"
        build.joint(joint, "", "end_of_run" if last else "branch", splice, SEALED)
        build.lamp(f"{run}{number}", name, item, lamp, zone, joint)
        build.cable(f"{run}-C{number}", cable, previous, joint, via, depth_m=0.2, **more)
        previous = joint
    return previous


def _front_walk(build):
    under_walk = {"sleeve": "sleeve-walk-street"}
    _chain(build, "A", "T1-A", [
        ("Front wall, east", WASH, (23.4, 14.9), (23.4, 15.1), [(25.2, 14.9)], {}),
        ("Front wall, porch", WASH, (20.6, 14.9), (20.6, 15.1), [], {}),
        ("Walk east, top", PATH, (18, 11.2), (18, 11.2), [(18.6, 13)], {}),
        ("Walk east, middle", PATH, (18, 6.8), (18, 6.8), [], {}),
        ("Walk east, street", PATH, (18, 2.4), (18, 2.4), [], {}),
        ("Walk west, lower", PATH, (15.8, 4.6), (15.8, 4.6), [(18.2, 2), (15.6, 2)], under_walk),
        ("Walk west, upper", PATH, (15.8, 9), (15.8, 9), [], {}),
        ("Step 1, lowest", STEP, (15.7, 12.8), (16, 13.2), [], {}),
        ("Step 2", STEP, (15.7, 13.4), (16, 13.7), [], {}),
        ("Step 3, top", STEP, (15.7, 14), (16, 14.1), [], {}),
    ], TRUNK, "front walk")


def _front_hub(build):
    build.joint("B-HUB", "Hub, west bed", "hub", (11.5, 13), HUB)
    build.cable("B-C0", TRUNK, "T1-A", "B-HUB", [(25.2, 14.6), (19, 12.4), (15.6, 12.4)], depth_m=0.2,
                sleeve="sleeve-walk")
    for number, (name, item, at) in enumerate([
        ("Front wall, west", WASH, (10.4, 15.1)),
        ("Front wall, middle", WASH, (13.2, 15.1)),
        ("Oak, house side", UPLIGHT, (8.2, 9.8)),
        ("Oak, street side", UPLIGHT, (7.4, 5.6)),
        ("Oak, moonlight", "downlight-6w-60", (6, 8, 7)),
    ], 1):
        build.lamp(f"B{number}", name, item, at, "facade and oak")
        build.cable(f"B-C{number}", THIN, "B-HUB", f"B{number}", depth_m=0.2)
    build.job["cables"][-1]["length_m"] = 15.5  # 7.5 m on the ground and 8 m up the trunk with a loop for growth


def _drive(build, sound):
    start = "T1-A"
    for number, y in enumerate([14, 8.5, 3], 1):
        build.lamp(f"C{number}", f"Drive bollard {number}", "bollard-5w-180", (32.8, y), "drive")
        via = [(25.7, 15), (32.3, 15)] if number == 1 else []
        crossing = {"sleeve": "sleeve-drive", "depth_m": 0.5} if sound else {"depth_m": 0.2}
        build.cable(f"C-C{number}", TRUNK, start, f"C{number}", via, **(crossing if number == 1 else {"depth_m": 0.2}))
        start = f"C{number}"


def _patio_loop(build):
    last = _chain(build, "D", "T2-A", [
        ("Patio, house side", PATH, (22.6, 29.2), (22.6, 29.2), [], {}),
        ("Patio, lawn side", PATH, (22.6, 32), (22.6, 32), [], {}),
        ("Seat wall 1", "strip-3w", (20.6, 33.1), (20.6, 32.7), [], {}),
        ("Seat wall 2", "strip-3w", (18, 33.1), (18, 32.7), [], {}),
        ("Seat wall 3", "strip-3w", (15, 33.1), (15, 32.7), [], {}),
        ("Seat wall 4", "strip-3w", (12.4, 33.1), (12.4, 32.7), [], {}),
        ("Patio, west", PATH, (10.6, 30.4), (10.6, 30.4), [], {}),
    ], TRUNK, "patio")
    build.cable("D-C8", TRUNK, last, "T2-A", [(10.6, 27.6), (22.4, 27.6)], depth_m=0.45, sleeve="sleeve-patio")
    build.job["joints"][-1]["kind"] = "branch"  # the loop has no end


def _birch_tee(build, sound):
    build.joint("E-TEE", "Tee, birch bed", "branch", (30.2, 34.6), SEALED if sound else UNSEALED)
    build.cable("E-C0", TRUNK, "T2-A", "E-TEE", [(26, 28)], depth_m=0.2)
    _chain(build, "ES", "E-TEE", [
        ("Bed edge, south", PATH, (29.6, 31.2), (29.6, 31.2), [], {}),
        ("Birch, front", SMALL_UPLIGHT, (31.8, 31), (31.8, 31), [], {}),
        ("Birch, fence side", SMALL_UPLIGHT, (34.4, 32.6), (34.4, 32.6), [], {}),
    ], TRUNK, "birch bed")
    _chain(build, "EN", "E-TEE", [
        ("Bed edge, north", PATH, (29.6, 38.2), (29.6, 38.2), [], {}),
        ("Maple, lawn side", SMALL_UPLIGHT, (30, 39.6), (30, 39.6), [], {}),
        ("Maple, behind", SMALL_UPLIGHT, (33.4, 42.2), (33.4, 42.2), [], {}),
        ("Bed corner", PATH, (30.4, 43.6), (30.4, 43.6), [], {}),
        ("Fern bank", SMALL_UPLIGHT, (34.6, 38), (34.6, 38), [], {}),
    ], TRUNK, "birch bed")


def _pond_run(build):
    _chain(build, "F", "T2-B", [
        ("Pond, near bank", PATH, (11, 38), (11, 38), [(22.9, 33.6), (17.2, 34.4)], {}),
        ("Crab apple, path", UPLIGHT, (12.6, 42.2), (12.6, 42.2), [], {}),
        ("Crab apple, pond", SMALL_UPLIGHT, (10.2, 44.6), (10.2, 44.6), [], {}),
        ("Stone lantern", SMALL_UPLIGHT, (6, 45.4), (6, 45.4), [], {}),
        ("Pond, far bank", PATH, (2, 43), (2, 43), [], {}),
        ("Hawthorn, pond", SMALL_UPLIGHT, (1.6, 37), (1.6, 37), [], {}),
        ("Hawthorn, lawn", SMALL_UPLIGHT, (3.4, 33.4), (3.4, 33.4), [], {}),
    ], TRUNK, "pond")
