"""Runs the samples through the twin and through the program; leaves with 1 beyond a per cent.

    python reference/twin/compare.py [PROGRAM] [SAMPLE ...]
"""

import sys
import time

import build
import year

SAMPLES = ("first-panel", "southern-harp", "bought-selective")
ALLOWED = 0.01   # of the figure
SMALL = 0.02     # a figure under this share of panel heat is held to ALLOWED of panel heat


def ask_year(program, design):
    """The program's year; the one place that knows how it is called."""
    return build.ask_program(program, "year", design, "--no-band")["year"]


def compare(program, sample):
    """One sample; returns how many figures are apart."""
    design = build.ROOT / "samples" / f"{sample}.toml"
    theirs = ask_year(program, design)
    started = time.monotonic()
    given = build.Given(design, build.ask_program(program, "check", design)["assumed"])
    ours, beside = year.year(given)
    print(f"\n{sample} ({time.monotonic() - started:.0f} s)\n{'':28}{'program':>12}{'twin':>12}{'apart %':>10}")
    wrong = 0
    for name, twin in ours.items():
        figure = theirs[name]
        small = abs(figure) < SMALL * theirs["panel_heat_kwh"]
        apart = (twin - figure) / (theirs["panel_heat_kwh"] if small else abs(figure))
        bad = not abs(apart) <= ALLOWED
        wrong += bad
        of = " of panel heat" if small else ""
        print(f"{name:28}{figure:12.3f}{twin:12.3f}{100 * apart:10.2f}{of}{'  APART' if bad else ''}")
    for name, twin in beside.items():
        print(f"{name:28}{theirs[name]:12.2f}{twin:12.2f}    not held to")
    return wrong


def main():
    program = sys.argv[1] if len(sys.argv) > 1 else build.ROOT / "target/release/warmfeed"
    wrong = sum(compare(program, sample) for sample in sys.argv[2:] or SAMPLES)
    print(f"\n{wrong} figures apart by more than {100 * ALLOWED:.0f} %")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
