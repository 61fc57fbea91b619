#!/usr/bin/env python3
"""kill9.py PROGRAM [ROUNDS=200]: ends the program with kill -9 at random moments while it writes.

Each round starts one act on the same programme file (an answer, taking in the weather log again, or a plan)
and kills it at a moment drawn from 0 to 1.15 times the act's own duration, more often near its end, where it
commits. An act that ended by itself with status 0 was acknowledged. After every round the file must open
with the program, hold every acknowledged change (of an act that was killed: all of it or nothing), keep
the newest acknowledged plan, and pass SQLite's integrity check and the GeoPackage validator. The last line
is "N of N files open, validate and hold every acknowledged change".
"""
import json
import pathlib
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

DEMO = pathlib.Path(__file__).resolve().parent.parent.parent / "demo" / "poor"
TODAY = "2026-02-02"


class Programme:
    """One programme file, the acts we do on it, and what has been acknowledged."""

    def __init__(self, program, folder):
        self.program = program
        self.file = folder / "killed.gpkg"
        self.trees = 0          # the newest acknowledged answer
        self.maybe_trees = None  # the answer of a killed act: may be there or not
        self.plans = 0          # acknowledged plans
        self.acts = 0           # acknowledged acts
        self.rain_days = 0

    def command(self, act, number):
        if act == "answer":
            return ["answer", self.file, "--all", "--natural-trees", str(number), "--who", "crew leader", "--on", TODAY]
        if act == "weather":
            return ["take", "weather", self.file, DEMO / "invented_rain.csv", "--replace"]
        return ["plan", self.file, "--seed", str(number), "--today", TODAY]

    def start(self, arguments):
        return subprocess.Popen([str(self.program), *map(str, arguments)], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)

    def run(self, *arguments):
        """Runs an act to its end. Returns its seconds; anything but status 0 ends the test."""
        begin = time.monotonic()
        process = self.start(arguments)
        _, complaint = process.communicate()
        if process.returncode != 0:
            sys.exit(f"{' '.join(map(str, arguments))}: status {process.returncode}: {complaint.decode()}")
        return time.monotonic() - begin

    def query(self, sql):
        with sqlite3.connect(f"file:{self.file}?mode=ro", uri=True) as database:
            return database.execute(sql).fetchall()


def make(programme):
    """A small programme with one plan; returns the median seconds of each act."""
    programme.run("new", programme.file, "--name", "Killed (invented)", "--spacing", "2.7", "--today", TODAY)
    programme.run("take", "boundary", programme.file, DEMO / "invented_walk.gpx")
    programme.run("take", "weather", programme.file, DEMO / "invented_rain.csv")
    programme.run("take", "species", programme.file, DEMO / "invented_species.csv")
    # Eight species cannot keep the shipped shares: the manager of this test allows more.
    for key, share in (("mix.pioneer_share_max", "0.8"), ("mix.species_cap_share", "0.6")):
        programme.run("set", programme.file, key, share, "--source", "crew leader, told")
    programme.run("answer", programme.file, "--all", "--who", "crew leader", "--on", TODAY, "--consent", "yes",
                  "--fire-and-cattle", "yes", "--natural-trees", "1", "--drained-peat", "no")
    programme.trees = 1
    seconds = {}
    for act in ("answer", "weather", "plan"):
        runs = []
        for number in (2, 3, 4):
            runs.append(programme.run(*programme.command(act, number)))
            if act == "answer":
                programme.trees = number
        seconds[act] = sorted(runs)[1]
    programme.plans = programme.query("SELECT max(number) FROM plans")[0][0]
    programme.acts = programme.query("SELECT count(*) FROM change_sets")[0][0]
    programme.rain_days = programme.query("SELECT count(*) FROM weather_days")[0][0]
    return seconds


def kill_one(programme, act, number, wait):
    """Starts the act and kills it after `wait` seconds; true when it had already ended well."""
    process = programme.start(programme.command(act, number))
    try:
        process.wait(timeout=wait)
    except subprocess.TimeoutExpired:
        process.send_signal(signal.SIGKILL)
    process.communicate()
    if process.returncode not in (0, -signal.SIGKILL):
        raise AssertionError(f"{act} ended with status {process.returncode}")
    return process.returncode == 0


def faults(programme):
    """What is wrong with the file now: a list of sentences."""
    found = []
    shown = subprocess.run([str(programme.program), "show", str(programme.file), "--format", "json"],
                           stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    if shown.returncode != 0:
        found.append(f"show: status {shown.returncode}: {shown.stderr.decode()[:200]}")
    else:
        json.loads(shown.stdout)
    if programme.query("PRAGMA integrity_check") != [("ok",)]:
        found.append("integrity check")
    valid = subprocess.run(["/usr/bin/python3", "-m", "osgeo_utils.samples.validate_gpkg", str(programme.file)],
                           stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False)
    if valid.returncode != 0:
        found.append(f"validator: {valid.stdout.decode()[-200:]}")
    trees = {row[0] for row in programme.query(
        "SELECT natural_trees_per_ha FROM gate_answers WHERE gate = 'natural_trees_counted'")}
    allowed = [{float(programme.trees)}] + ([{float(programme.maybe_trees)}] if programme.maybe_trees is not None else [])
    if trees not in allowed:
        found.append(f"natural trees {trees}, acknowledged {programme.trees}, killed {programme.maybe_trees}")
    else:
        programme.trees, programme.maybe_trees = int(trees.pop()), None
    plans = programme.query("SELECT max(number) FROM plans")[0][0]
    if plans < programme.plans:
        found.append(f"newest plan {plans}, acknowledged {programme.plans}")
    whole = programme.query("SELECT count(*) FROM plans WHERE uid NOT IN (SELECT plan_uid FROM workings)")[0][0]
    if whole:
        found.append(f"{whole} plans without their workings")
    if programme.query("SELECT count(*) FROM weather_days")[0][0] != programme.rain_days:
        found.append("days of the weather log are missing")
    acts = programme.query("SELECT count(*) FROM change_sets")[0][0]
    if acts < programme.acts:
        found.append(f"{acts} acts in the log, {programme.acts} acknowledged")
    programme.acts, programme.plans = max(acts, programme.acts), max(plans, programme.plans)
    return found


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    rounds = int(sys.argv[2]) if len(sys.argv) > 2 else 200
    draw = random.Random(9)
    folder = pathlib.Path(tempfile.mkdtemp(prefix="kill9-"))
    good = killed = 0
    try:
        programme = Programme(program, folder)
        seconds = make(programme)
        print("seconds of an act left alone: " + ", ".join(f"{act} {s:.2f}" for act, s in seconds.items()))
        for number in range(1, rounds + 1):
            act = ("plan", "answer", "plan", "weather")[number % 4]
            share = draw.uniform(0, 1.15) if draw.random() < 0.5 else draw.uniform(0.6, 1.1)
            ended = kill_one(programme, act, 1000 + number, share * seconds[act])
            killed += not ended
            if act == "answer":
                programme.maybe_trees = 1000 + number
                if ended:
                    programme.trees, programme.maybe_trees = 1000 + number, None
            programme.acts += ended
            programme.plans += ended and act == "plan"
            found = faults(programme)
            good += not found
            for fault in found:
                print(f"round {number}, {act} killed after {share:.2f} of its time: {fault}")
    finally:
        shutil.rmtree(folder)
    print(f"{killed} of {rounds} acts were killed before their end")
    print(f"{good} of {rounds} files open, validate and hold every acknowledged change")
    return 0 if good == rounds and killed > rounds // 4 else 1


if __name__ == "__main__":
    sys.exit(main())
