# SPDX-License-Identifier: Apache-2.0
"""The demo garden's ground: an invented corner lot of 36 by 48 m, street to the south, house across the middle."""


def draw(build):
    _ground(build)
    _things(build)


def _ground(build):
    build.area("lawn-front", "Front lawn", "lawn", [(0, 0), (36, 0), (36, 18), (0, 18)])
    build.area("lawn-back", "Back lawn", "lawn", [(0, 18), (36, 18), (36, 48), (0, 48)])
    build.area("street", "Street", "street", [(-2, -8), (38, -8), (38, -1.6), (-2, -1.6)])
    build.area("sidewalk", "Sidewalk", "paving", [(-2, -1.6), (38, -1.6), (38, 0), (-2, 0)])
    build.area("house", "House", "building", [(9, 16), (25, 16), (25, 27), (9, 27)], 6.2)
    build.area("garage", "Garage", "building", [(25, 18), (33, 18), (33, 26), (25, 26)], 3.4)
    build.area("drive", "Drive", "drive", [(26, 0), (32, 0), (32, 18), (26, 18)])
    build.area("bed-west", "Bed along the front, west", "bed", [(9, 13.2), (14.5, 13.2), (14.5, 16), (9, 16)])
    build.area("bed-east", "Bed along the front, east", "bed", [(19.3, 13.2), (25.8, 13.2), (25.8, 16), (19.3, 16)])
    build.area("front-walk", "Front walk", "paving", [(16.2, 0), (17.6, 0), (17.6, 13), (16.2, 13)])
    build.area("front-steps", "Front steps", "steps", [(16, 13), (17.8, 13), (17.8, 14.2), (16, 14.2)], 0.5,
               riser_count=3, ascent_deg=0)
    build.area("porch", "Porch", "deck", [(14.5, 14.2), (19.3, 14.2), (19.3, 16), (14.5, 16)], 0.5)
    build.area("patio", "Patio", "paving", [(11, 27), (22, 27), (22, 32.5), (11, 32.5)])
    build.area("seat-wall", "Seat wall", "wall", [(11, 32.5), (22, 32.5), (22, 32.9), (11, 32.9)], 0.5)
    build.area("gravel-path", "Gravel path", "gravel", [(15.6, 32.9), (17, 32.9), (17, 44), (15.6, 44)])
    build.area("bed-birch", "Birch bed", "bed", [(29, 28), (36, 28), (36, 44), (29, 44)])
    build.area("bed-pond", "Pond bed", "bed", [(1, 33.5), (13, 33.5), (13, 47), (1, 47)])
    build.area("pond", "Pond", "water", [(4, 38), (7, 37), (8.6, 39), (8, 41.6), (5, 42), (3.6, 40)])


def _things(build):
    build.job["plan"]["property_line"] = [[0, 0], [36, 0], [36, 48], [0, 48]]
    build.put("sleeves", id="sleeve-walk", path=[(18.2, 12.4), (15.6, 12.4)], diameter_mm=40, depth_m=0.45)
    build.put("sleeves", id="sleeve-walk-street", path=[(18.2, 2), (15.6, 2)], diameter_mm=40, depth_m=0.45)
    build.put("sleeves", id="sleeve-drive", path=[(25.7, 15), (32.3, 15)], diameter_mm=50, depth_m=0.5)
    build.put("sleeves", id="sleeve-patio", path=[(10.6, 27.6), (22.4, 27.6)], diameter_mm=40, depth_m=0.45)
    build.put("receptacles", id="outlet-front", position=(25.1, 17.6), gfci=True, in_use_cover=True, circuit_a=20)
    build.put("receptacles", id="outlet-back", position=(24.3, 27.1), gfci=True, in_use_cover=True, circuit_a=20)
    build.put("view_points", id="eye-street", name="From the street", kind="street", position=(16.9, -3, 1.6))
    build.put("view_points", id="eye-door", name="Front door, looking out", kind="door", position=(16.9, 15.8, 2.1))
    build.put("view_points", id="eye-kitchen", name="Kitchen window", kind="window", position=(14, 27, 1.7))
    build.put("view_points", id="eye-neighbour", name="Neighbour's bedroom, west", kind="neighbour_window",
              position=(-7, 20, 4.6))
    build.put("view_points", id="eye-seat", name="Seat wall", kind="seat", position=(16.5, 32.2, 1.2))
    build.put("trees", id="tree-oak", name="Oak", position=(6, 8), height_m=13, crown_width_m=9, crown_base_m=3.2)
    build.put("trees", id="tree-birch", name="Birch clump", position=(32.6, 33.4), height_m=9, crown_width_m=4.5,
              crown_base_m=2)
    build.put("trees", id="tree-maple", name="Maple", position=(31.5, 41), height_m=8, crown_width_m=6, crown_base_m=2)
    build.put("trees", id="tree-crab", name="Crab apple", position=(11.4, 43.4), height_m=4.5, crown_width_m=4,
              crown_base_m=1.3)
    build.put("trees", id="tree-hawthorn", name="Hawthorn", position=(2.6, 35), height_m=5, crown_width_m=3.5,
              crown_base_m=1.5)
    for id, name, position in [("corner-front-east", "House corner, front east", (25, 16)),
                               ("corner-front-west", "House corner, front west", (9, 16)),
                               ("corner-back-east", "House corner, back east", (25, 27)),
                               ("corner-back-west", "House corner, back west", (9, 27)),
                               ("gate-post", "Gate post, back fence", (16.3, 47.9))]:
        build.put("fixed_points", id=id, name=name, position=position)
