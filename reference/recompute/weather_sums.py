"""Recomputes reference/weather-sums.toml from the six files in samples/weather, with pvlib.

For each file: sums of the year for horizontal, diffuse and direct irradiance, mean air
temperature, and the total on a plane tilted 45 degrees that looks to the equator, by three models
of the sky. Ground reflectance 0.2; the sun stands where it stood at the instant a row means (see
`when`); direct light is dropped while the sun is less than 1 degree above the horizon.

`weather_sums.py write` prints a fresh table instead of comparing.
"""

import sys
import tomllib

import pandas as pd
import pvlib

from referee import REFERENCE, ROOT, Report

WEATHER = ROOT / "samples" / "weather"
TILT_DEG = 45
ALBEDO = 0.2
LOWEST_BEAM_DEG = 1


def read_pvgis_csv(path, offset_h):
    """UTC stamps; a row's irradiance is the value at an instant `offset_h` after its stamp."""
    with open(path, newline="") as file:
        lines = [line.strip() for line in file]
    start = next(i for i, line in enumerate(lines) if line.startswith("time(UTC)"))
    head = dict(line.split(": ") for line in lines[:start] if ": " in line)
    names = lines[start].split(",")
    cells = [line.split(",") for line in lines[start + 1 : start + 1 + 8760]]
    table = pd.DataFrame(cells, columns=names)
    stamps = pd.to_datetime(table["time(UTC)"], format="%Y%m%d:%H%M", utc=True)
    return {
        "place": [float(head[f"{name} (decimal degrees)"]) for name in ("Latitude", "Longitude")],
        "when": pd.DatetimeIndex(stamps) + pd.Timedelta(hours=offset_h),
        "ghi": table["G(h)"].astype(float).to_numpy(),
        "dni": table["Gb(n)"].astype(float).to_numpy(),
        "dhi": table["Gd(h)"].astype(float).to_numpy(),
        "air_c": table["T2m"].astype(float).to_numpy(),
    }


def read_epw(path, offset_h):
    """Local standard hours 1 to 24; `offset_h` from the label to the instant the sun counts at."""
    with open(path, newline="") as file:
        lines = [line.strip() for line in file]
    place = lines[0].split(",")
    table = pd.DataFrame([line.split(",") for line in lines[8 : 8 + 8760]])
    names = {0: "year", 1: "month", 2: "day"}
    day = pd.to_datetime(table[list(names)].astype(int).rename(columns=names))
    hours = table[3].astype(float) - float(place[8]) + offset_h
    when = pd.DatetimeIndex(day + pd.to_timedelta(hours, unit="h"), tz="UTC")
    return {
        "place": [float(place[6]), float(place[7])],
        "when": when,
        "ghi": table[13].astype(float).to_numpy(),
        "dni": table[14].astype(float).to_numpy(),
        "dhi": table[15].astype(float).to_numpy(),
        "air_c": table[6].astype(float).to_numpy(),
    }


def read_tmy3(path, offset_h):
    """Local standard labels 01:00 to 24:00; `offset_h` as for an EPW file."""
    with open(path, newline="") as file:
        place = next(file).split(",")
    table = pd.read_csv(path, skiprows=1)
    day = pd.to_datetime(table["Date (MM/DD/YYYY)"], format="%m/%d/%Y")
    label = table["Time (HH:MM)"].str.slice(0, 2).astype(float)
    hours = label - float(place[3]) + offset_h
    return {
        "place": [float(place[4]), float(place[5])],
        "when": pd.DatetimeIndex(day + pd.to_timedelta(hours, unit="h"), tz="UTC"),
        "ghi": table["GHI (W/m^2)"].astype(float).to_numpy(),
        "dni": table["DNI (W/m^2)"].astype(float).to_numpy(),
        "dhi": table["DHI (W/m^2)"].astype(float).to_numpy(),
        "air_c": table["Dry-bulb (C)"].astype(float).to_numpy(),
    }


# Reader, file, and the offset [h] that makes horizontal = diffuse + direct * cos(zenith) hold best.
FILES = {
    "belfast": (read_pvgis_csv, "pvgis-tmy_belfast_54.605_-5.929.csv", 0.2),
    "berlin": (read_pvgis_csv, "pvgis-tmy_berlin_52.496_13.414.csv", 0.2),
    "sicily": (read_epw, "pvgis-tmy_sicily_37.116_14.561.epw", 0.15),
    "villarrica": (read_pvgis_csv, "pvgis-tmy_villarrica-chile_-38.320_-71.960.csv", 0.0),
    "phoenix": (read_tmy3, "nrel-tmy3_phoenix-az_722780.csv", -0.5),
    "golden": (read_epw, "nrel-tmy3_golden-co_724666.epw", -0.5),
}


def sums(name):
    """The keys of one table of weather-sums.toml, with unrounded values."""
    reader, file, offset_h = FILES[name]
    year = reader(WEATHER / file, offset_h)
    assert len(year["ghi"]) == 8760, (name, len(year["ghi"]))
    latitude, longitude = year["place"]
    facing = 180 if latitude >= 0 else 0
    sun = pvlib.solarposition.get_solarposition(year["when"], latitude, longitude)
    zenith, azimuth = sun["zenith"].to_numpy(), sun["azimuth"].to_numpy()
    dni = year["dni"].clip(min=0) * (90 - zenith >= LOWEST_BEAM_DEG)
    extra = pvlib.irradiance.get_extra_radiation(year["when"]).to_numpy()
    airmass = pvlib.atmosphere.get_relative_airmass(sun["apparent_zenith"]).to_numpy()
    found = {
        "ghi_kwh_m2": year["ghi"].sum() / 1000,
        "diffuse_kwh_m2": year["dhi"].sum() / 1000,
        "dni_kwh_m2": year["dni"].sum() / 1000,
        "air_mean_c": year["air_c"].mean(),
    }
    for model in ("isotropic", "haydavies", "perez"):
        plane = pvlib.irradiance.get_total_irradiance(
            TILT_DEG, facing, zenith, azimuth, dni, year["ghi"], year["dhi"], dni_extra=extra,
            airmass=airmass, albedo=ALBEDO, model=model,
        )  # fmt: skip
        total = pd.Series(plane["poa_global"]).fillna(0).clip(lower=0)
        found[f"tilted_45_{model}_kwh_m2"] = total.sum() / 1000
    return found


if __name__ == "__main__":
    if sys.argv[1:] == ["write"]:
        for name in FILES:
            print(f"[{name}]\nfile = \"{FILES[name][1]}\"\noffset_h = {FILES[name][2]}")
            for key, value in sums(name).items():
                print(f"{key} = {value:.2f}")
            print()
        sys.exit(0)
    with open(REFERENCE / "weather-sums.toml", "rb") as file:
        committed = tomllib.load(file)
    report = Report()
    for name in FILES:
        for key, value in sums(name).items():
            # The table prints two decimals.
            report.compare(name, key, value, committed[name][key], absolute=0.0055)
    report.close(least=6 * 7)
