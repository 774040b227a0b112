#!/usr/bin/env python3
"""Makes docs/validation.md from a run of the published tests, or checks that it is up to date.

    validation.py write TEST    runs the tests and writes the page
    validation.py check TEST    runs them and fails when the page says otherwise

TEST is a GoogleTest program, a source file for each part of the page, whose cases record `name = ours | published | tolerance | source`
(tests/published/expect_published.h). Values are printed to the digits that the tolerance is given in,
so that rounding noise between machines does not show.
"""

import difflib
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

ROOT = pathlib.Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "validation.md"
MOST_DIGITS = 7

HEAD = """# What the numbers are held against

Made by `scripts/validation.py` from a run of the published tests; a test fails when it is out of date. Each row: what is computed, our
value, the published one, the difference allowed (half a unit in the last printed digit, unless the test gives its reason), and where the
published one comes from. Keys in brackets are in [references.md](references.md); the others are the rows of the reference list, whose
wording (seen, recomputed, from memory) stands beside each test in `tests/published/`.

Besides these, `tests/published/scipy_bushed.py` minimises the energy of a bushed four-link with track bar in SciPy and compares the poses;
`scipy_torsion.py` solves sections as solids; `scipy_cut.py` builds a small frame anew, stands it on its stands and cuts its middle tube out.
"""

UNITS = [
    "rad_per_m_per_s2", "Nmm_per_rad", "rad_per_in2", "rad_per_s2", "Nm_per_rad", "Nm_per_deg", "lbf_per_in", "Ns_per_m", "deg_per_g",
    "N_per_mm", "N_per_m", "kg_m2", "mm_per_kg", "percent", "kip_in2", "kip_in", "kip", "lbf", "ksi", "rpm", "deg", "rad",
    "urad", "MPa", "Nm2", "Nmm", "kNm", "kN", "mm", "um", "Hz", "kg", "lb", "in", "m", "N",
]  # longest first


def quantity(name: str) -> str:
    """`ride_rate_N_per_mm` as `ride rate, N/mm`."""
    for unit in UNITS:
        if name.endswith("_" + unit):
            shown = unit.replace("_per_", "/").replace("_", " ").replace("percent", "%")
            return f"{name[: -len(unit) - 1].replace('_', ' ')}, {shown}"
    return name.replace("_", " ")


def printed(value: float, tolerance: float) -> str:
    decimals = max(0, math.ceil(-math.log10(tolerance))) if tolerance > 0 else MOST_DIGITS
    if abs(value) >= 1:
        decimals = min(decimals, max(0, MOST_DIGITS - 1 - math.floor(math.log10(abs(value)))))
    text = f"{value:.{min(decimals, 9)}f}"
    return text.replace("-", "", 1) if float(text) == 0 else text


def words(name: str) -> str:
    """`RollCentreOfATrackBar` as `Roll centre of a track bar`."""
    parts = re.findall(r"[A-Z][a-z]+|[A-Z]+(?![a-z])|\d+(?:_\d+)*|[a-z]+", name)
    return " ".join(p if i == 0 or p.isdigit() else p.lower() for i, p in enumerate(parts)).replace("_", ".")


def run(test: pathlib.Path) -> str:
    with tempfile.TemporaryDirectory() as folder:
        report = pathlib.Path(folder) / "report.xml"
        done = subprocess.run([test, f"--gtest_output=xml:{report}"], capture_output=True, text=True, check=False)
        if done.returncode != 0:
            sys.exit(f"{test.name} fails; mend it first\n{done.stdout[-2000:]}")
        parts = {}
        for case in ElementTree.parse(report).iter("testcase"):
            rows = parts.setdefault(pathlib.Path(case.get("file")).stem, [])
            for record in case.iter("property"):
                ours, published, tolerance, source = (part.strip() for part in record.get("value").split("|", 3))
                what = f"{words(case.get('name'))}: {quantity(record.get('name'))}"
                rows.append(f"| {what} | {printed(float(ours), float(tolerance))} | {float(published):.7g} "
                            f"| ± {float(tolerance):.3g} | {source} |")
    return "".join(part(name, rows) for name, rows in parts.items())


def part(name: str, rows: list[str]) -> str:
    title = name.removesuffix("_test").replace("_", " ").capitalize()
    return "\n".join([f"\n## {title}\n", "| quantity | ours | published | tolerance | source |",
                      "|---|---|---|---|---|", *rows, ""])


def main() -> int:
    if len(sys.argv) != 3 or sys.argv[1] not in ("write", "check"):
        sys.exit(__doc__)
    page = HEAD + run(pathlib.Path(sys.argv[2]))
    if sys.argv[1] == "write":
        PAGE.write_text(page)
        return 0
    there = PAGE.read_text() if PAGE.exists() else ""
    if there == page:
        return 0
    sys.stdout.writelines(difflib.unified_diff(there.splitlines(True), page.splitlines(True), "docs/validation.md",
                                               "this run", n=0))
    print("Write it anew: cmake --build BUILD --target validation_page")
    return 1


if __name__ == "__main__":
    sys.exit(main())
