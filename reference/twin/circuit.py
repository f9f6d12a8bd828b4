"""Circuit: the fluid, the friction, the working point, the pipes (docs/method/circuit.md)."""

import numpy as np

G = 9.81

# Melinder 2010, propylene glycol: i, j, density, heat capacity, conductivity, ln(viscosity in mPa s).
MELINDER_BASE = 30.7031, 32.7083
MELINDER = np.array([
    [0, 0, 1018, 3882, 0.4513, 0.6837], [0, 1, -0.5406, 2.699, 0.0007955, -0.03045],
    [0, 2, -0.002666, -0.001659, 3.482e-08, 0.0002525], [0, 3, 1.347e-05, -1.032e-05, -5.966e-09, -1.399e-06],
    [1, 0, 0.7604, -13.04, -0.004795, 0.03328], [1, 1, -0.00945, 0.0507, -1.678e-05, -0.0003984],
    [1, 2, 5.541e-05, -4.752e-05, 8.941e-08, 4.332e-06], [1, 3, -1.343e-07, 1.522e-06, 1.493e-10, -1.86e-08],
    [2, 0, -0.002498, -0.1598, 2.076e-05, 5.453e-05], [2, 1, 2.7e-05, 9.534e-05, 1.563e-07, -8.6e-08],
    [2, 2, -4.018e-07, 1.167e-05, -4.615e-09, -1.593e-08], [2, 3, 3.376e-09, -4.87e-08, 9.897e-12, -4.465e-11],
    [3, 0, -0.000155, 0.0003539, -9.083e-08, -3.9e-06], [3, 1, 2.829e-06, 3.102e-05, -2.518e-09, 1.054e-07],
    [3, 2, -7.175e-09, -2.95e-07, 6.543e-11, -1.589e-09], [4, 0, -1.131e-06, 5e-05, -5.952e-10, -1.587e-08],
    [4, 1, -2.221e-08, -7.135e-07, -3.605e-11, 4.475e-10], [5, 0, 2.342e-08, -4.959e-07, 2.104e-11, 3.564e-09],
])


def glycol(mass_share, c):
    """Density, heat capacity, conductivity and viscosity of propylene glycol in water."""
    x, t = 100 * mass_share - MELINDER_BASE[0], min(c, 100.0) - MELINDER_BASE[1]
    terms = x ** MELINDER[:, 0] * t ** MELINDER[:, 1]
    density, heat, conductivity, viscosity = terms @ MELINDER[:, 2:]
    return {"density": density, "heat": heat, "k": conductivity, "viscosity": np.exp(viscosity) * 1e-3}


def mass_share(volume_share):
    """Volumes before mixing, at 20 C."""
    heavy = volume_share * 1036.1
    return heavy / (heavy + (1 - volume_share) * 998.2)


def water(c):
    """Kell 1975; Popiel and Wojtkowiak 1998; IAPWS SR6-08. With the expansion by Kell's slope."""
    def kell(c):
        top = 999.83952 + c * (16.945176 + c * (-7.9870401e-3 + c * (-46.170461e-6 + c * (
            105.56302e-9 - 280.54253e-12 * c))))
        return top / (1 + 16.879850e-3 * c)

    c = np.clip(c, 0.5, 100.0)
    s = (c + 273.15) / 300
    density = kell(c)
    return {
        "density": density,
        "heat": 4217.4356 - 5.6181625 * c + 1.2992528 * c**1.5 - 0.11535353 * c**2 + 4.14964e-3 * c**2.5,
        "k": 1.6630 * s**-1.15 - 1.7781 * s**-3.4 + 1.1567 * s**-6.0 - 0.432115 * s**-7.6,
        "viscosity": 1e-6 * (280.68 * s**-1.9 + 511.45 * s**-7.7 + 61.131 * s**-19.6 + 0.45903 * s**-40.0),
        "expansion": -(kell(c + 0.01) - kell(c - 0.01)) / 0.02 / density,
    }


def friction(reynolds, roughness):
    """Churchill 1977, Darcy's factor."""
    a = (2.457 * np.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * roughness))) ** 16
    b = (37530 / reynolds) ** 16
    return 8 * ((8 / reynolds) ** 12 + (a + b) ** -1.5) ** (1 / 12)


def critical_reynolds(ratio):
    return 2300 * (1 + 8.6 * ratio**0.45)


def helix_friction(reynolds, ratio, roughness):
    """Schmidt 1967, bridged by a straight line from the critical Reynolds number to 1.25 times that."""
    def laminar(re):
        return 64 / re * (1 + 0.14 * ratio**0.97 * re ** (1 - 0.644 * ratio**0.312))

    def turbulent(re):
        if re < 22000:
            return friction(re, roughness) * (1 + 28800 / re * ratio**0.62)
        return friction(re, roughness) * (1 + 0.0823 * (1 + ratio) * ratio**0.53 * re**0.25)

    critical = critical_reynolds(ratio)
    if reynolds <= critical:
        return laminar(reynolds)
    if reynolds >= 1.25 * critical:
        return turbulent(reynolds)
    share = (reynolds / critical - 1) / 0.25
    return (1 - share) * laminar(critical) + share * turbulent(1.25 * critical)


def pipe_drop(flow_kg_s, fluid, bore_m, length_m, figure, roughness_m=1.5e-6, ratio=None):
    """Pressure drop of one run: friction along it and single losses on its velocity."""
    velocity = flow_kg_s / (fluid["density"] * np.pi / 4 * bore_m**2)
    reynolds = max(fluid["density"] * velocity * bore_m / fluid["viscosity"], 1e-3)
    if ratio is None:
        factor = friction(reynolds, roughness_m / bore_m)
    else:
        factor = helix_friction(reynolds, ratio, roughness_m / bore_m)
    return (factor * length_m / bore_m + figure) * fluid["density"] * velocity**2 / 2


def solve_rising(function, low, high):
    """Where a rising function is nought, by halving."""
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if function(middle) < 0 else (low, middle)
    return (low + high) / 2


def harp_drop(flow_kg_s, fluid, harp):
    """A ladder of risers between two headers whose return leaves at the far end: equal drop by every way.

    Solved by Newton's method on the risers' flows.
    """
    count = harp["legs"]
    flows = np.full(count, flow_kg_s / count)

    def short(flows):
        supply = flow_kg_s - np.cumsum(flows)[:-1]
        back = np.cumsum(flows)[:-1]
        riser = [pipe_drop(f, fluid, harp["tube"]["bore_m"], harp["leg_m"], 1.5) for f in flows]

        def link(f):
            return pipe_drop(f, fluid, harp["header"]["bore_m"], harp["spacing_m"], 0.0)

        # Between neighbours: riser j and then the return header, or the supply header and riser j + 1.
        loops = [riser[j] + link(back[j]) - link(supply[j]) - riser[j + 1] for j in range(count - 1)]
        total = riser[-1] + sum(link(f) for f in supply)
        return np.array(loops + [flows.sum() - flow_kg_s]), total

    for _ in range(12):
        now, _ = short(flows)
        step = flow_kg_s * 1e-6
        slopes = np.array([(short(flows + step * np.eye(count)[j])[0] - now) / step for j in range(count)]).T
        flows = flows - np.linalg.solve(slopes, now)
    return short(flows)[1], flows


def bank_drop(flow_kg_s, fluid, panel):
    if panel["kind"] == "bought":
        # The certificate's drop as a figure on the velocity in its stub, from water at 20 C.
        at_test = panel["test_flow_m3_s"] / (np.pi / 4 * panel["port_m"] ** 2)
        figure = panel["test_drop_pa"] / (998.2 * at_test**2 / 2)
        return pipe_drop(flow_kg_s, fluid, panel["port_m"], 0.0, figure)
    if panel["pattern"] == "harp":
        return harp_drop(flow_kg_s, fluid, panel)[0]
    legs = panel["legs"]
    return pipe_drop(flow_kg_s, fluid, panel["tube"]["bore_m"], legs * panel["leg_m"], 1.5 * (legs - 1))


def working_point(build, fluid):
    """Flow, kg/s, at which the pump's head meets the friction."""
    curve_m3_s, curve_m = zip(*build["pump"])

    def head_m(flow_m3_s):
        if flow_m3_s <= curve_m3_s[-1]:
            return np.interp(flow_m3_s, curve_m3_s, curve_m)
        slope = (curve_m[-1] - curve_m[-2]) / (curve_m3_s[-1] - curve_m3_s[-2])
        return curve_m[-1] + slope * (flow_m3_s - curve_m3_s[-1])

    coil = build["coil"]

    def short(flow_kg_s):
        lost = bank_drop(flow_kg_s, fluid, build["panel"])
        for pipe in (build["return_pipe"], build["flow_pipe"]):
            lost += pipe_drop(flow_kg_s, fluid, pipe["bore_m"], pipe["length_m"], pipe["figure"])
        ratio = coil["bore_m"] / coil["turn_m"]
        lost += pipe_drop(flow_kg_s, fluid, coil["bore_m"], coil["length_m"], 0.0, ratio=ratio)
        return lost - head_m(flow_kg_s / fluid["density"]) * fluid["density"] * G

    return solve_rising(short, 1e-5, curve_m3_s[-1] * fluid["density"] * 1.5)


def nusselt_tube(reynolds, prandtl, ratio):
    """Straight tube at even flux: developing laminar, Gnielinski 1976, a straight line between (2013).

    `ratio` is bore over length.
    """
    def laminar(re):
        return (4.364**3 + 0.6**3 + (1.953 * (re * prandtl * ratio) ** (1 / 3) - 0.6) ** 3) ** (1 / 3)

    def turbulent(re):
        f = (0.79 * np.log(re) - 1.64) ** -2 / 8
        return f * (re - 1000) * prandtl / (1 + 12.7 * np.sqrt(f) * (prandtl ** (2 / 3) - 1))

    if reynolds <= 2300:
        return laminar(reynolds)
    if reynolds >= 4000:
        return turbulent(reynolds)
    share = (reynolds - 2300) / 1700
    return (1 - share) * laminar(2300) + share * turbulent(4000)


def nusselt_helix(reynolds, prandtl, ratio, length_ratio):
    """Schmidt 1967, bridged as the friction is; `ratio` is bore over the diameter of a turn.

    Laminar it is never less than a straight tube at an even wall, of bore over length `length_ratio`.
    """
    def laminar(re):
        power = 0.5 + 0.2903 * ratio**0.194
        wound = 3.65 + 0.08 * (1 + 0.8 * ratio**0.9) * re**power * prandtl ** (1 / 3)
        entry = 1.615 * (re * prandtl * length_ratio) ** (1 / 3) - 0.7
        return max(wound, (3.66**3 + 0.7**3 + entry**3) ** (1 / 3))

    def turbulent(re):
        if re < 22000:
            power = 0.8 - 0.22 * ratio**0.1
            return 0.023 * (1 + 14.8 * (1 + ratio) * ratio ** (1 / 3)) * re**power * prandtl ** (1 / 3)
        return 0.023 * (1 + 3.6 * (1 - ratio) * ratio**0.8) * re**0.8 * prandtl ** (1 / 3)

    critical = critical_reynolds(ratio)
    if reynolds <= critical:
        return laminar(reynolds)
    share = min((reynolds / critical - 1) / 0.25, 1.0)
    if share == 1.0:
        return turbulent(reynolds)
    return (1 - share) * laminar(critical) + share * turbulent(1.25 * critical)


def film(flow_kg_s, fluid, bore_m, nusselt, *ratios):
    """Film coefficient inside a tube, W/m2K."""
    reynolds = 4 * flow_kg_s / (np.pi * bore_m * fluid["viscosity"])
    prandtl = fluid["viscosity"] * fluid["heat"] / fluid["k"]
    return nusselt(reynolds, prandtl, *ratios) * fluid["k"] / bore_m


def pipe_node(pipe, coil, fluid_j_m3k):
    """One of a pipe's two nodes: heat capacity, and what it loses to the loft and outdoors, W/K."""
    capacity = pipe["length_m"] * (pipe["metal_j_mk"] + pipe["bore_m2"] * fluid_j_m3k)
    capacity += coil["length_m"] * coil["bore_m2"] * fluid_j_m3k / 2
    lagged_m = pipe["outside_m"] + 2 * pipe["lagging_m"]

    def per_metre(film_w_m2k):
        shells = np.log(pipe["outside_m"] / pipe["bore_m"]) / pipe["wall_w_mk"]
        shells += np.log(lagged_m / pipe["outside_m"]) / pipe["lagging_w_mk"]
        return 1 / (shells / (2 * np.pi) + 1 / (np.pi * lagged_m * film_w_m2k))

    out = pipe["outdoor_share"]
    return {
        "capacity_j_k": capacity / 2,
        "loft_w_k": (1 - out) * per_metre(10) * pipe["length_m"] / 2,
        "outdoor_w_k": out * per_metre(25) * pipe["length_m"] / 2,
    }
