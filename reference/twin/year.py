"""The year: nodes of panel, pipes and store marched by the minute, beside the twin (docs/method/year.md).

With the pump running all nodes go together by the classical Runge-Kutta rule of fourth order in steps
of fifteen seconds; at rest each goes by itself.
"""

import numpy as np

import build as files
import circuit
import control
import panel as panel_page
import store as store_page
import sun
import tap
from build import HOURS

STEPS = 4  # in a minute with the pump running
RUN_IN_H = 12 * 24


class Plant:
    """What the march needs by the circuit's temperature: capacity rate, shares closed, coil."""

    CIRCUIT_C = np.arange(-20.0, 161.0, 5.0)

    def __init__(self, build):
        panel, coil = build["panel"], build["coil"]
        usual = panel_page.usual_loss(panel, build["tilt_deg"])
        self.rate_w_k, self.closes, films = [], [], []
        for c in self.CIRCUIT_C:
            fluid = circuit.glycol(build["glycol"], c)
            flow = circuit.working_point(build, fluid)
            rate = flow * fluid["heat"]
            inside = 0.0
            if panel["kind"] != "bought":
                harp = panel["pattern"] == "harp"
                tube_m = panel["leg_m"] if harp else panel["legs"] * panel["leg_m"]
                bore = panel["tube"]["bore_m"]
                inside = circuit.film(
                    flow / (panel["legs"] if harp else 1), fluid, bore, circuit.nusselt_tube, bore / tube_m)
            films.append(circuit.film(
                flow, fluid, coil["bore_m"], circuit.nusselt_helix, coil["bore_m"] / coil["turn_m"],
                coil["bore_m"] / coil["length_m"]))
            self.rate_w_k.append(float(rate))
            self.closes.append(float(panel_page.closing(panel, usual, rate, inside)))
        self.coil = store_page.CoilTable(coil, lambda c: np.interp(c, self.CIRCUIT_C, films))
        fluid = circuit.glycol(build["glycol"], 40.0)
        fluid_j_m3k = fluid["density"] * fluid["heat"]
        self.segment_j_k = float(panel_page.heat_capacity(panel, fluid_j_m3k)) / 2
        self.pipes = [
            {k: float(v) for k, v in circuit.pipe_node(build[name], coil, fluid_j_m3k).items()}
            for name in ("return_pipe", "flow_pipe")
        ]
        self.coil_m = store_page.coil_lengths(build["tank"], coil).tolist()

    def at(self, circuit_c):
        place = (circuit_c - self.CIRCUIT_C[0]) / 5
        i = min(max(int(place), 0), len(self.CIRCUIT_C) - 2)
        b = place - i
        return (
            self.rate_w_k[i] * (1 - b) + self.rate_w_k[i + 1] * b,
            self.closes[i] * (1 - b) + self.closes[i + 1] * b,
        )


class Forcing:
    """What weather and household impose: light by the minute, the rest by the hour."""

    def __init__(self, given, build):
        weather = files.read_weather(given.path.parent / given.raw("sun.weather"))
        given.written["latitude_deg"] = weather["latitude_deg"]
        clock_h = float(str(given.raw("sun.clock")).split()[0])
        albedo = given.raw("sun.albedo")
        albedo = np.full(12, albedo) if isinstance(albedo, float) else np.array(albedo)
        facing = {"north": 0.0, "east": 90.0, "south": 180.0, "west": 270.0}[given.raw("sun.facing")]
        light = sun.level_light(weather, clock_h)
        plane = sun.plane_light(light, build["tilt_deg"], facing, albedo)
        shares = sun.walls(plane, build["panel"]["box"], build["tilt_deg"])
        total = sum(plane[kind] for kind in ("beam", "round_sun", "sky", "horizon", "ground"))
        self.plane_kwh_m2 = total.sum() / 60e3
        taken = panel_page.taken_up(build["panel"], plane, shares, build["tilt_deg"])
        self.taken_w_m2 = taken.reshape(HOURS, 60)
        self.air_k, sky_k, film = sun.readings(weather, clock_h, given.raw("sun.shelter"), given.raw("sun.wind-film"))
        self.loss = panel_page.loss_table(build["panel"], build["tilt_deg"], self.air_k, sky_k, film)
        weight = given("store.loft.outdoor-weight")
        indoors = given("store.loft.indoor") + 273.15
        roof = given("store.loft.roof-sun") * total.reshape(HOURS, 60).mean(1)
        self.loft_k = weight * self.air_k + (1 - weight) * indoors + roof
        self.mains_k = tap.mains_k(given, self.air_k - 273.15)
        self.draws_m3 = tap.draws(given).reshape(HOURS, 60)


def march(given, build, plant, forcing, with_panel):
    """The run-in and the year; energies in kWh."""
    heater = tap.Heater(given)
    start_h = HOURS - RUN_IN_H
    start_k = float(forcing.loft_k[start_h])
    tank = store_page.Store(build["tank"], start_k)
    air_k = float(forcing.air_k[start_h])
    # Return pipe, segments, flow pipe: two nodes each, in the order of the flow.
    loop = [start_k, start_k, air_k, air_k, start_k, start_k]
    controller = control.Controller(given, air_k, start_k)
    leaving_k = None  # fluid leaving the panel while it flows
    area, spot = build["panel"]["area_m2"], build["probe_layer"]
    opening_k = files.quantity(given.raw("store.overheat.open", "1000 C")) + 273.15
    first_k, step_k = float(panel_page.PLATE_K[0]), float(panel_page.PLATE_K[1] - panel_page.PLATE_K[0])
    names = ("panel_heat", "circuit_loss", "coil_heat", "store_loss", "tap_heat", "need_heat", "topup_heat", "drawn")
    book = dict.fromkeys(names, 0.0)
    minutes = 0

    for hour in list(range(start_h, HOURS)) + list(range(HOURS)):
        if hour == 0:
            book, minutes = dict.fromkeys(names, 0.0), 0
        loft_k, air_k, mains_k = (float(x[hour]) for x in (forcing.loft_k, forcing.air_k, forcing.mains_k))
        taken, losses = forcing.taken_w_m2[hour].tolist(), forcing.loss[hour].tolist()
        draws = forcing.draws_m3[hour].tolist()

        def loss(t):
            place = (t - first_k) / step_k
            i = int(place)
            return losses[i] + (losses[i + 1] - losses[i]) * (place - i)

        for minute in range(60):
            volume = draws[minute]
            if volume > 0:
                out_k = tank.pass_water(volume / 2, mains_k)
            runs = with_panel and controller.minute(loop[3] if leaving_k is None else leaving_k, tank.t[spot])
            if not runs:
                leaving_k = None
                if with_panel:
                    gain = taken[minute]
                    for i in (2, 3):
                        for _ in range(2):
                            middle = loop[i] + 15 * area / 2 * (gain - loss(loop[i])) / plant.segment_j_k
                            loop[i] += 30 * area / 2 * (gain - loss(middle)) / plant.segment_j_k
                    for i in (0, 1, 4, 5):
                        book["circuit_loss"] += cool(loop, i, plant.pipes[i // 4], loft_k, air_k)
                book["store_loss"] += tank.stand(loft_k)
            else:
                minutes += 1
                leaving_k = run_minute(loop, tank, plant, area, taken[minute], loss, loft_k, air_k, book)
            if volume > 0:
                out_k = (out_k + tank.pass_water(volume / 2, mains_k)) / 2
                carried = volume * store_page.WATER_J_M3K
                book["tap_heat"] += carried * (out_k - mains_k)
                book["need_heat"] += carried * (heater.delivery_k - mains_k)
                book["topup_heat"] += heater.minute(volume, out_k)
                book["drawn"] += volume * 3.6e9
            else:
                book["topup_heat"] += heater.minute(0.0, 0.0)
            if tank.t[-1] >= opening_k:
                raise NotImplementedError("the overheat discharge is not written here")
    year = {name: value / 3.6e6 for name, value in book.items()}
    return year | {"pump_hours": minutes / 60}


def cool(loop, i, pipe, loft_k, air_k):
    """A standing pipe node's exact minute; returns the heat lost, J."""
    whole = pipe["loft_w_k"] + pipe["outdoor_w_k"]
    around_k = (pipe["loft_w_k"] * loft_k + pipe["outdoor_w_k"] * air_k) / whole
    before = loop[i]
    loop[i] = around_k + (before - around_k) * np.exp(-60 * whole / pipe["capacity_j_k"])
    return (before - loop[i]) * pipe["capacity_j_k"]


def run_minute(loop, tank, plant, area, taken, loss, loft_k, air_k, book):
    """A minute with the pump running; returns the fluid leaving the panel at its end."""
    rate, closes = plant.at(circuit_k(loop) - 273.15)
    back, out = plant.pipes
    layers = tank.count
    losses, conduction = tank.loss_w_k.tolist(), tank.conduction_w_k
    coil = [(j, length) for j, length in enumerate(plant.coil_m) if length > 0][::-1]  # in at the top
    size = 60 / STEPS

    def slopes(y, shares):
        """Change of every node a second; then panel heat, circuit loss, coil heat and store loss, W."""
        heats = [0.0] * layers
        stream, coil_heat = y[5], 0.0
        for (j, _), share in zip(coil, shares):
            heat = rate * share * (stream - y[6 + j])
            stream -= share * (stream - y[6 + j])
            heats[j] += heat
            coil_heat += heat
        d, circuit_loss, panel_heat = [], 0.0, 0.0
        for i in range(6):
            if i in (2, 3):
                heat = rate * closes * (y[i] - stream)
                stream += closes * (y[i] - stream)
                panel_heat += heat
                d.append((area / 2 * (taken - loss(y[i])) - heat) / plant.segment_j_k)
                continue
            pipe = back if i < 2 else out
            lost = pipe["loft_w_k"] * (y[i] - loft_k) + pipe["outdoor_w_k"] * (y[i] - air_k)
            circuit_loss += lost
            d.append((rate * (stream - y[i]) - lost) / pipe["capacity_j_k"])
            stream = y[i]
        store_loss = 0.0
        for j in range(layers):
            lost = losses[j] * (y[6 + j] - loft_k)
            store_loss += lost
            heats[j] -= lost
            if j:
                up = conduction * (y[5 + j] - y[6 + j])
                heats[j] += up
                heats[j - 1] -= up
        return d + [heat / tank.capacity_j_k for heat in heats] + [panel_heat, circuit_loss, coil_heat, store_loss]

    whole_m = sum(length for _, length in coil)
    for _ in range(STEPS):
        # The coil's conductance once for the whole coil: mean of its ends, mean water around it.
        water_k = sum(tank.t[j] * length for j, length in coil) / whole_m
        mean_k = loop[5]
        for _ in range(2):
            conductance = plant.coil(circuit_k(loop) - 273.15, mean_k - water_k, water_k - 273.15)
            shares = [1 - np.exp(-conductance * length / rate) for _, length in coil]
            stream = loop[5]
            for (j, _), share in zip(coil, shares):
                stream -= share * (stream - tank.t[j])
            mean_k = (loop[5] + stream) / 2
        y = loop + tank.t + [0.0] * 4
        a = slopes(y, shares)
        b = slopes([v + size / 2 * s for v, s in zip(y, a)], shares)
        c = slopes([v + size / 2 * s for v, s in zip(y, b)], shares)
        d = slopes([v + size * s for v, s in zip(y, c)], shares)
        y = [v + size / 6 * (p + 2 * q + 2 * r + s) for v, p, q, r, s in zip(y, a, b, c, d)]
        loop[:], tank.t = y[:6], y[6:6 + layers]
        tank.mix()
        for name, heat in zip(("panel_heat", "circuit_loss", "coil_heat", "store_loss"), y[6 + layers:]):
            book[name] += heat
    stream = loop[1]
    for i in (2, 3):
        stream += closes * (loop[i] - stream)
    return stream


def circuit_k(loop):
    return (loop[2] + loop[3]) / 4 + (loop[0] + loop[1] + loop[4] + loop[5]) / 8


def year(given):
    """The annual figures of a build and its twin, kWh; the plane's irradiation a square metre."""
    build = files.read(given)
    forcing = Forcing(given, build)
    plant = Plant(build)
    own = march(given, build, plant, forcing, True)
    twin = march(given, build, plant, forcing, False)
    return {
        "plane_irradiation_kwh_m2": forcing.plane_kwh_m2,
        "absorbed_kwh": forcing.taken_w_m2.sum() / 60e3 * build["panel"]["area_m2"],
        **{f"{name}_kwh": own[name] for name in (
            "panel_heat", "circuit_loss", "coil_heat", "store_loss", "tap_heat")},
        "twin_tap_heat_kwh": twin["tap_heat"], "need_heat_kwh": own["need_heat"],
        "topup_heat_kwh": own["topup_heat"], "twin_topup_heat_kwh": twin["topup_heat"],
        "spared_heat_kwh": twin["topup_heat"] - own["topup_heat"],
    }, {"pump_hours": own["pump_hours"], "drawn_l": own["drawn"]}
