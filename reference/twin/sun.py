"""Sun: from the weather's rows to the light in the panel's plane by the minute (docs/method/sun.md)."""

import numpy as np

import build
from build import HOURS

SOLAR_CONSTANT_W_M2 = 1361.0
SIGMA = 5.670374e-8
MINUTES = HOURS * 60

# Perez 1990, all sites: lower bound of clearness e, then f11 f12 f13 f21 f22 f23.
PEREZ = np.array([
    [1.000, -0.008, 0.588, -0.062, -0.060, 0.072, -0.022], [1.065, 0.130, 0.683, -0.151, -0.019, 0.066, -0.029],
    [1.230, 0.330, 0.487, -0.221, 0.055, -0.064, -0.026], [1.500, 0.568, 0.187, -0.295, 0.109, -0.152, -0.014],
    [1.950, 0.873, -0.392, -0.362, 0.226, -0.462, 0.001], [2.800, 1.132, -1.237, -0.412, 0.288, -0.823, 0.056],
    [4.500, 1.060, -1.600, -0.359, 0.264, -1.127, 0.131], [6.200, 0.678, -0.327, -0.250, 0.156, -1.377, 0.251],
])


def position(utc_h, latitude_deg, longitude_deg):
    """Declination, hour angle (rad) and distance factor, hours since 1 January 2021 UTC.

    Low-precision series of the Astronomical Almanac.
    """
    days = 2459215.5 - 2451545.0 + utc_h / 24
    mean_longitude = 280.460 + 0.9856474 * days
    anomaly = np.radians(357.528 + 0.9856003 * days)
    longitude = np.radians(mean_longitude + 1.915 * np.sin(anomaly) + 0.020 * np.sin(2 * anomaly))
    obliquity = np.radians(23.439 - 4e-7 * days)
    ascension = np.degrees(np.arctan2(np.cos(obliquity) * np.sin(longitude), np.cos(longitude)))
    declination = np.arcsin(np.sin(obliquity) * np.sin(longitude))
    equation_deg = (mean_longitude - ascension + 180) % 360 - 180
    hour_angle = np.radians((15 * (utc_h % 24) - 180 + longitude_deg + equation_deg + 180) % 360 - 180)
    distance = 1.00014 - 0.01671 * np.cos(anomaly) - 0.00014 * np.cos(2 * anomaly)
    return declination, hour_angle, distance**-2


def sun_vector(declination, hour_angle, latitude_deg):
    """The sun's direction: east, north, up."""
    p = np.radians(latitude_deg)
    return (
        -np.cos(declination) * np.sin(hour_angle),
        np.sin(declination) * np.cos(p) - np.cos(declination) * np.sin(p) * np.cos(hour_angle),
        np.sin(p) * np.sin(declination) + np.cos(p) * np.cos(declination) * np.cos(hour_angle),
    )


def level_light(weather, clock_h):
    """Global and diffuse light on the level by the household's minute, and where the sun stands."""
    place = weather["latitude_deg"], weather["longitude_deg"]
    minute_utc_h = ((np.arange(MINUTES) + 0.5) / 60 - clock_h) % HOURS
    declination, hour_angle, near = position(minute_utc_h, *place)
    east, north, up = sun_vector(declination, hour_angle, place[0])
    above = np.maximum(up, 0) * SOLAR_CONSTANT_W_M2 * near

    row_h = np.arange(HOURS) + weather["offset_h"]
    row_declination, row_angle, row_near = position(row_h, *place)
    row_up = sun_vector(row_declination, row_angle, place[0])[2]
    light, diffuse = weather["global_w_m2"], weather["diffuse_w_m2"]
    high = row_up > np.sin(np.radians(2.0))
    clearness = held(row_h[high], light[high] / (row_up[high] * SOLAR_CONSTANT_W_M2 * row_near[high]), row_h)
    lit = high & (light > 0)
    share = held(row_h[lit], np.minimum(diffuse[lit] / light[lit], 1.0), row_h)
    clearness = np.interp(minute_utc_h, row_h, clearness, period=HOURS)
    share = np.interp(minute_utc_h, row_h, share, period=HOURS)

    shaped = clearness * above
    # Each day, from the sun's midnight, gets its rows' sum.
    row_day, day = ((((h + place[1] / 15) % HOURS) // 24).astype(int) for h in (row_h, minute_utc_h))
    wanted, got = np.bincount(row_day, light, 365), np.bincount(day, shaped, 365) / 60
    shaped *= np.divide(wanted, got, out=np.zeros(365), where=got > 0)[day]
    beam_normal = np.where(up > 1e-6, shaped * (1 - share) / np.maximum(up, 1e-6), 0.0)
    beam_normal = np.minimum(beam_normal, SOLAR_CONSTANT_W_M2 * near)
    return {
        "global": shaped, "diffuse": shaped - beam_normal * np.maximum(up, 0), "beam_normal": beam_normal,
        "east": east, "north": north, "up": up, "extra": SOLAR_CONSTANT_W_M2 * near,
    }


def held(lit_h, value, row_h):
    """Rows without the value take that of the nearest row that has it."""
    after = np.searchsorted(lit_h, row_h).clip(0, len(lit_h) - 1)
    before = (after - 1).clip(0)
    nearer = np.where(np.abs(lit_h[before] - row_h) < np.abs(lit_h[after] - row_h), before, after)
    return value[nearer]


def plane_light(light, tilt_deg, facing_deg, albedo):
    """What falls on the plane by where it comes from (Perez 1990), W/m2 by the minute."""
    b, f = np.radians(tilt_deg), np.radians(facing_deg)
    normal = light["east"] * np.sin(b) * np.sin(f) + light["north"] * np.sin(b) * np.cos(f) + light["up"] * np.cos(b)
    slope = -light["east"] * np.cos(b) * np.sin(f) - light["north"] * np.cos(b) * np.cos(f) + light["up"] * np.sin(b)
    across = np.sqrt(np.maximum(1 - normal**2 - slope**2, 0))
    cos_i, up = np.maximum(normal, 0), light["up"]
    diffuse, beam = light["diffuse"], light["beam_normal"]
    zenith = np.arccos(np.clip(up, 0, 1))
    altitude_deg = 90 - np.degrees(zenith)
    # Kasten and Young 1989; Young 1994, which the page names, lies within 0.6 % of it.
    mass = 1 / (np.maximum(up, 0) + 0.50572 * (altitude_deg + 6.07995) ** -1.6364)
    lit = diffuse > 0
    z3 = 1.041 * zenith**3
    e = (np.divide(diffuse + beam, diffuse, out=np.ones_like(beam), where=lit) + z3) / (1 + z3)
    _, f11, f12, f13, f21, f22, f23 = PEREZ[np.searchsorted(PEREZ[:, 0], e, side="right").clip(1) - 1].T
    d = diffuse * mass / light["extra"]
    f1 = np.maximum(0, f11 + f12 * d + f13 * zenith)
    f2 = f21 + f22 * d + f23 * zenith
    months = np.repeat(build.month_of_hour()[0], 60)
    return {
        "beam": beam * cos_i,
        "round_sun": diffuse * f1 * cos_i / np.maximum(np.cos(np.radians(85)), up),
        "sky": diffuse * (1 - f1) * (1 + np.cos(b)) / 2,
        "horizon": diffuse * f2 * np.sin(b),
        "ground": light["global"] * np.asarray(albedo)[months] * (1 - np.cos(b)) / 2,
        "normal": cos_i, "slope": slope, "across": across,
    }


def walls(plane, box, tilt_deg):
    """The share of each kind of light that the box's own walls leave to the sheet."""
    if box is None:
        return {kind: 1.0 for kind in ("beam", "round_sun", "sky", "horizon", "ground")}

    def lit(across, slope, normal):
        n = np.maximum(normal, 1e-6)
        a = np.clip(box["rise_m"] * np.abs(across) / n - box["gap_m"], 0, box["width_m"])
        b = np.clip(box["rise_m"] * np.abs(slope) / n - box["gap_m"], 0, box["length_m"])
        return (1 - a / box["width_m"]) * (1 - b / box["length_m"])

    # Even light: the half space before the plane in steps of equal cosine-weighted size.
    sin_t = np.sqrt((np.arange(400) + 0.5) / 400)[:, None]
    turn = ((np.arange(720) + 0.5) / 720 * 2 * np.pi)[None, :]
    across, slope, normal = sin_t * np.cos(turn), sin_t * np.sin(turn), np.sqrt(1 - sin_t**2) + 0 * turn
    t = np.radians(tilt_deg)
    height = slope * np.sin(t) + normal * np.cos(t)
    open_share = lit(across, slope, normal)
    band = (height > 0) & (height < np.sin(np.radians(6.5)))
    shares = {"sky": open_share[height > 0].mean(), "horizon": open_share[band].mean()}
    shares["ground"] = open_share[height < 0].mean()
    shares["beam"] = shares["round_sun"] = lit(plane["across"], plane["slope"], plane["normal"])
    return shares


def readings(weather, clock_h, shelter, film):
    """Air, sky (K) and the wind's film (W/m2K) at mid-hour of the household's clock."""
    mid_h = (np.arange(HOURS) + 0.5 - clock_h) % HOURS

    def at(name):
        return np.interp(mid_h, np.arange(HOURS), weather[name], period=HOURS)

    depth_m, power = {"open": (270, 0.14), "suburban": (370, 0.22), "hollow": (460, 0.33)}[shelter]
    wind_m_s = at("wind_m_s") * (270 / 10) ** 0.14 * (5 / depth_m) ** power
    film_w_m2k = {"watmuff-1977": 2.8 + 3 * wind_m_s, "mcadams-1954": 5.7 + 3.8 * wind_m_s}[film]
    return at("air_c") + 273.15, (at("infrared_w_m2") / SIGMA) ** 0.25, film_w_m2k
