#!/usr/bin/env python3
"""Runs the benchmarks of a build folder and prints ratios.

bench/report.py BUILD [FILTER]

A benchmark is named GROUP/WHAT (for instance places/ours, places/baseline_plain_loop). Within a group the
one whose WHAT begins with "baseline" is the yardstick: the others are printed as its multiple, so that
figures of different machines can be laid side by side. A group without a baseline prints plain times.
"""
import json
import pathlib
import subprocess
import sys

UNITS = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}


def measure(program, pattern):
    """Median of five repetitions, in seconds of CPU (or as the benchmark measured itself), by name."""
    command = [str(program), "--benchmark_format=json", "--benchmark_repetitions=5",
               "--benchmark_report_aggregates_only=true", "--benchmark_min_time=0.2"]
    if pattern:
        command.append(f"--benchmark_filter={pattern}")
    result = subprocess.run(command, check=True, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    if not result.stdout.strip():
        return {}
    times = {}
    for row in json.loads(result.stdout)["benchmarks"]:
        if row.get("aggregate_name") == "median":
            # A benchmark that times another program says the time itself.
            clock = "real_time" if row["run_name"].endswith("manual_time") else "cpu_time"
            times[row["run_name"]] = row[clock] * UNITS[row["time_unit"]]
    return times


def print_group(group, times):
    """One line per benchmark of the group, as a multiple of the group's baseline when it has one."""
    baselines = [name for name in times if name.split("/", 1)[-1].startswith("baseline")]
    for name in sorted(times, key=lambda n: (n not in baselines, n)):
        what = name.split("/", 1)[-1]
        line = f"  {what:<44} {times[name] * 1e3:12.4f} ms"
        if baselines and name not in baselines:
            ratio = times[name] / times[baselines[0]]
            line += f"   {ratio:8.2f} x {baselines[0].split('/', 1)[-1]}"
            if ratio < 0.2:
                line += f" ({1 / ratio:.0f} times as fast)"
        print(line)


def main():
    build = pathlib.Path(sys.argv[1])
    pattern = sys.argv[2] if len(sys.argv) > 2 else ""
    programs = sorted((build / "benches").glob("bench_*"))
    if not programs:
        print("no benchmarks were built", file=sys.stderr)
        return 1
    for program in programs:
        groups = {}
        for name, seconds in measure(program, pattern).items():
            groups.setdefault(name.split("/", 1)[0], {})[name] = seconds
        for group, times in groups.items():
            print(f"{program.name.removeprefix('bench_')}: {group}")
            print_group(group, times)
    return 0


if __name__ == "__main__":
    sys.exit(main())
