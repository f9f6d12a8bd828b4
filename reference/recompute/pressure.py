"""Recomputes the sealed-pipe checks of reference/hydraulics-checks.toml with CoolProp and scipy.

A pipe full of water gains pressure with warmth, the less so the softer the pipe and the more air is
left in it.
"""

from CoolProp.CoolProp import PropsSI
from scipy.optimize import brentq

from referee import ZERO_C_K, Answers

answers = Answers("hydraulics-checks.toml")
BAR = 1e5


def compliance(i, kappa):
    """Water's and pipe's yielding together [1/Pa]: thin wall, closed ends, free to stretch."""
    bore = i["OD_m"] - 2 * i["wall_m"]
    pipe = bore / (i["wall_m"] * i["E_Pa"]) * (1.25 - i["poisson"])
    return kappa + pipe


@answers("D-13", "D-15")
def tight_pipe(i):
    # The check names no pressure; its growth and compressibility are those of water at 6 bar.
    state = ("T", i["T_C"] + ZERO_C_K, "P", 6 * BAR, "Water")
    beta = PropsSI("ISOBARIC_EXPANSION_COEFFICIENT", *state)
    kappa = PropsSI("ISOTHERMAL_COMPRESSIBILITY", *state)
    total = compliance(i, kappa)
    rises = beta - 3 * i["alpha_1_K"]
    return {
        "beta_minus_3alpha": rises,
        "compliance_total": total,
        "dp_dT": rises / total / BAR,
        "mL_per_L_per_bar": total * BAR * 1000,
    }


def volume_left(i, p2_pa, t2_c):
    """What water and air want at the second state, less what the pipe offers [l]."""
    p1_pa = i["p1_bar_abs"] * BAR
    air_l = i["air_L_at_p1"]
    warmer, more = t2_c - i["T1_C"], p2_pa - p1_pa
    water = i["water_L"] * (1 + i["beta_1_K"] * warmer - i["kappa_1_Pa"] * more)
    air = air_l * (p1_pa / p2_pa) * (t2_c + ZERO_C_K) / (i["T1_C"] + ZERO_C_K)
    stretch = 1 + 3 * i["alpha_1_K"] * warmer + i["pipe_compliance_1_Pa"] * more
    return water + air - (i["water_L"] + air_l) * stretch


def settled_pa(i):
    return brentq(lambda p: volume_left(i, p, i["T2_C"]), 0.1 * BAR, 100 * BAR, xtol=1e-6)


@answers("D-16", "D-18")
def pipe_with_air(i):
    p2 = settled_pa(i) / BAR
    return {"p2": p2, "change": p2 - i["p1_bar_abs"]}


@answers("D-19")
def water_lost(i):
    lost_ml = 1000 * volume_left(i, i["p2_bar_abs"] * BAR, i["T2_C"])
    return {"lost": lost_ml, "p2_if_tight": settled_pa(i) / BAR}


answers.close()
