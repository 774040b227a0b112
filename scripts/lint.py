#!/usr/bin/env python3
"""Two lints: module direction (includes against DEPENDS), and clang-tidy on what changed since it passed.

clang-tidy is slow, so a source that passed is remembered under build/lint by a digest of itself, of the
project headers it includes, and of .clang-tidy. Those that wait are shown to it together, as one source: most of
its work is on the headers they share. So names in unnamed namespaces are told apart by module.
"""

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


def digest(parts: dict[pathlib.Path, None]) -> str:
    total = hashlib.sha256()
    for path in [ROOT / ".clang-tidy", *sorted(parts)]:
        total.update(path.read_bytes())
    return total.hexdigest()


def compiler_flags() -> list[str]:
    """What the compiler is told for any of the modules, without the files' names."""
    flags: dict[str, None] = {}
    for entry in json.loads((BUILD / "compile_commands.json").read_text()):
        is_ours = re.search(r"src/(\w+)/CMakeFiles/(?:rig_\1|rigwright)\.dir/", entry["command"])
        if is_ours and not entry["file"].endswith(".S"):
            words = shlex.split(entry["command"])
            flags |= {word: None for word in words if re.match(r"-[DIWfs]|-isystem|/usr/include", word)}
    return list(flags)


def tidy(sources: list[pathlib.Path], flags: list[str]) -> str:
    """What clang-tidy finds in some sources, looked at as one."""
    together = REMEMBERED / "together.cc"
    lines = []
    for number, source in enumerate(sources):
        include = f'#include "{source}"  // NOLINT(bugprone-suspicious-include)\n'
        has_main = "\nint main(" in source.read_text()
        lines.append(f"#define main main_{number}\n{include}#undef main\n" if has_main else include)
    together.write_text("".join(lines))
    run = subprocess.run(
        ["clang-tidy", "--quiet", f"--config-file={ROOT / '.clang-tidy'}", str(together), "--", *flags],
        capture_output=True, text=True, check=False)
    together.unlink()
    return "" if run.returncode == 0 else run.stdout or run.stderr


def files_at_fault(output: str) -> set[pathlib.Path] | None:
    """The files that the output names; none (and not the empty set) if it does not tell what was looked at."""
    named = {pathlib.Path(name) for name in re.findall(r"^(/[^:\n]+):\d+:\d+: (?:warning|error):", output, re.MULTILINE)}
    return None if "clang-diagnostic-error" in output or (output and not named) else named


def check_tidy() -> list[str]:
    REMEMBERED.mkdir(parents=True, exist_ok=True)
    seen: dict[pathlib.Path, dict[pathlib.Path, None]] = {}  # What of the project each waiting source is made of.
    digests: dict[pathlib.Path, str] = {}  # Of what clang-tidy is shown, not of what stands there when it is done.
    for source in sorted(SRC.rglob("*.cc")):
        if source.name.endswith(("_test.cc", "_fuzz.cc")):
            continue
        parts: dict[pathlib.Path, None] = {source: None}
        own_headers(source, parts)
        digests[source] = digest(parts)
        if not (REMEMBERED / digests[source]).exists():
            seen[source] = parts
    output = tidy(list(seen), compiler_flags()) if seen else ""
    at_fault = files_at_fault(output)
    for source, parts in seen.items():
        if at_fault is not None and at_fault.isdisjoint(parts):
            (REMEMBERED / digests[source]).touch()
    return [output] if output else []


def main() -> int:
    faults = check_direction() + check_tidy()
    print("\n".join(faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
