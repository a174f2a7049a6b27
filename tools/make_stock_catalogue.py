#!/usr/bin/env python3
# SPDX-License-Identifier: Apache-2.0
"""Writes data/catalogue/stock.json from the tables below; with --check only compares. What the values rest on is told
in data/README.md. Conductors are computed here: AWG diameters by the law of ASTM B258, resistance of IACS copper, metric
sizes by the maxima of IEC 60228."""

import json
import math
import pathlib
import sys

TARGET = pathlib.Path(__file__).resolve().parent.parent / "data" / "catalogue" / "stock.json"

ESTIMATE = "estimate inside the ranges met in the trade: light, volts, price, labour"


def awg_area_mm2(gauge):
    diameter_mm = 0.127 * 92 ** ((36 - gauge) / 39)  # ASTM B258: No. 36 is 0.005 in, 4/0 is 0.46 in
    return math.pi / 4 * diameter_mm**2


def iacs_ohm_per_m(area_mm2):
    return 1 / 58 / area_mm2  # 100 % IACS copper at 20 C


def cents(amount):
    return round(amount * 100)


LEAD_18 = round(awg_area_mm2(18), 4)
LEAD_16 = round(awg_area_mm2(16), 4)

# An LED is called regulated down to the lower end of its window and dark 3 V below: no figures are published per kind.
LED_WINDOW = {"9": (9.0, 6.0, 9.0, 15.0), "10": (10.0, 7.0, 10.0, 15.0), "10.8": (10.8, 8.0, 10.8, 15.0)}


def beam_shape(kind, beam):
    """How the light is spread: docs/algorithms/photometry.md."""
    of_kind = {"path": "ring", "bollard": "half_ring" if beam == 180 else "ring", "wall_wash": "wash", "step": "step",
               "strip": "strip"}
    if kind in of_kind:
        return of_kind[kind]
    return "all_round" if beam == 360 else "flood" if beam >= 60 else "spot"


def led(kind, ident, title, watts, va, flux, beam, window, height, lead, price, labour, **more):
    low, cut_off, regulation, high = LED_WINDOW[window]
    item = {
        "id": ident,
        "title": title,
        "kind": kind,
        "lamp": "regulated_led",
        "power_w": watts,
        "power_va": va,
        "rated_v": 12.0,
        "window_min_v": low,
        "window_max_v": high,
        "v_cut_off": cut_off,
        "v_regulation_min": regulation,
        "flux_lm": flux,
        "beam_deg": beam,
        "beam_shape": beam_shape(kind, beam),
        "colour_temperature_k": 2700,
        "mounting_height_m": height,
        "lead_length_m": lead[0],
        "lead_area_mm2": lead[1],
        "price_minor": cents(price),
        "labour_min": labour,
        "underwater_listed": False,
        "note": ESTIMATE,
    }
    item.update(more)
    return item


def watts_text(watts):
    return f"{watts:g}w"


def series(kind, prefix, title, sizes, beams, window, height, lead, labour, **more):
    """Every size with every beam. sizes: (W, VA, lm, price); a dearer, slower size may carry its own labour."""
    items = []
    for watts, va, flux, price in sizes:
        for beam in beams:
            tail = f"-{beam}" if len(beams) > 1 else ""
            beam_text = "all round" if beam == 360 else f"{beam} deg"
            items.append(
                led(kind, f"{prefix}-{watts_text(watts)}{tail}", f"{title}, {watts:g} W, {beam_text}", watts, va, flux,
                    beam, window, height, lead, price, labour, **more)
            )
    return items


def retrofit(ident, title, watts, va, flux, beam, window, price, labour):
    item = led("retrofit_lamp", ident, title, watts, va, flux, beam, "9", 0.2, (0.9, LEAD_18), price, labour)
    item["note"] = ESTIMATE + "; the lead is that of the fixture it goes into"
    if window == "tight":
        item.update(window_min_v=11.4, window_max_v=12.6, v_regulation_min=11.4, v_cut_off=9.0)
        item["note"] += "; made for 12 V within 5 %"
    return item


def halogen(ident, title, watts, flux, beam, price):
    return {
        "id": ident,
        "title": title,
        "kind": "halogen_lamp",
        "lamp": "filament",
        "power_w": watts,
        "power_va": watts,
        "rated_v": 12.0,
        "window_min_v": 10.8,
        "window_max_v": 12.0,
        "v_cut_off": 0.0,
        "v_regulation_min": 10.8,
        "flux_lm": flux,
        "beam_deg": beam,
        "beam_shape": beam_shape("halogen_lamp", beam),
        "colour_temperature_k": 2900,
        "mounting_height_m": 0.2,
        "lead_length_m": 0.9,
        "lead_area_mm2": LEAD_18,
        "price_minor": cents(price),
        "labour_min": 5.0,
        "underwater_listed": False,
        "note": ESTIMATE + "; legacy lamp, the lead is that of the fixture it sits in",
    }


def luminaires():
    short_lead = (0.9, LEAD_18)
    items = []
    items += series("path", "path", "Path light", [(2, 3, 90, 70), (3, 4, 140, 95), (4, 5.5, 200, 140)], [360], "10", 0.5,
                    short_lead, 25.0)
    items += series("bullet", "bullet", "Bullet uplight",
                    [(3, 4, 200, 75), (4, 5.5, 290, 85), (6, 8, 450, 110), (9, 12.5, 680, 160)], [10, 15, 24, 36, 60],
                    "9", 0.2, short_lead, 25.0)
    items += series("wall_wash", "wash", "Wall wash", [(3, 4.2, 220, 85), (5, 7, 380, 110), (7, 9.5, 550, 140),
                                                     (10, 14, 780, 200)], [60, 90, 110], "9", 0.2, short_lead, 25.0)
    items += series("well", "well", "In-grade well light", [(3, 4, 210, 130), (5, 7, 380, 170), (8, 11, 620, 220),
                                                            (12, 17, 900, 300)], [15, 30, 60], "10", 0.0, (1.2, LEAD_16),
                    60.0)
    items += series("tree_downlight", "downlight", "Tree downlight", [(4, 5.5, 260, 110), (6, 8, 420, 150),
                                                                      (8, 11, 600, 210)], [24, 36, 60], "9", 7.5,
                    (7.5, LEAD_16), 90.0, colour_temperature_k=3000)
    items.append(led("tree_downlight", "downlight-5w-60-4000k", "Tree downlight, moonlight, 5 W, 60 deg, 4000 K", 5, 6.8,
                     360, 60, "9", 7.5, (7.5, LEAD_16), 140, 90.0, colour_temperature_k=4000))
    items += series("step", "step", "Step light", [(0.7, 1, 15, 45), (1, 1.5, 35, 60), (1.5, 2.2, 60, 75),
                                                   (3, 4.5, 120, 120)], [120], "10", 0.25, (0.6, LEAD_18), 45.0)
    items += series("strip", "strip", "Under-cap strip", [(1.5, 2, 60, 65), (3, 4.2, 160, 95), (5, 7, 300, 145)], [120],
                    "10.8", 0.5, (0.9, LEAD_18), 40.0)
    items += series("bollard", "bollard", "Bollard", [(5, 7, 320, 180), (8, 11, 560, 280), (12, 17, 900, 420)],
                    [180, 360], "10", 0.9, (0.9, LEAD_16), 60.0)
    items += series("underwater", "underwater", "Underwater light", [(3, 4, 210, 150), (6, 8.5, 400, 240),
                                                                     (9, 13, 600, 360)], [15, 30, 60], "10.8", -0.45,
                    (9.0, LEAD_16), 90.0, underwater_listed=True)
    items += [
        retrofit("retrofit-mr16-3w-36", "LED lamp, MR16 shape, 3 W, 36 deg", 3, 4.5, 220, 36, "wide", 10, 5.0),
        retrofit("retrofit-mr16-5w-15", "LED lamp, MR16 shape, 5 W, 15 deg", 5, 7, 380, 15, "wide", 14, 5.0),
        retrofit("retrofit-mr16-5w-36", "LED lamp, MR16 shape, 5 W, 36 deg", 5, 7, 400, 36, "wide", 13, 5.0),
        retrofit("retrofit-mr16-5w-60", "LED lamp, MR16 shape, 5 W, 60 deg", 5, 7, 400, 60, "wide", 13, 5.0),
        retrofit("retrofit-mr16-7w-36", "LED lamp, MR16 shape, 7 W, 36 deg", 7, 9.5, 560, 36, "wide", 18, 5.0),
        retrofit("retrofit-mr16-4w-36-tight", "LED lamp, MR16 shape, 4 W, 36 deg, 12 V +- 5 % only", 4, 6, 280, 36,
                 "tight", 8, 5.0),
        retrofit("retrofit-par36-6w-30", "LED lamp, PAR36 shape, 6 W, 30 deg", 6, 8.5, 450, 30, "wide", 24, 8.0),
        retrofit("retrofit-par36-9w-30", "LED lamp, PAR36 shape, 9 W, 30 deg", 9, 12, 600, 30, "wide", 32, 8.0),
        retrofit("retrofit-par36-9w-60", "LED lamp, PAR36 shape, 9 W, 60 deg", 9, 12, 600, 60, "wide", 32, 8.0),
        retrofit("retrofit-g4-1.5w", "LED capsule, G4 base, 1.5 W, all round", 1.5, 2.5, 120, 360, "wide", 8, 5.0),
        retrofit("retrofit-g4-2.5w", "LED capsule, G4 base, 2.5 W, all round", 2.5, 4, 220, 360, "wide", 9, 5.0),
        halogen("halogen-mr16-20w-36", "Halogen lamp, MR16 shape, 20 W, 36 deg", 20, 260, 36, 4.5),
        halogen("halogen-mr16-35w-36", "Halogen lamp, MR16 shape, 35 W, 36 deg", 35, 550, 36, 5),
        halogen("halogen-mr16-50w-12", "Halogen lamp, MR16 shape, 50 W, 12 deg", 50, 860, 12, 6),
        halogen("halogen-mr16-50w-36", "Halogen lamp, MR16 shape, 50 W, 36 deg", 50, 880, 36, 6),
        halogen("halogen-par36-35w-30", "Halogen lamp, PAR36 shape, 35 W, 30 deg", 35, 460, 30, 9),
        halogen("halogen-g4-10w", "Halogen capsule, G4 base, 10 W, all round", 10, 120, 360, 4),
        halogen("halogen-g4-20w", "Halogen capsule, G4 base, 20 W, all round", 20, 300, 360, 4),
    ]
    return items


# rating VA: outputs, limit A, no-load rise over full load on the 12 V tap, part of it in the windings of one output,
# core loss W, price of the plain unit, labour. Copper loss over rating equals the rise, so that the efficiency follows.
TRANSFORMERS = {
    75: (1, 6.25, 0.075, 0.5, 7.0, 130, 60.0),
    150: (1, 12.5, 0.070, 0.5, 10.0, 190, 60.0),
    300: (1, 25.0, 0.060, 0.5, 16.0, 290, 75.0),
    600: (2, 25.0, 0.055, 0.5, 26.0, 470, 90.0),
    900: (3, 25.0, 0.055, 0.5, 34.0, 640, 105.0),
    1200: (4, 25.0, 0.055, 0.5, 42.0, 920, 120.0),
}
TAPS = {"": [12.0, 13.0, 14.0, 15.0], "18": [12.0, 13.0, 14.0, 15.0, 18.0], "22": [12.0, 13.0, 14.0, 15.0, 18.0, 22.0],
        "pool": [12.0, 13.0, 14.0]}
TRANSFORMER_VARIANTS = [(75, "", 0), (150, "", 0), (300, "", 0), (300, "18", 40), (300, "pool", 150), (600, "", 0),
                        (600, "18", 60), (600, "22", 110), (900, "", 0), (900, "22", 140), (1200, "", 0), (1200, "22", 220)]


def transformer(rating_va, variant, extra_price):
    outputs, limit_a, rise, own_share, core_w, price, labour = TRANSFORMERS[rating_va]
    taps = TAPS[variant]
    total_a = rating_va / taps[0]
    rise_v = rise * taps[0]
    copper_w = rise * rating_va
    pool = variant == "pool"
    tail = {"": "", "pool": "-pool"}.get(variant, f"-to{variant}")
    outputs_text = "1 output" if outputs == 1 else f"{outputs} outputs"
    title = f"Transformer {rating_va} VA, {outputs_text}, taps {taps[0]:g} to {taps[-1]:g} V"
    return {
        "id": f"transformer-{rating_va}va{tail}",
        "title": title + (", listed for pools" if pool else ""),
        "rating_va": rating_va,
        "output_count": outputs,
        "output_limit_a": limit_a,
        "taps_v": taps,
        "r_own_ohm": round(own_share * rise_v / (total_a / outputs), 5),
        "r_shared_ohm": round((1 - own_share) * rise_v / total_a, 5),
        "efficiency": round(rating_va / (rating_va + copper_w + core_w), 3),
        "core_loss_w": core_w,
        "outdoor_listed": True,
        "pool_listed": pool,
        "price_minor": cents(price + extra_price),
        "labour_min": labour,
        "note": "estimate inside the ranges met in the trade: rise, efficiency, price, labour; one resistance stands "
                "for every tap",
    }


# gauge: ampacity A, outer mm (broad side), price per m. Ampacity: the small-conductor limits of NFPA 70 240.4(D) for
# 18 to 10 AWG and the 60 C column of table 310.16 for 8 AWG, both from memory.
AWG_CABLES = {18: (7.0, 6.2, 0.55), 16: (10.0, 7.2, 0.70), 14: (15.0, 8.2, 1.10), 12: (20.0, 9.6, 1.60),
              10: (30.0, 11.0, 2.60), 8: (40.0, 13.6, 4.10)}
# area: ohm/km at 20 C (IEC 60228 class 2), ampacity A, outer mm, price per m. Ampacity: IEC 60364-5-52, two loaded
# PVC-insulated conductors in the ground, from memory.
METRIC_CABLES = {1.5: (12.1, 22.0, 8.6, 0.80), 2.5: (7.41, 29.0, 9.8, 1.20), 4.0: (4.61, 38.0, 11.4, 1.90),
                 6.0: (3.08, 47.0, 12.6, 2.80)}


def cable(ident, title, area_mm2, gauge, ohm_per_m, ampacity_a, outer_mm, price_per_m, note):
    item = {"id": ident, "title": title, "area_mm2": area_mm2}
    if gauge is not None:
        item["gauge_awg"] = gauge
    item.update({
        "ohm_per_m_20c": ohm_per_m,
        "ampacity_a": ampacity_a,
        "outer_diameter_mm": outer_mm,
        "direct_burial": True,
        "sold_step_m": 1.0,
        "price_minor_per_m": cents(price_per_m),
        "labour_min_per_m": 1.0,
        "note": note,
    })
    return item


def cables():
    items = []
    for gauge, (ampacity_a, outer_mm, price) in AWG_CABLES.items():
        area = awg_area_mm2(gauge)
        items.append(cable(f"{gauge}awg-2", f"Cable {gauge} AWG, two conductors, direct burial", round(area, 4), gauge,
                           round(iacs_ohm_per_m(area), 8), ampacity_a, outer_mm, price,
                           "area and resistance computed: ASTM B258, IACS copper at 20 C; ampacity from memory; "
                           "diameter, price, labour: estimate"))
    for area, (ohm_per_km, ampacity_a, outer_mm, price) in METRIC_CABLES.items():
        items.append(cable(f"{area:g}mm2-2", f"Cable 2 x {area:g} mm2, direct burial", area, None,
                           round(ohm_per_km / 1000, 8), ampacity_a, outer_mm, price,
                           "resistance: IEC 60228 class 2, the maximum at 20 C; ampacity from memory; "
                           "diameter, price, labour: estimate"))
    return items


def fill(area_min, area_max, count_min, count_max):
    return {"area_min_mm2": area_min, "area_max_mm2": area_max, "count_min": count_min, "count_max": count_max}


def connector(ident, title, fills, sealed, held, both, contact_ohm, price, labour, note="fill, contact, price: estimate"):
    return {"id": ident, "title": title, "fills": fills, "sealed": sealed, "mechanically_held": held,
            "serves_both_conductors": both, "contact_ohm": contact_ohm, "price_minor": cents(price),
            "labour_min": labour, "note": note}


# Area limits lie between the sizes in use, so that a limit reads as a size: 1.4 is 16 AWG, 2.6 is 14 AWG or 2.5 mm2,
# 3.5 is 12 AWG, 4.1 is 4 mm2, 6.1 is 6 mm2 (10 AWG is 5.26), 8.5 is 8 AWG.
def connectors():
    return [
        connector("gel-twist-small", "Gel-filled twist connector, small", [
            fill(0.75, 1.4, 2, 4), fill(0.75, 2.6, 2, 3), fill(0.75, 3.5, 2, 2)], True, True, False, 0.001, 1.20, 4.0),
        connector("gel-twist-medium", "Gel-filled twist connector, medium", [
            fill(0.75, 1.4, 2, 6), fill(0.75, 2.6, 2, 4), fill(0.75, 4.1, 2, 3), fill(2.0, 6.1, 2, 2)], True, True, False,
            0.001, 2.00, 4.0),
        connector("gel-twist-large", "Gel-filled twist connector, large", [
            fill(0.75, 2.6, 3, 6), fill(0.75, 4.1, 2, 5), fill(2.0, 6.1, 2, 3), fill(3.2, 8.5, 2, 2)], True, True, False,
            0.001, 3.50, 5.0),
        connector("gel-tube-crimp", "Crimp sleeve in a gel tube", [
            fill(0.75, 2.6, 2, 7), fill(0.75, 4.1, 2, 6), fill(0.75, 6.1, 2, 4)], True, True, False, 0.0005, 3.50, 7.5),
        connector("gel-tube-crimp-large", "Crimp sleeve in a gel tube, large", [
            fill(0.75, 2.6, 4, 12), fill(0.75, 4.1, 3, 9), fill(0.75, 6.1, 2, 6), fill(2.0, 8.5, 2, 4)], True, True,
            False, 0.0005, 5.80, 7.5),
        connector("heat-shrink-butt-small", "Heat-shrink butt connector, sealed, to 14 AWG / 2.5 mm2", [
            fill(0.75, 2.6, 2, 2)], True, True, False, 0.001, 1.10, 5.0),
        connector("heat-shrink-butt-large", "Heat-shrink butt connector, sealed, 12 to 10 AWG / 4 to 6 mm2", [
            fill(3.2, 6.1, 2, 2)], True, True, False, 0.001, 1.90, 5.0),
        connector("hub-box-5", "Hub box, gel-filled, 5 ways", [fill(0.75, 6.1, 2, 5)], True, True, True, 0.001, 24.00,
                  15.0),
        connector("hub-box-10", "Hub box, gel-filled, 10 ways", [fill(0.75, 6.1, 2, 10), fill(0.75, 8.5, 2, 6)], True,
                  True, True, 0.001, 48.00, 20.0),
        connector("pierce-tap", "Tool-less pierce connector", [fill(0.75, 3.5, 2, 2)], False, False, True, 0.005, 1.50,
                  2.0, "fill, contact, price: estimate; lets water in, not for a splice that stays in the ground "
                       "(common practice, no source)"),
        connector("wire-nut-small", "Indoor wire nut, small", [fill(0.75, 1.4, 2, 5), fill(0.75, 2.6, 2, 3)], False, True,
                  False, 0.002, 0.15, 2.0, "fill, contact, price: estimate; not sealed, indoors and enclosures only"),
        connector("wire-nut-large", "Indoor wire nut, large", [fill(0.75, 2.6, 2, 5), fill(0.75, 6.1, 2, 3)], False, True,
                  False, 0.002, 0.25, 2.0, "fill, contact, price: estimate; not sealed, indoors and enclosures only"),
    ]


def priced(ident, title, kind, price, labour, **more):
    item = {"id": ident, "title": title, "kind": kind}
    item.update(more)
    item.update({"price_minor": cents(price), "labour_min": labour, "note": "price, labour: estimate"})
    return item


def controls():
    return [
        priced("timer-astronomic", "Astronomic timer, plug-in", "astronomic_timer", 60, 15.0),
        priced("timer-astronomic-two-zone", "Astronomic timer, two zones, battery-backed", "astronomic_timer", 135, 30.0),
        priced("timer-mechanical", "Mechanical dial timer", "mechanical_timer", 25, 10.0),
        priced("photocell", "Photocell, remote eye", "photocell", 28, 15.0),
        priced("surge-module", "Surge module, mains side", "surge", 55, 20.0),
        priced("zone-switch", "Zone switch for one output", "other", 80, 20.0),
        priced("dimmer-12v", "Dimmer for one 12 V run", "other", 90, 20.0),
    ]


def sundries():
    return [
        priced("stake", "Ground stake", "stake", 3.00, 1.0, unit="piece"),
        priced("stake-heavy", "Ground stake, heavy, for loose soil", "stake", 6.50, 2.0, unit="piece"),
        priced("staple", "Cable staple", "staple", 0.15, 0.3, unit="piece"),
        priced("sleeve-25", "Sleeve pipe 25 mm", "sleeve", 1.60, 6.0, unit="m"),
        priced("sleeve-50", "Sleeve pipe 50 mm", "sleeve", 2.90, 6.0, unit="m"),
        priced("tag", "Cable tag, engraved", "tag", 0.60, 0.5, unit="piece"),
        priced("post-mount", "Transformer post", "post_mount", 70, 45.0, unit="piece"),
        priced("tree-mount", "Tree mount with stand-off bolts", "tree_mount", 18, 15.0, unit="piece"),
        priced("drainage-gravel", "Drainage gravel under a well light, bag of 20 kg", "drainage", 6.00, 10.0, unit="piece"),
        priced("riser-conduit", "Conduit from transformer to below grade", "other", 2.40, 8.0, unit="m"),
        priced("warning-tape", "Warning tape over the trench", "other", 0.20, 0.2, unit="m"),
        priced("marker-disc", "Marker disc over a buried splice", "other", 2.50, 1.0, unit="piece"),
        priced("in-use-cover", "Receptacle cover that closes over the plug", "other", 16, 10.0, unit="piece"),
    ]


def catalogue():
    return {
        "format": "duskwire-catalogue",
        "version": 1,
        "title": "Stock catalogue: generic goods of the trade",
        "license": "Apache-2.0",
        "currency": "USD",
        "note": "Generic goods, of no maker. Prices and labour are estimates: put your own in a file of the same shape. "
                "Always go by the window and the listing marked on the article itself.",
        "luminaires": luminaires(),
        "transformers": [transformer(*variant) for variant in TRANSFORMER_VARIANTS],
        "cables": cables(),
        "connectors": connectors(),
        "controls": controls(),
        "sundries": sundries(),
    }


def main():
    text = json.dumps(catalogue(), indent=2) + "\n"
    if "--check" in sys.argv[1:]:
        if not TARGET.exists() or TARGET.read_text() != text:
            sys.exit("data/catalogue/stock.json is stale: run tools/make_stock_catalogue.py")
        return
    TARGET.parent.mkdir(parents=True, exist_ok=True)
    TARGET.write_text(text)


if __name__ == "__main__":
    main()
