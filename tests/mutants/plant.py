#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Plants the faults of faults.toml in a copy of the sources.

  plant.py check          every entry's text is found exactly once
  plant.py list [--quick] a line for each fault: its name, then the tests that are tried first
  plant.py plant FOLDER   the copy, in which each fault waits behind a run-time choice

A fault's text is looked for in all of src/ and include/, so an entry does not name a file and stays
true when code moves. Runs of white space count as one blank, so re-wrapping a line changes nothing.
In the copy an expression E with a faulty form F becomes ((ovendays_fault_now == 7) ? (F) : (E)), a
statement an if. The number comes from the environment variable OVENDAYS_FAULT, which holds a name.
"""
import pathlib
import re
import sys
import tomllib

ROOT = pathlib.Path(__file__).resolve().parents[2]
TABLE = pathlib.Path(__file__).with_name("faults.toml")
COPIED = ["CMakeLists.txt", "include", "src", "tests", "weather", "results"]
PLANTED_IN = ("src", "include")
KEYS = {"name", "what", "original", "faulty", "statement", "tests", "quick"}

SWITCH_HEADER = """#pragma once
// Which planted fault is in force; 0 for none.
extern int ovendays_fault_now;
"""

SWITCH_SOURCE = """#include <cstdio>
#include <cstdlib>
#include <cstring>
int ovendays_fault_now = 0;
namespace {
constexpr const char* kNames[] = {NAMES};
__attribute__((constructor(101))) void choose_planted_fault() {
  const char* wanted = std::getenv("OVENDAYS_FAULT");
  if (wanted == nullptr || *wanted == 0) return;
  int number = 0;
  for (const char* name : kNames) {
    ++number;
    if (std::strcmp(name, wanted) == 0) ovendays_fault_now = number;
  }
  if (ovendays_fault_now != 0) return;
  std::fprintf(stderr, "no planted fault is called %s\\n", wanted);
  std::_Exit(97);
}
}  // namespace
"""


def read_table():
    faults = tomllib.loads(TABLE.read_text())["fault"]
    names = set()
    for fault in faults:
        unknown = set(fault) - KEYS
        missing = {"name", "what", "original", "faulty", "tests"} - set(fault)
        if unknown or missing or fault["name"] in names:
            sys.exit(f"faults.toml: {fault.get('name')}: unknown {unknown}, missing {missing}, or twice")
        names.add(fault["name"])
    return faults


def sources():
    return [
        path
        for folder in PLANTED_IN
        for path in sorted((ROOT / folder).rglob("*"))
        if path.suffix in (".cpp", ".h")
    ]


def pattern_of(original):
    """Any white space between words; at neither end a part of a longer name."""
    before = r"(?<!\w)" if original[0].isalnum() else ""
    after = r"(?!\w)" if original[-1].isalnum() else ""
    return re.compile(before + r"\s+".join(map(re.escape, original.split())) + after)


def forms_of(fault):
    """An entry may list several forms of its text, of which the sources hold one."""
    original, faulty = fault["original"], fault["faulty"]
    return [(original, faulty)] if isinstance(original, str) else list(zip(original, faulty, strict=True))


def find_all(faults):
    """By file, the (start, end, number, fault) of what is planted there; exits where text is not unique."""
    texts = {path: path.read_text() for path in sources()}
    places, complaints = {}, []
    for number, fault in enumerate(faults, 1):
        found = [
            (path, hit, faulty)
            for original, faulty in forms_of(fault)
            for path, text in texts.items()
            for hit in pattern_of(original).finditer(text)
        ]
        if len(found) != 1:
            where = ", ".join(str(path.relative_to(ROOT)) for path, _, _ in found)
            complaints.append(f"{fault['name']}: found {len(found)} times {where}: {fault['original']}")
            continue
        path, hit, faulty = found[0]
        places.setdefault(path, []).append((hit.start(), hit.end(), number, dict(fault, faulty=faulty)))
    for path, hits in places.items():
        hits.sort(key=lambda hit: hit[0])
        for before, after in zip(hits, hits[1:]):
            if after[0] < before[1]:
                complaints.append(f"{before[3]['name']} and {after[3]['name']} overlap")
    if complaints:
        sys.exit("faults.toml does not fit the sources:\n  " + "\n  ".join(complaints))
    return texts, places


def planted(text, hits):
    for start, end, number, fault in reversed(hits):
        chosen = f"(ovendays_fault_now == {number})"
        if fault.get("statement", False):
            new = f"if {chosen} {{ {fault['faulty']}; }} else {{ {text[start:end]}; }}"
        else:
            new = f"({chosen} ? ({fault['faulty']}) : ({text[start:end]}))"
        text = text[:start] + new + text[end:]
    return text


def write_where_new(path, content):
    """Leaves an unchanged file alone, so that a second build is short."""
    if path.exists() and path.read_bytes() == content:
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)


def plant(faults, folder):
    texts, places = find_all(faults)
    wanted = set()

    def put(relative, content):
        wanted.add(folder / relative)
        write_where_new(folder / relative, content)

    for name in COPIED:
        whole = ROOT / name
        files = [whole] if whole.is_file() else [p for p in whole.rglob("*") if p.is_file()]
        for path in files:
            content = path.read_bytes()
            if path in places:
                content = planted(texts[path], places[path]).encode()
            if path == ROOT / "src/base/CMakeLists.txt":
                content += b"\ntarget_sources(ovendays_base PRIVATE planted_fault.cpp)\n"
            put(path.relative_to(ROOT), content)
            if path.suffix in (".sh", ".py"):
                (folder / path.relative_to(ROOT)).chmod(0o755)
    names = ", ".join(f'"{fault["name"]}"' for fault in faults)
    put("src/base/planted_fault.cpp", SWITCH_SOURCE.replace("NAMES", names).encode())
    put("planted_fault.h", SWITCH_HEADER.encode())
    for path in folder.rglob("*"):
        if path.is_file() and path not in wanted:
            path.unlink()


def main():
    faults = read_table()
    mode = sys.argv[1] if len(sys.argv) > 1 else ""
    if mode == "check":
        find_all(faults)
        print(f"{len(faults)} faults, each found once")
    elif mode == "list":
        for fault in faults:
            if "--quick" in sys.argv and not fault.get("quick", False):
                continue
            print("\t".join([fault["name"], *fault["tests"]]))
    elif mode == "plant" and len(sys.argv) == 3:
        plant(faults, pathlib.Path(sys.argv[2]).resolve())
    else:
        sys.exit(__doc__)


main()
