"""Recomputes the fluids, friction, film and coil checks of reference/hydraulics-checks.toml.

CoolProp, fluids and ht do the physics, scipy the coil's wall temperature. Each function answers
the checks named above it from their own inputs.
"""

import math
import re

import fluids
import ht
from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

from referee import GRAVITY_M_S2, ZERO_C_K, Answers

GLYCOL = {"PG": "INCOMP::MPG", "EG": "INCOMP::MEG"}
LETTERS = {"rho": "D", "cp": "C", "mu": "V", "k": "L"}

answers = Answers("hydraulics-checks.toml")


def water(letter, t_c, p_pa):
    return PropsSI(letter, "T", t_c + ZERO_C_K, "P", p_pa, "Water")


def glycol(letter, fluid, mass_percent, t_c):
    name = f"{GLYCOL[fluid]}[{mass_percent / 100:.12f}]"
    return PropsSI(letter, "T", t_c + ZERO_C_K, "P", 2e5, name)


def boiling_c(p_pa):
    return PropsSI("T", "P", p_pa, "Q", 0, "Water") - ZERO_C_K


def number(text):
    """The first number in a piece of text such as `10 m, bore 6.8 mm`."""
    return float(re.search(r"[-+]?\d+(\.\d+)?", text)[0])


# --- A: fluids -------------------------------------------------------------------------------


@answers("A-W-01")
def water_density(i):
    return {f"rho_{t}C": water("D", t, i["p_bar_abs"] * 1e5) for t in i["T_C"]}


@answers("A-W-02")
def water_transport(i):
    state = (i["T_C"], i["p_bar_abs"] * 1e5)
    return {key: water(LETTERS[key], *state) for key in ("mu", "cp", "k")}


@answers("A-W-04")
def water_growth(i):
    cold, hot = (water("D", i[key], i["p_bar_abs"] * 1e5) for key in ("T1_C", "T2_C"))
    return {"growth": 100 * (cold / hot - 1)}


@answers("A-W-05")
def water_boiling(i):
    return {f"Tsat_{p}bar": boiling_c(p * 1e5) for p in i["p_bar_abs"]}


@answers("A-G-01", "A-G-02", "A-G-05")
def glycol_properties(i):
    state = (i["fluid"], i["mass_percent"], i["T_C"])
    found = {key: glycol(letter, *state) for key, letter in LETTERS.items()}
    # The polynomial gives ln(mPa s). CoolProp carries ln(1000) in six decimals, the check in full.
    found["mu"] *= 0.001 / math.exp(-6.907755)
    return found


# The check drops the temperature terms of the polynomial, CoolProp keeps them: 0.01 K.
@answers("A-F-01", rel=6e-4)
def glycol_freezing(i):
    return {f"Tf_{w}": glycol("T_FREEZE", i["fluid"], w, 20) - ZERO_C_K for w in i["mass_percent"]}


@answers("A-X-01")
def glycol_growth(i):
    cold, hot = (glycol("D", i["fluid"], i["mass_percent"], i[key]) for key in ("T1_C", "T2_C"))
    return {"growth": 100 * (cold / hot - 1)}


@answers("D-01")
def glycol_expansion(i):
    cold, hot = (glycol("D", "PG", number(i["fluid"]), i[key]) for key in ("T1_C", "T2_C"))
    return {"e": cold / hot - 1}


@answers("A-B-01")
def glycol_boiling(i):
    """Raoult: the water's share of the molecules times its vapour pressure is the atmosphere."""
    found = {}
    for fluid in ("PG", "EG"):
        w = i[f"{fluid}_mass_fraction"]
        moles_water, moles_glycol = (1 - w) / i["M_water"], w / i[f"M_{fluid}"]
        found[f"{fluid}50vol"] = boiling_c(101325 * (moles_water + moles_glycol) / moles_water)
    return found


# The density is printed with six digits: 0.02 Pa at 5 m, 3e-6 K.
@answers("D-08", rel=4e-8)
def boiling_below_a_tank(i):
    return {
        f"T_{h:g}m": boiling_c(i["p_atm_Pa"] + i["rho"] * GRAVITY_M_S2 * h) for h in i["head_m"]
    }


@answers("D-10")
def boiling_on_a_mountain(i):
    p_atm = 101325 * (1 - 2.25577e-5 * i["altitude_m"]) ** 5.25588
    density = water("D", 20, 2e5)
    return {"p_atm": p_atm, "T_boil": boiling_c(p_atm + density * GRAVITY_M_S2 * i["head_m"])}


@answers("B-ST-01")
def static_head(i):
    density = water("D", i["T_C"], 2e5)
    return {f"p_{h}m": density * i["g"] * h / 1e5 for h in i["h_m"]}


@answers("D-22")
def vessel_in_the_cold(i):
    warm, cold = (glycol("D", "PG", number(i["fluid"]), i[key]) for key in ("T1_C", "T2_C"))
    shrink = i["fluid_L_at_T1"] * (1 - warm / cold)
    gas = i["gas_L"]
    p2 = i["p1_bar_abs"] * gas / (gas + shrink) * (i["T2_C"] + ZERO_C_K) / (i["T1_C"] + ZERO_C_K)
    return {"fluid_shrink": shrink, "p2": p2}


# --- B: friction, fittings, film coefficients ------------------------------------------------


@answers("B-FF-01", "B-FF-03")
def friction_laminar(i):
    return {
        "f_laminar": fluids.friction.friction_laminar(i["Re"]),
        "f_churchill1977": fluids.friction.Churchill_1977(i["Re"], i["eD"]),
    }


@answers("B-FF-04", "B-FF-05", "B-FF-06", "B-FF-08", "B-FF-10")
def friction_turbulent(i):
    return {
        "f_colebrook": fluids.friction.Colebrook(i["Re"], i["eD"]),
        "f_churchill1977": fluids.friction.Churchill_1977(i["Re"], i["eD"]),
    }


@answers("B-CU-01", "B-CU-03")
def copper_tables(i):
    bore = (i["OD_mm"] - 2 * i["wall_mm"]) / 1000
    found = {}
    for m_dot in i["m_dot_kg_s"]:
        velocity = m_dot / i["rho"] / (math.pi / 4 * bore**2)
        reynolds = i["rho"] * velocity * bore / i["mu"]
        friction = fluids.friction.Colebrook(reynolds, i["roughness_m"] / bore)
        found[f"dp_{m_dot}"] = friction / bore * i["rho"] * velocity**2 / 2
    return found


@answers("B-K-05", "B-K-07")
def two_k(i):
    inches = i["bore_m"] / 0.0254
    return {"K": fluids.fittings.Hooper2K(inches, i["Re"], K1=i["K1"], Kinfty=i["Kinf"])}


@answers("B-NU-01")
def nusselt_laminar(i):
    return {
        "constant_wall_T": ht.conv_internal.laminar_T_const(),
        "constant_flux": ht.conv_internal.laminar_Q_const(),
    }


def smooth_friction(reynolds):
    return (0.79 * math.log(reynolds) - 1.64) ** -2


@answers("B-NU-02", "B-NU-04", "B-NU-06")
def nusselt_turbulent(i):
    friction = smooth_friction(i["Re"])
    return {"Nu": ht.conv_internal.turbulent_Gnielinski(Re=i["Re"], Pr=i["Pr"], fd=friction)}


@answers("B-NU-07", "B-NU-09")
def nusselt_developing(i):
    entry = {"Re": i["Re"], "Pr": i["Pr"], "L": i["L_m"], "Di": i["bore_m"]}
    return {
        "Nu_hausen": ht.conv_internal.laminar_entry_thermal_Hausen(**entry),
        "Nu_baehr_stephan": ht.conv_internal.laminar_entry_Baehr_Stephan(**entry),
    }


# --- C: the immersed coil --------------------------------------------------------------------


def film_inside(i):
    """Reynolds number and film coefficient [W/(m2 K)] in the coil's tube, straight."""
    bore = i["Di_m"]
    velocity = i["m_dot"] / i["inside_rho"] / (math.pi / 4 * bore**2)
    reynolds = i["inside_rho"] * velocity * bore / i["inside_mu"]
    prandtl = i["inside_cp"] * i["inside_mu"] / i["inside_k"]
    assert reynolds >= 2300, "every case of this group is turbulent"
    nusselt = ht.conv_internal.turbulent_Gnielinski(
        Re=reynolds, Pr=prandtl, fd=smooth_friction(reynolds)
    )
    return reynolds, nusselt * i["inside_k"] / bore


def grashof_prandtl(i, wall_c):
    """Still water around the tube, at the film temperature and 1.2 bar."""
    film_c, pressure = (wall_c + i["T_still_C"]) / 2, 1.2e5
    density, viscosity = water("D", film_c, pressure), water("V", film_c, pressure)
    growth = water("ISOBARIC_EXPANSION_COEFFICIENT", film_c, pressure)
    warmer = wall_c - i["T_still_C"]
    grashof = GRAVITY_M_S2 * growth * warmer * i["Do_m"] ** 3 * (density / viscosity) ** 2
    return grashof, water("PRANDTL", film_c, pressure), water("L", film_c, pressure)


def churchill_chu(grashof, prandtl):
    return ht.Nu_horizontal_cylinder_Churchill_Chu(Pr=prandtl, Gr=grashof)


def xin_ebadian(grashof, prandtl):
    return 0.290 * (grashof * prandtl) ** 0.293


def coil(i, nusselt_outside):
    """The wall's outer temperature at which as much heat comes as goes, and what follows."""
    reynolds, inside = film_inside(i)
    outer_m2, inner_m2 = (math.pi * i[key] * i["L_m"] for key in ("Do_m", "Di_m"))
    wall_k_w = math.log(i["Do_m"] / i["Di_m"]) / (2 * math.pi * i["k_wall"] * i["L_m"])
    to_wall_k_w = 1 / (inside * inner_m2) + wall_k_w

    def outside(wall_c):
        grashof, prandtl, conductivity = grashof_prandtl(i, wall_c)
        return nusselt_outside(grashof, prandtl) * conductivity / i["Do_m"]

    def left_over(wall_c):
        comes = (i["T_inside_bulk_C"] - wall_c) / to_wall_k_w
        return comes - outside(wall_c) * outer_m2 * (wall_c - i["T_still_C"])

    wall_c = brentq(left_over, i["T_still_C"] + 0.01, i["T_inside_bulk_C"] - 0.01, xtol=1e-11)
    ua = 1 / (to_wall_k_w + 1 / (outside(wall_c) * outer_m2))
    return {
        "Re": reynolds,
        "h_in": inside,
        "h_out": outside(wall_c),
        "T_wall_out": wall_c,
        "UA": ua,
        "U_outer": ua / outer_m2,
        "effectiveness": 1 - math.exp(-ua / (i["m_dot"] * i["inside_cp"])),
    }


@answers("C-01", "C-03", "C-05")
def coil_straight(i):
    return coil(i, churchill_chu)


@answers("C-11")
def coil_wound(i):
    found = coil(answers.inputs(i["like"]), xin_ebadian)
    return {key: found[key] for key in ("h_out", "UA")}


@answers("C-06")
def helix_transition(i):
    return {"Re_crit_schmidt": fluids.friction.helical_transition_Re_Schmidt(i["Di_m"], i["Dc_m"])}


@answers("C-08")
def helix_laminar(i):
    helix = (i["Re"], i["Di_m"], i["Dc_m"])
    return {
        "dean": fluids.core.Dean(Re=i["Re"], Di=i["Di_m"], D=i["Dc_m"]),
        "f_straight": fluids.friction.friction_laminar(i["Re"]),
        "f_schmidt": fluids.friction.helical_laminar_fd_Schmidt(*helix),
        "f_white": fluids.friction.helical_laminar_fd_White(*helix),
    }


@answers("C-10")
def helix_turbulent(i):
    helix = {"Re": i["Re"], "Di": i["Di_m"], "Dc": i["Dc_m"]}
    friction = smooth_friction(i["Re"])
    return {
        "Nu_schmidt": ht.conv_internal.helical_turbulent_Nu_Schmidt(Pr=i["Pr"], **helix),
        "Nu_straight_gnielinski": ht.conv_internal.turbulent_Gnielinski(
            Re=i["Re"], Pr=i["Pr"], fd=friction
        ),
        "f_schmidt": fluids.friction.helical_turbulent_fd_Schmidt(**helix),
        "f_straight": fluids.friction.Blasius(i["Re"]),
    }


answers.close()
