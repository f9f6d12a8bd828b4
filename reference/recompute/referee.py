"""What the referees share: paths, reading checks, and one line for each group compared."""

import math
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
REFERENCE = ROOT / "reference"
ZERO_C_K = 273.15
GRAVITY_M_S2 = 9.80665


class Report:
    """Collects comparisons by group, prints one line a group, remembers whether all held."""

    def __init__(self):
        self.groups = {}

    def compare(self, group, name, ours, committed, rel=0.0, absolute=0.0):
        """`ours` was computed here, `committed` stands in the repository.

        They agree when |ours - committed| <= max(rel |committed|, absolute).
        """
        room = max(rel * abs(committed), absolute)
        off = abs(ours - committed)
        # As a share of what is allowed, so that one line can speak for different quantities.
        if math.isnan(off):
            share = math.inf
        elif room > 0:
            share = off / room
        else:
            share = 0.0 if off == 0 else math.inf
        self.groups.setdefault(group, []).append((share, off, name, ours, committed))

    def close(self, least):
        """Prints the lines and ends: 0 if all held and `least` or more were compared."""
        failed = False
        total = 0
        for group, rows in self.groups.items():
            total += len(rows)
            share, off, name, ours, committed = max(rows, key=lambda row: row[0])
            relative = off / abs(committed) if committed else off
            word = "agree" if share <= 1 else "DISAGREE"
            print(
                f"{group}: {len(rows)} values {word}; the largest deviation is {off:.3g} "
                f"({relative:.2g} relative, {100 * share:.3g} % of the tolerance) in {name}"
            )
            for row in rows:
                if row[0] > 1:
                    failed = True
                    print(f"    {row[2]}: recomputed {row[3]!r}, committed {row[4]!r}")
        if total < least:
            print(f"only {total} values were compared, {least} were to be: a table was not read")
            failed = True
        sys.exit(1 if failed else 0)


class Answers:
    """Functions that answer checks of a reference file from the checks' own inputs.

    Used as a decorator: `@answers("B-FF-01", rel=...)`. The function gets the inputs (and the
    title, under `title`) and must answer every expected key, neither more nor fewer.
    """

    # The reference file prints nine significant digits. Its own tolerances are meant for other
    # implementations of the same physics, and are not used between libraries.
    PRINTED = 2e-8

    def __init__(self, name):
        with open(REFERENCE / name, "rb") as file:
            self.checks = {check["id"]: check for check in tomllib.load(file)["check"]}
        self.functions = {}

    def __call__(self, *ids, rel=PRINTED):
        def mark(function):
            for check_id in ids:
                assert check_id not in self.functions, check_id
                self.functions[check_id] = (function, rel)
            return function

        return mark

    def inputs(self, check_id):
        check = self.checks[check_id]
        return check["inputs"] | {"title": check["title"]}

    def close(self):
        """Compares all, one line a function, and ends the program."""
        report = Report()
        compared = 0
        for check_id, (function, rel) in self.functions.items():
            expected = self.checks[check_id]["expected"]
            found = function(self.inputs(check_id))
            if found.keys() != expected.keys():
                sys.exit(f"{check_id}: answered {sorted(found)}, expected {sorted(expected)}")
            for key, value in found.items():
                group = function.__name__.replace("_", " ")
                report.compare(group, f"{check_id} {key}", value, expected[key]["value"], rel=rel)
                compared += 1
        report.close(least=compared)


def read_csv(path):
    """Rows of a comma-separated file with `#` comments, as dictionaries of text."""
    with open(path, newline="") as file:
        lines = [line.rstrip("\r\n") for line in file if not line.startswith("#")]
    header = lines[0].split(",")
    rows = []
    for line in lines[1:]:
        cells = line.split(",")
        if len(cells) != len(header):
            sys.exit(f"{path}: {len(cells)} cells under {len(header)} headings: {line}")
        rows.append(dict(zip(header, cells)))
    return rows
