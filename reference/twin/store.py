"""Store: layers, losses, water passing through, the coil (docs/method/store.md)."""

import numpy as np

import circuit

WATER = circuit.water(35.0)
WATER_J_M3K = float(WATER["density"] * WATER["heat"])


def layer_losses(tank):
    """W/K of each layer to the loft, the lowest first."""
    def per_m2(layers, surface_m2k_w):
        mean_k = 27 + 273.15
        resistance = sum(
            layer["thickness_m"] / (layer["k10_w_mk"] * (1 + layer["growth_1_k"] * (mean_k - 283.15)))
            for layer in layers)
        return 1 / (surface_m2k_w + resistance)

    count = tank["layers"]
    losses = np.full(count, per_m2(tank["wall"], 0.13) * tank["perimeter_m"] * tank["depth_m"] / count)
    losses[0] += per_m2(tank["base"], 0.17) * tank["area_m2"]
    losses[-1] += per_m2(tank["lid"], 0.10) * tank["area_m2"]
    return losses


class Store:
    """The cistern's water as layers, the lowest first. Temperatures in kelvin."""

    def __init__(self, tank, start_k):
        self.count = tank["layers"]
        self.volume_m3 = tank["volume_m3"] / self.count
        self.capacity_j_k = self.volume_m3 * WATER_J_M3K
        self.loss_w_k = layer_losses(tank)
        depth_m = tank["depth_m"] / self.count
        self.conduction_w_k = float(WATER["k"]) * tank["area_m2"] / depth_m
        self.inlet, self.outlet = (
            min(int(tank[key] / depth_m + 1e-9), self.count - 1) for key in ("inlet_m", "outlet_m"))
        self.entrained = tank["entrainment"] / self.count
        self.t = [start_k] * self.count
        # A minute of standing is straight in the temperatures: solved exactly, once.
        matrix = np.diag(-self.loss_w_k)
        for j in range(self.count - 1):
            matrix[j:j + 2, j:j + 2] += self.conduction_w_k * np.array([[-1, 1], [1, -1]])
        values, vectors = np.linalg.eig(matrix / self.capacity_j_k)
        self.standing = ((vectors * np.exp(values * 60)) @ np.linalg.inv(vectors)).real

    def mix(self):
        """A layer warmer than the one above mixes with it, and so on up: the nearest profile in order."""
        t = self.t
        for j in range(self.count - 1):
            if t[j] > t[j + 1]:
                break
        else:
            return
        groups = []
        for value in t:
            groups.append([value, 1])
            while len(groups) > 1 and groups[-2][0] > groups[-1][0]:
                value, size = groups.pop()
                lower, below = groups[-1]
                groups[-1] = [(lower * below + value * size) / (below + size), below + size]
        self.t = [value for value, size in groups for _ in range(size)]

    def stand(self, loft_k):
        """A minute with nothing moving; returns the heat lost, J."""
        before = sum(self.t)
        self.t = (loft_k + self.standing @ (np.array(self.t) - loft_k)).tolist()
        lost = (before - sum(self.t)) * self.capacity_j_k
        self.mix()
        return lost

    def pass_water(self, volume_m3, cold_k):
        """Water drawn at the outlet, cold coming in at the inlet; returns the volume's mean outlet, K."""
        steps = int(volume_m3 / (self.volume_m3 / 8)) + 1
        part, sum_k = volume_m3 / steps / self.volume_m3, 0.0
        for _ in range(steps):
            first = self._rates(self.t, cold_k)
            middle = [t + part / 2 * rate for t, rate in zip(self.t, first)]
            sum_k += middle[self.outlet]
            self.t = [t + part * rate for t, rate in zip(self.t, self._rates(middle, cold_k))]
            self.mix()
        return sum_k / steps

    def _rates(self, t, cold_k):
        """Change of each layer, K, for a layer's volume of water passing."""
        gains = [0.0] * self.count  # water put into a layer, less taken out, by its volume
        rates = [0.0] * self.count
        rest, size, plume_k = self.inlet, 1.0, cold_k
        while rest > 0 and plume_k < t[rest - 1]:
            # Takes along a share of this layer for each litre that came in.
            plume_k = (plume_k * size + t[rest] * self.entrained) / (size + self.entrained)
            size += self.entrained
            gains[rest] -= self.entrained
            rest -= 1
        gains[rest] += size
        rates[rest] += size * (plume_k - t[rest])
        gains[self.outlet] -= 1.0
        # What is over in a layer moves to its neighbours, each stream as warm as where it comes from.
        upward = 0.0
        for j in range(self.count - 1):
            upward += gains[j]
            if upward > 0:
                rates[j + 1] += upward * (t[j] - t[j + 1])
            else:
                rates[j] += -upward * (t[j + 1] - t[j])
        return rates


def coil_lengths(tank, coil):
    """Metres of coil in each layer, the lowest first: spread evenly over its height."""
    edges = np.arange(tank["layers"] + 1) * tank["depth_m"] / tank["layers"]
    inside = np.clip(np.minimum(edges[1:], coil["top_m"]) - np.maximum(edges[:-1], coil["bottom_m"]), 0, None)
    return coil["length_m"] * inside / (coil["top_m"] - coil["bottom_m"])


def outside_film(wall_c, water_c, diameter_m):
    """Churchill and Chu 1975 on a horizontal cylinder in still water, film temperature."""
    p = circuit.water((wall_c + water_c) / 2)
    diffusivity = p["k"] / (p["density"] * p["heat"])
    viscosity = p["viscosity"] / p["density"]
    rayleigh = circuit.G * abs(p["expansion"] * (wall_c - water_c)) * diameter_m**3 / (viscosity * diffusivity)
    prandtl = viscosity / diffusivity
    root = 0.60 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27)
    return root**2 * p["k"] / diameter_m


class CoilTable:
    """Conductance of a metre of coil, W/mK, tabled over circuit, fluid less water, and water temperature."""

    CIRCUIT_C = np.arange(0.0, 161.0, 10.0)
    APART_K = np.array([0, 0.25, 0.5, 1, 2, 3, 5, 8, 12, 20, 30, 45, 60, 90, 130.0])
    WATER_C = np.arange(0.0, 96.0, 5.0)

    def __init__(self, coil, inside_film):
        """`inside_film` gives the film at a circuit temperature in C."""
        wall = np.log(coil["outside_m"] / coil["bore_m"]) / (2 * np.pi * coil["wall_w_mk"])
        self.table = np.zeros((len(self.CIRCUIT_C), len(self.APART_K), len(self.WATER_C)))
        for i, circuit_c in enumerate(self.CIRCUIT_C):
            inner = 1 / (inside_film(circuit_c) * np.pi * coil["bore_m"]) + wall
            for j, apart in enumerate(self.APART_K):
                water = self.WATER_C
                share = np.full(len(water), 0.5)  # of the difference that lies outside the tube
                for _ in range(40):
                    h = outside_film(water + share * apart, water, coil["outside_m"])
                    outer = 1 / (h * np.pi * coil["outside_m"])
                    share = 0.5 * share + 0.5 * outer / (outer + inner)
                self.table[i, j] = 1 / (outer + inner)
        self.nested = self.table.tolist()

    def __call__(self, circuit_c, apart_k, water_c):
        """Straight lines between the table's points; colder fluid as warmer by the same."""
        i = min(max(int(circuit_c / 10), 0), len(self.CIRCUIT_C) - 2)
        a = circuit_c / 10 - i
        apart_k = min(abs(apart_k), 129.9)
        j = int(np.searchsorted(self.APART_K, apart_k, side="right")) - 1
        b = (apart_k - self.APART_K[j]) / (self.APART_K[j + 1] - self.APART_K[j])
        k = min(max(int(water_c / 5), 0), len(self.WATER_C) - 2)
        c = water_c / 5 - k
        total = 0.0
        for x, wx in ((i, 1 - a), (i + 1, a)):
            for y, wy in ((j, 1 - b), (j + 1, b)):
                row = self.nested[x][y]
                total += wx * wy * (row[k] * (1 - c) + row[k + 1] * c)
        return total
