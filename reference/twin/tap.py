"""Tap: draws by the minute, mains, the heater behind the store (docs/method/tap.md)."""

import numpy as np

import build
from build import HOURS
from store import WATER_J_M3K


def minute_of(time):
    hours, minutes = time.split(":")
    return int(hours) * 60 + int(minutes)


def draws(given):
    """Cubic metres drawn in each minute of the year."""
    month = build.month_of_hour()[0].reshape(365, 24)[:, 0]
    day = np.zeros(1440)
    if given.raw("tap.draw") and isinstance(given.raw("tap.draw"), list):
        factor = np.ones(365)
        for own in given.raw("tap.draw"):
            first, count = minute_of(own["time"]), int(build.quantity(own["lasts"]) / 60)
            day[first:first + count] += build.quantity(own["volume"]) / count
    else:
        household = build.catalogue("household")
        litres = 25 * given.raw("tap.people") + 36
        factor = np.array(household["month_factor"])[month]
        for share in household["draw"]:
            first = minute_of(share["time"])
            day[first:first + share["minutes"]] += litres * 1e-3 * share["share"] / share["minutes"]
    year = factor[:, None] * day[None, :]
    days = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30])
    for first, last in given.raw("tap.holidays", []):
        first, last = (days[int(text[:2]) - 1] + int(text[3:]) - 1 for text in (first, last))
        year[first:last + 1] = 0
    return year.ravel()


def mains_k(given, air_c):
    """Cold water by the hour, K."""
    kind = given.raw("tap.mains")
    hour = np.arange(HOURS) + 0.5
    month = build.month_of_hour()[0]
    if kind == "from-climate":
        means = np.array([air_c[month == m].mean() for m in range(12)]) * 1.8 + 32
        mean = air_c.mean() * 1.8 + 32
        ratio, lag = 0.4 + 0.01 * (mean - 44), 35 - (mean - 44)
        turned = -90 if given.raw("latitude_deg") >= 0 else 90
        day = np.floor(hour / 24) + 1
        wave = np.sin(np.radians(0.986 * (day - 15 - lag) + turned))
        cold_f = mean + 6 + ratio * (means.max() - means.min()) / 2 * wave
        return (cold_f - 32) / 1.8 + 273.15
    year = next(year for year in build.catalogue("cold-water")["year"] if year["id"] == kind)
    middles = np.array([hour[month == m].mean() for m in range(12)])
    return np.interp(hour, middles, year["c"], period=HOURS) + 273.15


class Heater:
    """What brings the store's water to the delivery temperature."""

    def __init__(self, given):
        self.delivery_k = given("tap.delivery") + 273.15
        self.cylinder_m3 = None
        if given.raw("tap.heater.kind") == "cylinder":
            self.cylinder_m3 = given("tap.heater.volume")
            self.loss_w_k = given("tap.heater.loss")
            self.room_k = given("tap.heater.room") + 273.15
            self.t = self.delivery_k

    def minute(self, volume_m3, water_k):
        """Heat given in a minute in which a volume of the store's water goes through, J."""
        if self.cylinder_m3 is None:
            return volume_m3 * WATER_J_M3K * max(self.delivery_k - water_k, 0.0)
        capacity = self.cylinder_m3 * WATER_J_M3K
        stays = np.exp(-volume_m3 / self.cylinder_m3)
        mixed_k = self.t * stays + water_k * (1 - stays)
        lifted_k = max(mixed_k, self.delivery_k)
        cooled_k = lifted_k - self.loss_w_k * (lifted_k - self.room_k) * 60 / capacity
        self.t = max(cooled_k, self.delivery_k)
        return capacity * (lifted_k - mixed_k + self.t - cooled_k)
