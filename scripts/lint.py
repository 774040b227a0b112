#!/usr/bin/env python3
"""Two lints: module direction (includes against DEPENDS), and clang-tidy on what changed since it passed.

clang-tidy is slow, so a source that passed is remembered under build/lint by a digest of itself, of the
project headers it includes, and of .clang-tidy.
"""

import concurrent.futures
import hashlib
import json
import pathlib
import re
import shlex
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parent.parent
SRC = ROOT / "src"
BUILD = ROOT / "build" / "release"
REMEMBERED = ROOT / "build" / "lint"
BATCH = 16  # Sources that clang-tidy sees at once.
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


def flags_by_module() -> dict[str, list[str]]:
    """What the compiler is told for each module, without the files' names."""
    flags: dict[str, list[str]] = {}
    for entry in json.loads((BUILD / "compile_commands.json").read_text()):
        part = re.search(r"src/(\w+)/CMakeFiles/(?:rig_\1|rigwright)\.dir/", entry["command"])
        if part and not entry["file"].endswith(".S"):
            words = shlex.split(entry["command"])
            flags[part[1]] = [word for word in words if re.match(r"-[DIWfs]|-isystem|/usr/include", word)]
    return flags


def tidy(batch: list[pathlib.Path], flags: list[str]) -> str:
    """The faults of some sources of one module, looked at as one: their headers are the most of the work."""
    together = REMEMBERED / f"{batch[0].parent.name}_{batch[0].stem}.cc"
    together.write_text("".join(f'#include "{source}"  // NOLINT(bugprone-suspicious-include)\n' for source in batch))
    run = subprocess.run(
        ["clang-tidy", "--quiet", f"--config-file={ROOT / '.clang-tidy'}", str(together), "--", *flags],
        capture_output=True, text=True, check=False)
    together.unlink()
    return "" if run.returncode == 0 else run.stdout or run.stderr


def check_tidy() -> list[str]:
    REMEMBERED.mkdir(parents=True, exist_ok=True)
    waiting: dict[str, list[pathlib.Path]] = {}
    digests: dict[pathlib.Path, str] = {}  # Of what clang-tidy is shown, not of what stands there when it is done.
    for source in sorted(SRC.rglob("*.cc")):
        if source.name.endswith(("_test.cc", "_fuzz.cc")):
            continue
        digests[source] = digest(source)
        if not (REMEMBERED / digests[source]).exists():
            waiting.setdefault(source.parent.name, []).append(source)
    flags = flags_by_module()
    batches = [
        (sources[i : i + BATCH], flags[module])
        for module, sources in waiting.items()
        for i in range(0, len(sources), BATCH)
    ]
    faults = []
    with concurrent.futures.ThreadPoolExecutor(max_workers=2) as pool:
        for (batch, _), output in zip(batches, pool.map(lambda job: tidy(*job), batches)):
            if output:
                faults.append(output)
                continue
            for source in batch:
                (REMEMBERED / digests[source]).touch()
    return faults


def main() -> int:
    faults = check_direction() + check_tidy()
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
