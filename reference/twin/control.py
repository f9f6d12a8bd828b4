"""Control: two probes, two differences, the store's limit (docs/method/control.md)."""

import math


class Controller:
    """A differential controller that looks once a minute, at its start. Temperatures in kelvin."""

    def __init__(self, given, panel_k, store_k):
        for rule in ("control.frost", "control.panel-stop"):
            if given.raw(rule) != "none":
                raise NotImplementedError(rule)
        self.on_k, self.off_k = given("control.on"), given("control.off")
        self.limit_k = given("control.store-limit") + 273.15
        self.reset_k = given("control.store-reset")
        self.panel_limit_k = given("control.panel-limit") + 273.15
        self.least_on_min = given("control.min-on") / 60
        self.least_off_min = given("control.min-off") / 60
        self.way = [1 - math.exp(-60 / given(f"control.{probe}-probe.lag")) for probe in ("panel", "store")]
        self.panel_k, self.store_k = panel_k, store_k
        self.full = self.runs = False
        self.minutes = 1e9  # since the pump last started or stopped

    def minute(self, panel_k, store_k):
        """Whether the pump runs in the minute that begins."""
        self.panel_k += self.way[0] * (panel_k - self.panel_k)
        self.store_k += self.way[1] * (store_k - self.store_k)
        if self.store_k >= self.limit_k:
            self.full = True
        elif self.store_k <= self.limit_k - self.reset_k:
            self.full = False
        apart = self.panel_k - self.store_k
        before = self.runs
        if self.runs:
            done = apart <= self.off_k and self.minutes >= self.least_on_min
            self.runs = not (self.full or done)
        else:
            # Whatever stopped it ended the call: it begins anew, and not above the panel's limit.
            calls = apart >= self.on_k and self.panel_k <= self.panel_limit_k
            self.runs = calls and not self.full and self.minutes >= self.least_off_min
        self.minutes = 1 if self.runs != before else self.minutes + 1
        return self.runs
