"""Reading what is given: the design file, the values the program says it assumes, the catalogue, the weather.

Nothing is computed here that a station's page computes; what stands here is only units and files.
"""

import json
import re
import subprocess
import tomllib
from fractions import Fraction
from pathlib import Path

import numpy as np

import circuit

ROOT = Path(__file__).resolve().parents[2]
HOURS = 8760

# What one unit is in SI. Temperatures in C stay in C and are turned where kelvin are wanted.
UNITS = {
    "": 1.0, "mm": 1e-3, "m": 1.0, "in": 0.0254, "ft": 0.3048, "cm2": 1e-4, "m2": 1.0, "l": 1e-3,
    "deg": 1.0, "%": 0.01, "K": 1.0, "C": 1.0, "W": 1.0, "s": 1.0, "min": 60.0, "h": 1.0, "Pa": 1.0,
    "l/min": 1e-3 / 60, "gpm": 3.785411784e-3 / 60, "W/K": 1.0, "W/m K": 1.0, "W/m2 K": 1.0,
    "W/m2 K2": 1.0, "kJ/m2 K": 1e3, "kJ/K": 1e3, "J/kg K": 1.0, "kg/m3": 1.0, "1/K": 1.0, "1/m": 1.0,
    "1/h": 1.0, "m2 K/W": 1.0, "K m2/kW": 1e-3, "kg": 1.0,
}


def quantity(text):
    """A number with its unit, as the design file writes it, in SI: `3' 4"`, `5/32 in`, `600 mm`."""
    if isinstance(text, (int, float)):
        return float(text)
    feet = re.fullmatch(r"\s*(\d+)'\s*(?:(\d+)\")?\s*", text)
    if feet:
        return int(feet[1]) * 0.3048 + int(feet[2] or 0) * 0.0254
    number, unit = re.fullmatch(r"\s*(-?[\d./]+)\s*(.*?)\s*", text).groups()
    return float(Fraction(number)) * UNITS[unit]


def ask_program(program, command, design, *wishes):
    """One JSON document of the program."""
    asked = [program, command, str(design), *wishes, "--json"]
    answer = subprocess.run(asked, capture_output=True, check=True)
    return json.loads(answer.stdout)


class Given:
    """The design file, with the program's list of assumed values behind it."""

    def __init__(self, design, assumed):
        self.path = Path(design)
        self.written = tomllib.loads(self.path.read_text())
        self.assumed = {entry["where"]: entry["value"] for entry in assumed}

    def raw(self, where, default=None):
        node = self.written
        for part in re.findall(r"[^.\[\]]+", where):
            if isinstance(node, dict) and part in node:
                node = node[part]
            elif isinstance(node, list) and part.isdigit() and int(part) < len(node):
                node = node[int(part)]
            else:
                node = None
                break
        if node is None or node == "unknown" or where in self.assumed and isinstance(node, str) and node.isalpha():
            node = self.assumed.get(where, node if node is not None else default)
        return node

    def __call__(self, where, default=None):
        value = self.raw(where, default)
        if value is None:
            raise KeyError(where)
        return quantity(value)

    def tube(self, where):
        """Outside, bore, conductivity and wall capacity per metre of a tube."""
        if isinstance(self.raw(where + ".size"), str) and "x" in self.raw(where + ".size"):
            outside, wall = (float(part) * 1e-3 for part in self.raw(where + ".size").split("x"))
        else:
            outside, wall = self(where + ".outside"), self(where + ".wall")
        bore = outside - 2 * wall
        metal = self(where + ".density") * self(where + ".heat-capacity")
        return {
            "outside_m": outside, "bore_m": bore, "wall_w_mk": self(where + ".conductivity"),
            "metal_j_mk": metal * np.pi / 4 * (outside**2 - bore**2), "roughness_m": self(where + ".roughness"),
            "bore_m2": np.pi / 4 * bore**2,
        }

    def layers(self, where):
        """Insulation from the inside outwards."""
        return [
            {
                "thickness_m": self(f"{where}[{i}].thickness"), "k10_w_mk": self(f"{where}[{i}].conductivity"),
                "growth_1_k": self(f"{where}[{i}].conductivity-growth"),
                "capacity_j_m3k": self(f"{where}[{i}].density") * self(f"{where}[{i}].heat-capacity"),
            }
            for i in range(len(self.raw(where)))
        ]


def read_weather(path):
    """A typical year of the European service's CSV form: place, offset of the light, 8760 rows in UTC."""
    lines = path.read_text().splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith("time(UTC)"))
    head = {}
    for line in lines[:first]:
        if ":" in line:
            key, value = line.split(":")
            head[key.split(" (")[0]] = float(value)
    names = lines[first].split(",")
    rows = [line.split(",") for line in lines[first + 1:first + 1 + HOURS]]
    column = {name: np.array([float(row[i]) for row in rows]) for i, name in enumerate(names) if i}
    offset = head.get("Irradiance Time Offset", -999.0)
    return {
        "latitude_deg": head["Latitude"], "longitude_deg": head["Longitude"],
        # Where the header does not tell, the light is taken as seen 0.2 h after its stamp.
        "offset_h": 0.2 if offset == -999.0 else offset,
        "global_w_m2": column["G(h)"], "diffuse_w_m2": column["Gd(h)"], "infrared_w_m2": column["IR(h)"],
        "air_c": column["T2m"], "wind_m_s": column["WS10m"],
    }


def catalogue(name):
    return tomllib.loads((ROOT / "catalogue" / f"{name}.toml").read_text())


def month_of_hour():
    """Month (0 to 11) and day of the year (0 to 364) of each hour of a year of 365 days."""
    days = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    month_of_day = np.repeat(np.arange(12), days)
    return np.repeat(month_of_day, 24), np.repeat(np.arange(365), 24)


def read(given):
    """All stations' figures, SI, from the design file and the assumed values."""
    panel = read_panel(given)
    pipes = {}
    for name in ("return", "flow"):
        where = f"circuit.{name}-pipe"
        pipes[name] = given.tube(where) | {
            "length_m": given(where + ".length"), "lagging_m": given(where + ".lagging"),
            "lagging_w_mk": given(where + ".lagging-conductivity"), "outdoor_share": given(where + ".outdoor-share"),
            "figure": given(where + ".fittings-k", 0.0),
        }
    pipes["return"]["figure"] += given("circuit.check-valve-k")
    volume, depth = given("store.volume"), given("store.water-depth")
    tank = {
        "volume_m3": volume, "depth_m": depth, "area_m2": volume / depth, "layers": int(given("store.layers")),
        "perimeter_m": given("store.perimeter"), "inlet_m": given("store.inlet-height"),
        "outlet_m": given("store.outlet-height"), "entrainment": given("store.entrainment"),
        "wall": given.layers("store.wall"), "base": given.layers("store.base"), "lid": given.layers("store.lid"),
    }
    coil = given.tube("store.coil") | {
        "length_m": given("store.coil.length"), "turn_m": given("store.coil.turn-diameter"),
        "bottom_m": given("store.coil.bottom-height"), "top_m": given("store.coil.top-height"),
    }
    if given.raw("circuit.share-by-volume"):
        share = circuit.mass_share(given("circuit.share-by-volume"))
    else:
        share = given("circuit.share-by-mass")
    return {
        "panel": panel, "return_pipe": pipes["return"], "flow_pipe": pipes["flow"], "tank": tank, "coil": coil,
        "glycol": share, "tilt_deg": given("sun.tilt"),
        "pump": [(quantity(p["flow"]), quantity(p["head"])) for p in given.raw("circuit.pump.curve")],
        "probe_layer": int(given("control.store-probe-height") / (depth / tank["layers"])),
    }


def read_panel(given):
    if given.raw("panel.kind") == "bought":
        where = "panel.certificate."
        angles = [(0.0, 1.0)] + [
            (quantity(m["angle"]), m["share"]) for m in given.raw(where + "modifier")] + [(90.0, 0.0)]
        modifier = tuple(np.array(angles).T)
        return {
            "kind": "bought", "area_m2": given(where + "area"), "a1": given(where + "a1"), "a2": given(where + "a2"),
            "eta0_hemispherical": given(where + "eta0"), "modifier": modifier,
            "capacity_j_k": given(where + "capacity") * given(where + "area"),
            "port_m": given(where + "port"), "test_drop_pa": given(where + "drop"),
            "test_flow_m3_s": given(where + "drop-flow"), "box": None,
        }
    tube = given.tube("panel.tubes")
    length, width = given("panel.sheet.length"), given("panel.sheet.width")
    pattern = given.raw("panel.tubes.pattern")
    panel = {
        "kind": "sheet", "pattern": pattern, "length_m": length, "width_m": width, "area_m2": length * width,
        "gap_m": given("panel.gap"), "absorptance": given("panel.sheet.absorptance"),
        "emittance": given("panel.sheet.emittance"), "sheet_m": given("panel.sheet.thickness"),
        "sheet_k_w_mk": given("panel.sheet.conductivity"),
        "sheet_j_m3k": given("panel.sheet.density") * given("panel.sheet.heat-capacity"),
        "tube": tube, "spacing_m": given("panel.tubes.spacing"), "bond_w_mk": given("panel.tubes.bond"),
        "legs": int(given("panel.tubes.risers" if pattern == "harp" else "panel.tubes.legs")),
        "leg_m": given("panel.tubes.riser-length" if pattern == "harp" else "panel.tubes.leg-length"),
        "back": given.layers("panel.back"), "air_changes_1_h": given("panel.box.air-changes"),
        "cover": {
            "thickness_m": given("panel.cover.thickness"), "index": given("panel.cover.index"),
            "extinction_1_m": given("panel.cover.extinction"), "emittance": given("panel.cover.emittance"),
            "longwave": given("panel.cover.longwave"), "resistance_m2k_w": given("panel.cover.resistance"),
            "dirt": given("panel.cover.dirt"),
            "capacity_j_m3k": given("panel.cover.density") * given("panel.cover.heat-capacity"),
        },
        "edge": {
            "thickness_m": given("panel.edge.thickness"), "k10_w_mk": given("panel.edge.conductivity"),
            "growth_1_k": given("panel.edge.conductivity-growth"), "area_m2": given("panel.edge.area"),
            "capacity_j_m3k": given("panel.edge.density") * given("panel.edge.heat-capacity"),
        },
        "box": {
            "rise_m": given("panel.box.wall-height"), "gap_m": given("panel.box.rim-gap"),
            "width_m": width, "length_m": length,
        },
    }
    panel["tubes_in_panel"] = [(tube, panel["legs"] * panel["leg_m"])]
    if pattern == "harp":
        panel["header"] = given.tube("panel.tubes.header")
        panel["tubes_in_panel"].append((panel["header"], 2 * panel["legs"] * panel["spacing_m"]))
    return panel
