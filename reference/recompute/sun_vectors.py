"""Recomputes every row of reference/sun-vectors.csv with pvlib, as the file's header describes.

Tolerance: half a unit of the last printed digit, with a tenth more for the last bit of a double.
"""

import pandas as pd
import pvlib

from referee import REFERENCE, Report, read_csv

LAST_DIGIT = {
    "azimuth": 4, "zenith": 4, "app_zenith": 4, "eot_min": 4, "etr_spencer": 3, "etr_cooper": 3,
    "aoi": 4, "erbs_kt": 5, "erbs_dhi": 3, "erbs_dni": 3, "airmass": 5, "poa_beam": 3,
    "poa_ground": 3, "sky_iso": 3, "sky_haydavies": 3, "sky_perez": 3, "poa_haydavies": 3,
    "poa_perez": 3,
}  # fmt: skip


def recompute(row):
    """The computed columns of one row, from its place, instant, plane and global irradiance."""
    times = pd.DatetimeIndex([row["utc"]])
    tilt, surface_azimuth = float(row["tilt"]), float(row["surf_az"])
    sun = pvlib.solarposition.get_solarposition(
        times, float(row["lat"]), float(row["lon"]), altitude=0, pressure=101325,
        temperature=12, method="nrel_numpy", delta_t=67.0,
    ).iloc[0]  # fmt: skip
    day = times[0].day_of_year
    etr = float(pvlib.irradiance.get_extra_radiation(day, solar_constant=1366.1, method="spencer"))
    found = {
        "doy": day,
        "azimuth": sun["azimuth"],
        "zenith": sun["zenith"],
        "app_zenith": sun["apparent_zenith"],
        "eot_min": sun["equation_of_time"],
        "etr_spencer": etr,
        "etr_cooper": 1367 * (1 + 0.033 * pvlib.tools.cosd(360 * day / 365)),
        "aoi": pvlib.irradiance.aoi(tilt, surface_azimuth, sun["zenith"], sun["azimuth"]),
    }
    if row["ghi"] == "":
        return found

    ghi = float(row["ghi"])
    # Its Erbs reckons the extraterrestrial irradiance from the index by itself, by Spencer.
    split = pvlib.irradiance.erbs(ghi, sun["zenith"], times)
    dhi, dni = float(split["dhi"].iloc[0]), float(split["dni"].iloc[0])
    airmass = pvlib.atmosphere.get_relative_airmass(sun["apparent_zenith"], "kastenyoung1989")
    plane = (tilt, surface_azimuth)
    position = (sun["zenith"], sun["azimuth"])
    beam = dni * max(pvlib.tools.cosd(found["aoi"]), 0)
    ground = pvlib.irradiance.get_ground_diffuse(tilt, ghi, albedo=0.2)
    hay_davies = pvlib.irradiance.haydavies(*plane, dhi, dni, etr, *position)
    perez = pvlib.irradiance.perez(
        *plane, pd.Series([dhi]), pd.Series([dni]), etr, *position, airmass
    ).iloc[0]  # fmt: skip
    found |= {
        "erbs_kt": float(split["kt"].iloc[0]),
        "erbs_dhi": dhi,
        "erbs_dni": dni,
        "airmass": airmass,
        "poa_beam": beam,
        "poa_ground": ground,
        "sky_iso": pvlib.irradiance.isotropic(tilt, dhi),
        "sky_haydavies": hay_davies,
        "sky_perez": perez,
        "poa_haydavies": beam + ground + hay_davies,
        "poa_perez": beam + ground + perez,
    }
    return found


report = Report()
rows = read_csv(REFERENCE / "sun-vectors.csv")
for row in rows:
    found = recompute(row)
    assert int(row["doy"]) == found.pop("doy"), row
    for column, digits in LAST_DIGIT.items():
        if row[column] == "":
            assert column not in found, (row["id"], column)
            continue
        report.compare(
            column, f"row {row['id']} ({row['place']})", float(found[column]), float(row[column]),
            absolute=0.55 * 10.0**-digits,
        )  # fmt: skip
report.close(least=40 * 7 + 37 * 11)
