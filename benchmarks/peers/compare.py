"""Times the peers on the days of a dump, and holds their energies against the engine's.

    compare.py DUMP [--agree]

With --agree nothing is timed: only the agreement is checked, on three days. Exits with 1 where a
peer's energies lie further than 0.5 % from the engine's.
"""

import json
import sys
import time

import numpy as np

import minutes

PLAIN_DAYS = 3
NAMES = ["panel loss", "panel heat", "circuit loss", "coil heat", "store loss", "tap heat", "top-up", "pump time"]


def arguments(dump, days):
    """The arrays march takes, made anew: it changes some of them."""
    plant, start = dump["plant"], dump["start"]
    segments = np.array(plant["segments"])
    layers = len(start["layer_k"])
    hours = dump["hours"][: days * 24]
    nodes = len(start["return_pipe_k"]) + len(segments) + len(start["flow_pipe_k"]) + layers
    draws = [draw for draw in dump["draws"] if draw[0] < days * 1440]
    return (
        days, segments[:, 0].copy(), segments[:, 1].copy(), np.array(plant["rate_w_k"]), np.array(plant["share"]),
        np.array(plant["flow_pipe"]), np.array(plant["return_pipe"]), np.array(plant["coil_ua_w_m_k"]),
        np.array(plant["coil_length_m"]), np.array(plant["coil_way"]),
        np.array([
            plant["layer_j_k"], plant["layer_m3"], plant["volume_heat_j_m3_k"], plant["conduction_w_k"],
            plant["entrained_per_layer"], start["cylinder_k"], plant["delivery_k"],
        ]),
        np.array([plant["inlet"], plant["outlet"], plant["probe"]]), np.array(plant["store_loss_w_k"]),
        np.array(plant["cylinder"]), np.array(plant["control"]),
        np.array([hour["air"] for hour in hours]), np.array([hour["top_w_m2_k"] for hour in hours]),
        np.array([hour["rest_w_m2_k"] for hour in hours]), np.array(dump["absorbed_w_m2"][: days * 1440]),
        np.array([draw[0] for draw in draws]), np.array([draw[1] for draw in draws]),
        np.array(start["plate_k"]), np.array(start["flow_pipe_k"]), np.array(start["return_pipe_k"]),
        np.array(start["layer_k"]), np.array(start["control"]), np.zeros((5, layers)), np.zeros((nodes, 4)),
        np.zeros(nodes), np.zeros(nodes), np.zeros((layers, 4)), np.zeros(layers),
        np.zeros(layers, dtype=np.int64), np.zeros(layers, dtype=np.int64), np.zeros(8),
    )


def run(march, dump, days):
    """Seconds and energies of some days."""
    given = arguments(dump, days)
    start = time.perf_counter()
    march(*given)
    return time.perf_counter() - start, given[-1]


def agreement(name, dump, days, energies):
    """Largest deviation of an energy from the engine's, told; True where it is small enough."""
    engine = np.array(dump["engine_energies_j"][:days]).sum(axis=0)
    off = np.abs(energies / engine - 1.0)
    worst = int(off.argmax())
    print(f"{name}: {days} days agree within {off[worst] * 100:.2g} % ({NAMES[worst]})")
    return off[worst] < 0.005


def main():
    dump = json.load(open(sys.argv[1]))
    days = len(dump["hours"]) // 24
    plain_s, energies = run(minutes.march, dump, PLAIN_DAYS)
    good = agreement("plain Python with numpy", dump, PLAIN_DAYS, energies)
    fast = minutes.compiled()
    start = time.perf_counter()
    _, energies = run(fast, dump, days)
    compiling_s = time.perf_counter() - start
    good &= agreement("numba", dump, days, energies)
    if "--agree" not in sys.argv:
        warm_s = min(run(fast, dump, days)[0] for _ in range(9))
        engine = dump["engine_s"] / days
        print(f"\n{'':26}{'a day':>12}{'to the engine':>16}")
        print(f"{'this engine':26}{engine * 1e3:9.3f} ms{1:16.2f}")
        print(f"{'numba, compiled before':26}{warm_s / days * 1e3:9.3f} ms{warm_s / days / engine:16.2f}")
        print(f"{'plain Python with numpy':26}{plain_s / PLAIN_DAYS * 1e3:9.1f} ms{plain_s / PLAIN_DAYS / engine:16.0f}")
        print(f"numba compiled for {compiling_s:.1f} s first")
    sys.exit(0 if good else 1)


main()
