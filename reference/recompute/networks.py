"""Recomputes the network checks of reference/hydraulics-checks.toml with fluids and scipy.

Friction factors come from fluids, roots from scipy; the equations of a network (as much flows to a
node as from it, the losses round a loop sum to nothing) are written out here.
"""

import math
import re

import fluids
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq, root

from referee import GRAVITY_M_S2, ZERO_C_K, Answers

answers = Answers("hydraulics-checks.toml")
# The committed figures come from another solver, stopped at 1e-9 of the largest loss.
SOLVED = 1e-7


def pipe_drop(i, pipe, flow, friction=fluids.friction.Churchill_1977):
    """Loss of a pipe with its fittings [Pa], with the sign of the flow."""
    if flow == 0:
        return 0.0
    bore = pipe["bore_m"]
    velocity = abs(flow) / i["rho"] / (math.pi / 4 * bore**2)
    reynolds = i["rho"] * velocity * bore / i["mu"]
    factor = friction(reynolds, pipe["roughness_m"] / bore)
    loss = (factor * pipe["L_m"] / bore + pipe.get("K", 0)) * i["rho"] * velocity**2 / 2
    return math.copysign(loss, flow)


def laminar(reynolds, _roughness):
    return 64 / reynolds


def harp(i, same_side, friction=fluids.friction.Churchill_1977):
    """Flows of a harp's risers, the loss between its ends, and one header's loss over the loss of
    a riser that takes its equal share."""
    count = i["risers"]
    rough = i.get("roughness_m", 0.0)
    riser = {"L_m": i["riser_length_m"], "bore_m": i["riser_bore_m"], "roughness_m": rough}
    header = {"L_m": i["header_pitch_m"], "bore_m": i["header_bore_m"], "roughness_m": rough}
    total = i["total_kg_s"]

    def headers(flows):
        """Loss of each piece of the lower and the upper header, along the riser numbers."""
        lower, upper, passed = [], [], 0.0
        for flow in flows[:-1]:
            passed += flow
            lower.append(pipe_drop(i, header, total - passed, friction))
            # What went up so far flows on in the upper header; at the same side it comes back.
            back = -(total - passed) if same_side else passed
            upper.append(pipe_drop(i, header, back, friction))
        return lower, upper

    def balance(shares):
        flows = [share * total / count for share in shares]
        lower, upper = headers(flows)
        drops = [pipe_drop(i, riser, flow, friction) for flow in flows]
        scale = max(abs(drop) for drop in drops)
        loops = [
            (lower[n] + drops[n + 1] - upper[n] - drops[n]) / scale for n in range(count - 1)
        ]
        return loops + [sum(shares) / count - 1]

    # At first every riser takes its share, with a tilt that keeps the solver off the symmetry.
    start = [1 + 0.01 * (n - count / 2) for n in range(count)]
    solution = root(balance, start, method="hybr", tol=1e-13)
    assert max(abs(rest) for rest in balance(solution.x)) < 1e-9, solution.message
    flows = [share * total / count for share in solution.x]
    lower, upper = headers(flows)
    drops = [pipe_drop(i, riser, flow, friction) for flow in flows]
    # From the inlet (riser 1, below): up riser 1, then along the upper header to the outlet.
    whole = drops[0] + (0 if same_side else sum(upper))
    mean_drop = pipe_drop(i, riser, total / count, friction)
    return flows, whole, sum(lower) / mean_drop


def is_same_side(i):
    """Which of the two connections a harp's check means; only its title says."""
    return "same-side (U)" in i["title"] or "U connection" in i["title"]


@answers("B-HP-01", "B-HP-04", rel=SOLVED)
def harp_flows(i):
    flows, whole, ratio = harp(i, same_side=is_same_side(i))
    mean = i["total_kg_s"] / i["risers"]
    found = {f"r{n}": flow for n, flow in enumerate(flows, start=1)}
    return found | {
        "min_over_mean": min(flows) / mean,
        "max_over_mean": max(flows) / mean,
        "dp_total": whole,
        "header_over_riser": ratio,
    }


@answers("B-HP-05", rel=SOLVED)
def harp_linear(i):
    flows, _, _ = harp(i, same_side=False, friction=laminar)
    return {f"r{n}": flow for n, flow in enumerate(flows, start=1)}


@answers("B-MF-02", "B-MF-04", "B-MF-05", rel=SOLVED)
def harp_spread(i):
    flows, _, _ = harp(i, same_side=is_same_side(i))
    mean = i["total_kg_s"] / i["risers"]
    return {"min_dev": min(flows) / mean - 1, "max_dev": max(flows) / mean - 1}


# --- Thermosiphon ----------------------------------------------------------------------------


def density_kell_1975(t_c):
    over = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
    return sum(c * t_c**n for n, c in enumerate(over)) / (1 + 16.879850e-3 * t_c)


def viscosity_popiel_1998(t_c):
    under = (557.82468, 19.408782, 0.1360459, -3.1160832e-4)
    return 1 / sum(c * t_c**n for n, c in enumerate(under))


@answers("B-TS-01", "B-TS-03", rel=SOLVED)
def thermosiphon(i):
    cold_c = i["T_cold_leg_C"]
    legs = {"bore_m": i["pipe_bore_m"], "roughness_m": 1.5e-6}
    legs["K"] = i["K_total_split_half_each_leg"] / 2
    riser = {"L_m": i["riser_length_m"], "bore_m": i["riser_bore_m"], "roughness_m": 1.5e-6}

    def drop(pipe, flow, t_c):
        state = {"rho": density_kell_1975(t_c), "mu": viscosity_popiel_1998(t_c)}
        return pipe_drop(state, pipe, flow)

    def head(rise_k):
        cold, mean, hot = (density_kell_1975(cold_c + rise_k * x) for x in (0, 0.5, 1))
        above = i["hot_leg_rise_above_collector_top_m"] * (cold - hot)
        return GRAVITY_M_S2 * (above + i["collector_vertical_rise_m"] * (cold - mean))

    def left_over(flow):
        rise_k = i["heat_W"] / (flow * i["cp"])
        return (
            head(rise_k)
            - drop(legs | {"L_m": i["cold_leg_m"]}, flow, cold_c)
            - drop(riser, flow / i["risers"], cold_c + rise_k / 2)
            - drop(legs | {"L_m": i["hot_leg_m"]}, flow, cold_c + rise_k)
        )

    flow = brentq(left_over, 0.005, 0.1, xtol=1e-14, rtol=1e-14)
    rise_k = i["heat_W"] / (flow * i["cp"])
    return {"m_dot": flow, "dT": rise_k, "drive": head(rise_k)}


# --- Panels, pipes and a pump ----------------------------------------------------------------


def pump_pa(flow):
    """The curve that every pump check of the file states in words."""
    return 40000 * (1 - (flow / 0.30) ** 2)


def divide(i, total):
    """Shares of a flow that divides between A and B so that both lose the same pressure."""

    def left_over(flow_a):
        return pipe_drop(i, i["A"], flow_a) - pipe_drop(i, i["B"], total - flow_a)

    flow_a = brentq(left_over, 0, total, xtol=1e-15, rtol=1e-14)
    return flow_a, total - flow_a


@answers("G-01")
def two_pipes_laminar(i):
    """Laminar loss goes as the flow: the shares are those of D^4/L, in closed form."""
    sizes = [[float(x) for x in re.findall(r"[\d.]+", i[name])] for name in "AB"]
    ease = [(bore / 1000) ** 4 / length for length, bore in sizes]
    flows = [i["total_kg_s"] * x / sum(ease) for x in ease]
    loss = 128 * i["mu"] * flows[0] / (math.pi * i["rho"] * ease[0])
    return {"mA": flows[0], "mB": flows[1], "dp": loss}


@answers("G-20")
def mixed_outlet(i):
    warmed = {name: i["T_in_C"] + i["heat_each_W"] / (i[f"m{name}"] * i["cp"]) for name in "AB"}
    total = i["mA"] + i["mB"]
    mixed = sum(i[f"m{name}"] * warmed[name] for name in "AB") / total
    return {"T_A": warmed["A"], "T_B": warmed["B"], "T_mix": mixed}


@answers("G-02", rel=SOLVED)
def two_panels_parallel(i):
    flow_a, flow_b = divide(i, i["total_kg_s"])
    return {"mA": flow_a, "mB": flow_b, "dp": pipe_drop(i, i["A"], flow_a)}


@answers("G-04")
def two_panels_series(i):
    return {"dp": sum(pipe_drop(i, i[name], i["m_kg_s"]) for name in "AB")}


@answers("G-05", "G-11", rel=SOLVED)
def pump_and_panels(i):
    def left_over(flow):
        flow_a, _ = divide(i, flow)
        return pump_pa(flow) - pipe_drop(i, i["main"], flow) - pipe_drop(i, i["A"], flow_a)

    flow = brentq(left_over, 0.01, 0.3, xtol=1e-15, rtol=1e-14)
    flow_a, flow_b = divide(i, flow)
    return {"m": flow, "mA": flow_a, "mB": flow_b, "dp_pump": pump_pa(flow)}


@answers("G-08", rel=SOLVED)
def three_panels(i):
    total = i["total_kg_s"]
    panel, link = i["panel"], i["link"]

    def losses(flows):
        """Round each loop: a supply link there, the next panel, a return link back."""
        behind = (total - flows[0], flows[2])
        drops = [pipe_drop(i, panel, flow) for flow in flows]
        return [
            2 * pipe_drop(i, link, behind[n]) + drops[n + 1] - drops[n] for n in range(2)
        ], drops

    def balance(shares):
        flows = [share * total / 3 for share in shares]
        loops, drops = losses(flows)
        return [loop / max(drops) for loop in loops] + [sum(shares) / 3 - 1]

    solution = root(balance, [1.2, 1.0, 0.8], method="hybr", tol=1e-13)
    assert max(abs(rest) for rest in balance(solution.x)) < 1e-9, solution.message
    flows = [share * total / 3 for share in solution.x]
    found = {f"m{n}": flow for n, flow in enumerate(flows, start=1)}
    return found | {"dp": pipe_drop(i, panel, flows[0])}


@answers("G-13", rel=SOLVED)
def flow_at_a_loss(i):
    pipe = {"L_m": i["L_m"], "bore_m": i["bore_m"], "roughness_m": i["roughness_m"]}

    def left_over(flow):
        return pipe_drop(i, pipe, flow, fluids.friction.Colebrook) - i["dp_Pa"]

    flow = brentq(left_over, 0.01, 2.0, xtol=1e-15, rtol=1e-14)
    return {"m": flow, "Re": 4 * flow / (math.pi * i["bore_m"] * i["mu"])}


@answers("G-15", rel=SOLVED)
def hose_loop(i):
    def left_over(flow):
        return pump_pa(flow) - pipe_drop(i, i["hose"], flow) - pipe_drop(i, i["panel"], flow)

    flow = brentq(left_over, 0.01, 0.3, xtol=1e-15, rtol=1e-14)
    return {"m": flow, "dp_pump": pump_pa(flow)}


@answers("G-16", rel=SOLVED)
def open_tank_loop(i):
    parts = [i[name] for name in ("up", "panel", "down")]

    def left_over(flow):
        return pump_pa(flow) - sum(pipe_drop(i, part, flow) for part in parts)

    flow = brentq(left_over, 0.01, 0.3, xtol=1e-15, rtol=1e-14)
    weight_pa_m = i["rho"] * GRAVITY_M_S2
    suction = i["p_atm"] + weight_pa_m * (i["tank_level_above_panel_m"] + i["pump_below_panel_m"])
    enters = (
        suction
        + pump_pa(flow)
        - pipe_drop(i, i["up"], flow)
        - weight_pa_m * i["pump_below_panel_m"]
    )
    leaves = enters - pipe_drop(i, i["panel"], flow)
    boils_c = PropsSI("T", "P", leaves, "Q", 0, "Water") - ZERO_C_K
    return {"m": flow, "p_panel_in": enters, "p_panel_out": leaves, "T_boil_panel_out": boils_c}


answers.close()
