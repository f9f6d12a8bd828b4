"""Recomputes every row of reference/fluid-vectors.csv with CoolProp.

Tolerance: 6e-8 relative, since the file prints eight significant digits. The glycol's volume
fraction is turned into a mass fraction by the densities at 20 C named below; the file prints the
mass fraction with six decimals, so it is recomputed here in full.
"""

from CoolProp.CoolProp import PropsSI

from referee import REFERENCE, Report, read_csv

ZERO_C_K = 273.15
INCOMPRESSIBLE = {"PG": "INCOMP::MPG", "EG": "INCOMP::MEG"}
# Densities of the pure liquids at 20 C [kg/m3]; from memory, as check A-V-01 has them.
PURE_20C_KG_M3 = {"PG": 1036.1, "EG": 1113.2, "water": 998.2}
COLUMNS = {"rho_kg_m3": "D", "cp_J_kgK": "C", "mu_Pa_s": "V", "k_W_mK": "L"}


def mass_fraction(row):
    """Glycol's share of the mass, 0 to 1."""
    share = float(row["fraction"])
    if row["basis"] != "volume":
        return share
    glycol = share * PURE_20C_KG_M3[row["fluid"]]
    return glycol / (glycol + (1 - share) * PURE_20C_KG_M3["water"])


def name_of(row):
    """What CoolProp calls this fluid at this strength."""
    if row["fluid"] == "water":
        return "Water"
    return f"{INCOMPRESSIBLE[row['fluid']]}[{mass_fraction(row):.15f}]"


def freezing_c(row):
    """Temperature at which the first ice forms [C]."""
    return PropsSI("T_FREEZE", "T", 300, "P", 2e5, name_of(row)) - ZERO_C_K


def growth_percent(row):
    """Growth of the volume from 10 C to 90 C at 2 bar, as percent of the cold volume."""
    cold, hot = (
        PropsSI("D", "T", t_c + ZERO_C_K, "P", 2e5, name_of(row)) for t_c in (10, 90)
    )  # fmt: skip
    return 100 * (cold / hot - 1)


report = Report()
rows = read_csv(REFERENCE / "fluid-vectors.csv")
for number, row in enumerate(rows, start=2):
    where = f"line {number} ({row['kind']} {row['fluid']} {row['fraction']} by {row['basis']})"
    group = f"{row['fluid']} {row['kind']}"
    if row["fluid"] != "water":
        report.compare("mass fraction", where, mass_fraction(row), float(row["w_mass"]),
                       absolute=6e-7)  # fmt: skip
    match row["kind"]:
        case "property":
            state = ("T", float(row["T_C"]) + ZERO_C_K, "P", float(row["p_bar_abs"]) * 1e5)
            for column, letter in COLUMNS.items():
                report.compare(f"{group} {column}", where, PropsSI(letter, *state, name_of(row)),
                               float(row[column]), rel=6e-8)  # fmt: skip
        case "saturation":
            boils_c = PropsSI("T", "P", float(row["p_bar_abs"]) * 1e5, "Q", 0, "Water") - ZERO_C_K
            report.compare(group, where, boils_c, float(row["Tsat_C"]), rel=6e-8)
        case "freeze":
            report.compare(group, where, freezing_c(row), float(row["T_freeze_C"]), rel=6e-8)
        case "expansion_10_90":
            report.compare(group, where, growth_percent(row), float(row["expansion_pct"]), rel=6e-8)
        case kind:
            raise SystemExit(f"fluid-vectors.csv line {number}: unknown kind {kind}")
report.close(least=272 * 4 + 14 + 22 + 21)
