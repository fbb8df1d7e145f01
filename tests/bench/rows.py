#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Prints medians of Google Benchmark's JSON files and adds them to results/bench/CPU.csv.

rows.py ROOT [FILE.json ...]: without files prints where and when it runs, for a table's header.
Exit 1, and nothing is added, where a benchmark found its answer wrong.
"""
import csv
import datetime
import json
import os
import re
import subprocess
import sys

PER_SECOND = {"ns": 1e9, "us": 1e6, "ms": 1e3, "s": 1.0}
UNITS = {"cooks_per_s": "cooks/s", "runs_per_s": "runs/s", "user_s": "s", "peak_MiB": "MiB",
         "steps": "steps", "runs": "runs"}


def cpu_name():
    with open("/proc/cpuinfo", encoding="utf-8") as info:
        names = [line.split(":", 1)[1].strip() for line in info if line.startswith("model name")]
    return names[0] if names else "unknown CPU"


def commit(root):
    def git(*words):
        return subprocess.run(["git", "-C", root, *words], capture_output=True, text=True, check=True).stdout
    # What the benchmarks themselves write does not count.
    changed = git("status", "--porcelain", "--", ".", ":!results/bench").strip()
    return git("rev-parse", "--short=10", "HEAD").strip() + ("-dirty" if changed else "")


def figures(benchmark):
    """Name, value and unit of each figure of one benchmark."""
    name = benchmark["run_name"]
    threads = re.search(r"threads:(\d+)", name)
    name = re.sub(r"/(process_time|real_time|manual_time|iterations:1|repeats:\d+)", "", name)
    threads = int(threads.group(1)) if threads else 1
    wall_s = benchmark["real_time"] / PER_SECOND[benchmark["time_unit"]]
    cpu_s = benchmark["cpu_time"] / PER_SECOND[benchmark["time_unit"]]
    if "user_s" not in benchmark:  # a process's CPU time is its child's
        yield threads, name + " CPU", 1e3 * cpu_s, "ms"
    yield threads, name + " wall", 1e3 * wall_s, "ms"
    for key, unit in UNITS.items():
        if key in benchmark:
            yield threads, name + " " + key, benchmark[key], unit


def read(files):
    rows, wrong = [], []
    for file in files:
        with open(file, encoding="utf-8") as text:
            benchmarks = json.load(text)["benchmarks"]
        for benchmark in benchmarks:
            if benchmark.get("error_occurred"):
                wrong.append(benchmark["run_name"] + ": " + benchmark["error_message"])
            elif benchmark["run_type"] == "iteration" or benchmark.get("aggregate_name") == "median":
                rows += list(figures(benchmark))
    return rows, wrong


def main():
    root, files = sys.argv[1], sys.argv[2:]
    now = datetime.datetime.now(datetime.timezone.utc).strftime("%Y-%m-%dT%H:%MZ")
    if not files:
        print(f"{cpu_name()}, {now}, commit {commit(root)}, one thread, medians")
        return 0
    rows, wrong = read(files)
    for line in wrong:
        print("WRONG ANSWER: " + line, file=sys.stderr)
    if wrong or not rows:
        return 1
    name = re.sub(r"[^a-z0-9]+", "-", cpu_name().lower()).strip("-")
    target = os.path.join(root, "results", "bench", name + ".csv")
    fresh = not os.path.exists(target)
    with open(target, "a", newline="", encoding="utf-8") as out:
        table = csv.writer(out, lineterminator="\n")
        if fresh:
            table.writerow(["date", "commit", "threads", "name", "value", "unit"])
        for threads, what, value, unit in rows:
            table.writerow([now, commit(root), threads, what, f"{value:.6g}", unit])
            print(f"{what:52} {value:12.5g} {unit}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
