"""Panel: light taken up, heat lost, heat handed to the fluid (docs/method/panel.md)."""

import numpy as np

from build import HOURS
from sun import SIGMA

PLATE_K = np.arange(233.15, 473.15, 3.0)  # the temperatures at which an hour's loss is tabled


# --- light -----------------------------------------------------------------------------------------

def pane(cover, angle_deg):
    """Transmittance and reflectance of one pane (Duffie and Beckman 5.1 to 5.3)."""
    incident = np.radians(np.clip(angle_deg, 0.01, 89.99))
    refracted = np.arcsin(np.sin(incident) / cover["index"])
    passed = np.exp(-cover["extinction_1_m"] * cover["thickness_m"] / np.cos(refracted))
    across = (np.sin(refracted - incident) / np.sin(refracted + incident)) ** 2
    along = (np.tan(refracted - incident) / np.tan(refracted + incident)) ** 2
    tau = rho = 0.0
    for r in (across, along):
        t = passed * (1 - r) ** 2 / (1 - (r * passed) ** 2)
        tau, rho = tau + t / 2, rho + r * (1 + passed * t) / 2
    return tau, rho


def sky_angle_deg(tilt_deg):
    return 59.68 - 0.1388 * tilt_deg + 0.001497 * tilt_deg**2


def ground_angle_deg(tilt_deg):
    return 90 - 0.5788 * tilt_deg + 0.002693 * tilt_deg**2


def taken_up(panel, plane, shares, tilt_deg):
    """Light taken up per square metre of sheet (or of a certificate's area), W/m2 by the minute."""
    angle_deg = np.degrees(np.arccos(plane["normal"]))
    if panel["kind"] == "bought":
        diffuse = diffuse_modifier(*panel["modifier"])
        eta0 = panel["eta0_hemispherical"] / (0.85 + 0.15 * diffuse)  # ISO 9806: 15 % of it diffuse
        beam, sky = np.interp(angle_deg, *panel["modifier"]) * eta0, diffuse * eta0
        ground = sky
    else:
        cover, alpha = panel["cover"], panel["absorptance"]
        back = pane(cover, 60.0)[1]

        def product(angle):
            tau = pane(cover, angle)[0] * (1 - cover["dirt"])
            return tau * alpha / (1 - (1 - alpha) * back)

        beam = np.interp(angle_deg, np.linspace(0, 90, 361), product(np.linspace(0, 90, 361)))
        sky, ground = product(sky_angle_deg(tilt_deg)), product(ground_angle_deg(tilt_deg))
    return np.maximum(
        (plane["beam"] * shares["beam"] + plane["round_sun"] * shares["round_sun"]) * beam
        + (plane["sky"] * shares["sky"] + plane["horizon"] * shares["horizon"]) * sky
        + plane["ground"] * shares["ground"] * ground, 0.0)


def diffuse_modifier(angles_deg, values):
    """A certificate's modifier over the half space: the integral of K sin(2 angle)."""
    angle = np.radians((np.arange(9000) + 0.5) / 100)
    return np.sum(np.interp(np.degrees(angle), angles_deg, values) * np.sin(2 * angle)) * np.radians(0.01)


# --- heat lost -------------------------------------------------------------------------------------

def air(mean_k):
    """Conductivity, kinematic viscosity and diffusivity of air at sea level (Sutherland's forms)."""
    k = 2.64638e-3 * mean_k**1.5 / (mean_k + 245.4 * 10 ** (-12 / mean_k))
    density = 101325 / (287.05 * mean_k)
    return k, 1.458e-6 * mean_k**1.5 / (mean_k + 110.4) / density, k / (1006 * density)


def nusselt_gap(rayleigh, tilt_deg):
    """Hollands 1976."""
    steep = np.maximum(rayleigh * np.cos(np.radians(tilt_deg)), 1e-9)
    first = np.maximum(0, 1 - 1708 / steep) * (1 - 1708 * np.sin(np.radians(1.8 * tilt_deg)) ** 1.6 / steep)
    return 1 + 1.44 * first + np.maximum(0, (steep / 5830) ** (1 / 3) - 1)


def top_loss(panel, tilt_deg, plate_k, air_k, sky_k, film_w_m2k):
    """Loss upwards, W/m2: plate, cover's inner and outer face, sky. The arrays broadcast."""
    cover, e_plate = panel["cover"], panel["emittance"]
    e, t = cover["emittance"], cover["longwave"]
    r = 1 - e - t
    plate_k, air_k, sky_k, film = np.broadcast_arrays(plate_k, air_k, sky_k, film_w_m2k)
    plate, sky = SIGMA * plate_k**4, SIGMA * sky_k**4
    inner_k, outer_k = 0.5 * (plate_k + air_k), 0.4 * plate_k + 0.6 * air_k
    # A cover that passes long-wave light is thin: one face.
    wall = 1e6 if t > 0 else 1 / cover["resistance_m2k_w"]

    def gap(plate_k, inner_k):
        mean = (plate_k + inner_k) / 2
        k, viscosity, diffusivity = air(mean)
        rise = plate_k - inner_k
        rayleigh = 9.81 * np.maximum(rise, 0) * panel["gap_m"] ** 3 / (mean * viscosity * diffusivity)
        return nusselt_gap(rayleigh, tilt_deg) * k / panel["gap_m"]

    def leaving(inner_k):
        """What the plate sends out by light: emitted, and thrown back of what comes from the cover."""
        return (e_plate * plate + (1 - e_plate) * (e * SIGMA * inner_k**4 + t * sky)) / (1 - (1 - e_plate) * r)

    for turn in range(200):
        h = gap(plate_k, inner_k)
        # Newton on the two faces, the gap's coefficient held within a turn.
        e_in, e_out = e * SIGMA * inner_k**4, e * SIGMA * outer_k**4
        slope = (1 - e_plate) * e * 4 * e * SIGMA * inner_k**3 / (1 - (1 - e_plate) * r)
        f_in = h * (plate_k - inner_k) + e * leaving(inner_k) - e_in - wall * (inner_k - outer_k)
        f_out = wall * (inner_k - outer_k) - film * (outer_k - air_k) - e_out + e * sky
        a = h + 4 * e_in / inner_k - slope + wall
        d = wall + film + 4 * e_out / outer_k
        determinant = a * d - wall * wall
        step_in, step_out = (f_in * d + f_out * wall) / determinant, (f_out * a + f_in * wall) / determinant
        inner_k, outer_k = inner_k + 0.8 * step_in, outer_k + 0.8 * step_out
        if max(np.abs(step_in).max(), np.abs(step_out).max()) < 1e-5:
            break
    else:
        raise ArithmeticError("the cover's temperature did not settle")
    arriving = e * SIGMA * inner_k**4 + t * sky + r * leaving(inner_k)
    return gap(plate_k, inner_k) * (plate_k - inner_k) + leaving(inner_k) - arriving


def through_layers(layers, inside_k, outside_k):
    """Heat through layers in series, W/m2, each one's conductivity at its own mean temperature."""
    inside_k, outside_k = np.broadcast_arrays(inside_k, outside_k)
    faces = [inside_k + (outside_k - inside_k) * i / len(layers) for i in range(len(layers) + 1)]
    for _ in range(30):
        resistances = [
            layer["thickness_m"] / (layer["k10_w_mk"] * (1 + layer["growth_1_k"] * ((a + b) / 2 - 283.15)))
            for layer, a, b in zip(layers, faces, faces[1:])
        ]
        flux = (inside_k - outside_k) / sum(resistances)
        faces = [inside_k]
        for resistance in resistances:
            faces.append(faces[-1] - flux * resistance)
    return flux


def loss(panel, tilt_deg, plate_k, air_k, sky_k, film_w_m2k):
    """All a square metre of sheet loses."""
    if panel["kind"] == "bought":
        rise = plate_k - air_k
        return panel["a1"] * rise + panel["a2"] * rise * np.abs(rise)
    behind = through_layers(panel["back"], plate_k, air_k)
    edge = through_layers([panel["edge"]], plate_k, air_k) * panel["edge"]["area_m2"] / panel["area_m2"]
    joints = 0.5 * panel["air_changes_1_h"] / 3600 * 1.2 * 1006 * panel["gap_m"] * (plate_k - air_k)
    return top_loss(panel, tilt_deg, plate_k, air_k, sky_k, film_w_m2k) + behind + edge + joints


def loss_table(panel, tilt_deg, air_k, sky_k, film_w_m2k):
    """An hour's loss at each temperature of PLATE_K: HOURS rows."""
    rows = [
        loss(panel, tilt_deg, PLATE_K[None, :], *(x[part, None] for x in (air_k, sky_k, film_w_m2k)))
        for part in np.array_split(np.arange(HOURS), 24)
    ]
    return np.concatenate(rows)


# --- sheet and tubes -------------------------------------------------------------------------------

def usual_loss(panel, tilt_deg):
    """W/m2K at a sheet of 40 C, air of 10 C, sky of 0 C and a film of 10 W/m2K."""
    kelvin = [np.array([c + 273.15]) for c in (40, 10, 0)]
    return float(loss(panel, tilt_deg, *kelvin, np.array([10.0]))[0]) / 30


def removal(panel, loss_w_m2k, capacity_w_k, film_w_m2k):
    """FR: what the whole sheet hands over, of what it would if it were as cool as the entering fluid."""
    if panel["kind"] == "bought":
        units = loss_w_m2k * panel["area_m2"] / capacity_w_k
        return (1 - np.exp(-units)) / units
    tube = panel["tube"]
    conductance = panel["sheet_k_w_mk"] * panel["sheet_m"]
    m = np.sqrt(loss_w_m2k / conductance)
    link = 1 / (
        1 / panel["bond_w_mk"] + np.log(tube["outside_m"] / tube["bore_m"]) / (2 * np.pi * tube["wall_w_mk"])
        + 1 / (np.pi * tube["bore_m"] * film_w_m2k)
    )
    legs, between_m = panel["legs"], panel["spacing_m"] - tube["outside_m"]
    run_m = panel["leg_m"]
    # Sheet beyond the tubes, beside them and past their ends, lies beside the outermost.
    rim_m = (panel["area_m2"] / run_m - (legs - 1) * panel["spacing_m"]) / 2
    outer_m = rim_m - tube["outside_m"] / 2
    rim = conductance * m * np.tanh(m * outer_m)
    if panel["pattern"] == "harp":
        half = conductance * m * np.tanh(m * between_m / 2)
        taken = 0.0
        for fins in [half + rim] * 2 + [2 * half] * (legs - 2):
            strip = loss_w_m2k * tube["outside_m"] + fins  # what the strip sheds per metre and kelvin
            units = 1 / (1 / strip + 1 / link) * run_m * legs / capacity_w_k
            taken += capacity_w_k / legs * (1 - np.exp(-units))
        return taken / (loss_w_m2k * panel["area_m2"])
    # Serpentine: neighbours' bases coupled by the fin between them, fluid to and fro.
    own, mutual = conductance * m / np.tanh(m * between_m), conductance * m / np.sinh(m * between_m)
    base = np.zeros((legs, legs))
    for j in range(legs):
        base[j, j] = loss_w_m2k * tube["outside_m"] + link
        for neighbour in (j - 1, j + 1):
            if 0 <= neighbour < legs:
                base[j, j] += own
                base[j, neighbour] -= mutual
            else:
                base[j, j] += rim
    sheet_per_fluid = np.linalg.solve(base, np.eye(legs) * link)
    ways = np.diag([1.0 if j % 2 == 0 else -1.0 for j in range(legs)])
    along = ways @ (link * (sheet_per_fluid - np.eye(legs))) / capacity_w_k
    values, vectors = np.linalg.eig(along * run_m)
    across = (vectors * np.exp(values)) @ np.linalg.inv(vectors)
    # Unknown: fluid of each leg at x = 0. Joined at x = L after even legs, at x = 0 after odd ones.
    joins = np.zeros((legs, legs), complex)
    entering = np.zeros(legs)
    joins[0, 0], entering[0] = 1, 1
    for j in range(1, legs):
        joins[j] = across[j - 1] - across[j] if j % 2 else np.eye(legs)[j - 1] - np.eye(legs)[j]
    start = np.linalg.solve(joins, entering)
    leaving = (start if legs % 2 == 0 else across @ start)[legs - 1].real
    return capacity_w_k * (1 - leaving) / (loss_w_m2k * panel["area_m2"])


def closing(panel, loss_w_m2k, capacity_w_k, film_w_m2k):
    """The share e of its distance from the sheet that a stream closes in one of two segments."""
    a = panel["area_m2"] * loss_w_m2k / (2 * capacity_w_k)
    r = np.sqrt(1 - removal(panel, loss_w_m2k, capacity_w_k, film_w_m2k) * 2 * a)
    return a * (1 - r) / (a - (1 - r))


def heat_capacity(panel, fluid_j_m3k):
    """J/K of the whole panel (weights of ISO 9806): sheet, tubes, contents 1, insulation 0.5, cover 0.06."""
    if panel["kind"] == "bought":
        return panel["capacity_j_k"]
    metal = panel["area_m2"] * panel["sheet_m"] * panel["sheet_j_m3k"]
    tubes = sum(
        length * (tube["metal_j_mk"] + tube["bore_m2"] * fluid_j_m3k) for tube, length in panel["tubes_in_panel"])
    back = sum(layer["thickness_m"] * layer["capacity_j_m3k"] for layer in panel["back"]) * panel["area_m2"]
    edge = panel["edge"]["thickness_m"] * panel["edge"]["capacity_j_m3k"] * panel["edge"]["area_m2"]
    cover = panel["cover"]["thickness_m"] * panel["cover"]["capacity_j_m3k"] * panel["area_m2"]
    return metal + tubes + 0.5 * (back + edge) + 0.06 * cover
