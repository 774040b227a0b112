#!/usr/bin/env python3
"""Two lints: module direction (includes against DEPENDS), and clang-tidy on what changed since it passed.

clang-tidy is slow, so a source that passed is remembered under build/lint by a digest of itself, of the
project headers it includes, and of .clang-tidy.
"""

import concurrent.futures
import hashlib
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
SRC = ROOT / "src"
BUILD = ROOT / "build" / "release"
INCLUDE = re.compile(r'^\s*#include "([^"]+)"', re.MULTILINE)


def module_depends() -> dict[str, set[str]]:
    """Direct DEPENDS of each module, and the module itself."""
    depends = {}
    for cmake in sorted(SRC.glob("*/CMakeLists.txt")):
        name = cmake.parent.name
        depends[name] = set(re.findall(r"\brig::(\w+)", cmake.read_text())) | {name}
    return depends


def check_direction() -> list[str]:
    depends = module_depends()
    order = re.search(r"foreach\(module ([^)]*)\)", (ROOT / "CMakeLists.txt").read_text())
    rank = {name: i for i, name in enumerate(order.group(1).split())}
    faults = []
    for name, allowed in depends.items():
        for other in allowed - {name}:
            if rank.get(other, 99) >= rank.get(name, -1):
                faults.append(f"src/{name}: depends on {other}, which comes later")
        for source in sorted((SRC / name).rglob("*.[ch]*")):
            for header in INCLUDE.findall(source.read_text()):
                module = header.split("/")[0]
                if module in depends and module not in allowed:
                    faults.append(f"{source.relative_to(ROOT)}: includes {header}, not in DEPENDS")
                if module in depends and module != name and header.endswith("_internal.h"):
                    faults.append(f"{source.relative_to(ROOT)}: includes another module's {header}")
    return faults


def own_headers(source: pathlib.Path, seen: dict[pathlib.Path, None]) -> None:
    for header in INCLUDE.findall(source.read_text()):
        for base in (SRC, ROOT, source.parent):
            path = base / header
            if path.is_file() and path not in seen:
                seen[path] = None
                own_headers(path, seen)


def digest(source: pathlib.Path) -> str:
    headers: dict[pathlib.Path, None] = {}
    own_headers(source, headers)
    total = hashlib.sha256()
    for path in [ROOT / ".clang-tidy", source, *sorted(headers)]:
        total.update(path.read_bytes())
    return total.hexdigest()


def tidy(source: pathlib.Path) -> tuple[pathlib.Path, str]:
    run = subprocess.run(
        ["clang-tidy", "-p", str(BUILD), "--quiet", str(source)],
        capture_output=True, text=True, check=False)
    return source, "" if run.returncode == 0 else run.stdout


def check_tidy() -> list[str]:
    remembered = ROOT / "build" / "lint"
    remembered.mkdir(parents=True, exist_ok=True)
    waiting = {}
    for source in sorted(SRC.rglob("*.cc")):
        if source.name.endswith(("_test.cc", "_fuzz.cc")):
            continue
        key = digest(source)
        if not (remembered / key).exists():
            waiting[source] = key
    faults = []
    with concurrent.futures.ThreadPoolExecutor(max_workers=2) as pool:
        for source, output in pool.map(tidy, waiting):
            if output:
                faults.append(output)
            else:
                (remembered / waiting[source]).touch()
    return faults


def main() -> int:
    faults = check_direction() + check_tidy()
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
