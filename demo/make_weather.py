#!/usr/bin/env python3
"""Makes the invented weather of the two demo programmes. No station measured any of it.

demo/make_weather.py [--years N] [--seed N] [--poor] > FILE

A day is wet or dry by a two-state chain; the rain of a wet day is a mixture of two exponentials (showers
and storms); temperature and humidity follow the month and whether it rains. The monthly figures are our
own, set so that a year has about 3,000 mm with a drier July to September, as lowland Borneo may have; in
the fifth year (and its like every eleventh) the drier season is long and nearly rainless. Only the
standard library, one generator of our own, no clock: the same arguments give the same bytes everywhere.
"""
import argparse
import datetime
import math
import sys

# Month by month: chance of rain after a dry day, after a wet day, mean rain of a wet day in mm.
AFTER_DRY = [0.52, 0.50, 0.52, 0.52, 0.42, 0.34, 0.24, 0.22, 0.27, 0.42, 0.54, 0.56]
AFTER_WET = [0.70, 0.68, 0.70, 0.69, 0.62, 0.55, 0.46, 0.44, 0.50, 0.62, 0.71, 0.73]
MEAN_WET_MM = [16.4, 15.9, 16.9, 17.2, 15.5, 13.5, 12.3, 11.9, 13.2, 16.0, 17.6, 17.4]
WARMEST_C = [31.0, 31.3, 31.9, 32.2, 32.4, 32.1, 32.0, 32.4, 32.6, 32.4, 31.9, 31.2]
COOLEST_C = [23.1, 23.1, 23.3, 23.5, 23.6, 23.2, 22.7, 22.7, 22.9, 23.1, 23.3, 23.2]
DRY_YEAR = {6: 0.55, 7: 0.30, 8: 0.12, 9: 0.18, 10: 0.45}  # month: factor on the chance of rain
STATION = "Luak Bening (invented)"


class Numbers:
    """Uniform numbers in (0, 1) by splitmix64: the same on every machine and Python."""

    def __init__(self, seed):
        self.state = seed & (2**64 - 1)

    def uniform(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & (2**64 - 1)
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & (2**64 - 1)
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & (2**64 - 1)
        return (((z ^ (z >> 31)) >> 11) + 0.5) / 2**53

    def exponential(self, mean):
        return -mean * math.log(self.uniform())

    def bell(self):
        """About normal, sd 1: the sum of twelve uniform numbers less six."""
        return sum(self.uniform() for _ in range(12)) - 6


def days(first, years, numbers):
    """One (date, rain, warmest, coolest, moistest, driest) per day, in C, mm and per cent."""
    wet, warmth = True, 0.0
    day = first
    while day.year < first.year + years:
        month = day.month - 1
        dry_year = (day.year - first.year) % 11 == 4
        factor = DRY_YEAR.get(day.month, 1.0) if dry_year else 1.0
        wet = numbers.uniform() < factor * (AFTER_WET if wet else AFTER_DRY)[month]
        mean = MEAN_WET_MM[month] * (0.75 if factor < 1 else 1.0)
        rain = numbers.exponential(mean * (0.55 if numbers.uniform() < 0.7 else 2.05)) if wet else 0.0
        warmth = 0.6 * warmth + 0.55 * numbers.bell()
        warmest = WARMEST_C[month] + warmth + (-0.7 if rain > 5 else 0.5) + (1.0 if factor < 0.5 else 0.0)
        coolest = COOLEST_C[month] + 0.3 * warmth + 0.35 * numbers.bell()
        moistest = min(99.0, 96.0 + 1.2 * numbers.bell())
        driest = 61.0 - 3.2 * (warmest - 31.8) + (5.0 if rain > 5 else 0.0) + 2.5 * numbers.bell()
        yield day, rain, warmest, coolest, moistest, max(35.0, min(85.0, driest))
        day += datetime.timedelta(days=1)


def write_full(years, seed):
    """Eleven years with what a small automatic station writes; some cells and a few days are missing."""
    numbers, holes = Numbers(seed), Numbers(seed + 1)
    print("date,rain_mm,tmax_c,tmin_c,rh_max_pct,rh_min_pct,station")
    no_sensor = 0
    for day, rain, warmest, coolest, moistest, driest in days(datetime.date(2015, 1, 1), years, numbers):
        if holes.uniform() < 0.0012:
            continue  # nobody wrote the day down
        if no_sensor == 0 and holes.uniform() < 0.0010:
            no_sensor = 1 + int(9 * holes.uniform())  # flat battery: the gauge is read by hand
        cells = [f"{warmest:.1f}", f"{coolest:.1f}", f"{moistest:.0f}", f"{driest:.0f}"]
        if no_sensor > 0:
            no_sensor -= 1
            cells = [""] * 4
        rain_text = "" if holes.uniform() < 0.0015 else f"{rain:.1f}"
        print(",".join([day.isoformat(), rain_text, *cells, STATION]))


def write_poor(seed):
    """Twenty-two months of a hand-read gauge: day first, decimal commas, gaps, one day written twice."""
    numbers, holes = Numbers(seed), Numbers(seed + 1)
    first = datetime.date(2024, 3, 1)
    print("tanggal;hujan_mm")
    gaps = [(datetime.date(2024, 7, 9), 12), (datetime.date(2024, 12, 21), 16), (datetime.date(2025, 5, 30), 5)]
    for day, rain, *_ in days(datetime.date(2024, 1, 1), 2, numbers):
        if day < first or any(start <= day < start + datetime.timedelta(days=n) for start, n in gaps):
            continue
        if holes.uniform() < 0.012:
            continue
        # A person reads to whole or half millimetres and does not see less than a drop.
        seen = 0.0 if rain < 0.5 else round(2 * rain) / 2
        line = f"{day:%d/%m/%Y};{seen:.1f}".replace(".", ",")
        print(line)
        if day == datetime.date(2025, 2, 11):
            print(line)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--years", type=int, default=11)
    parser.add_argument("--seed", type=int, default=20150101)
    parser.add_argument("--poor", action="store_true")
    arguments = parser.parse_args()
    if arguments.poor:
        write_poor(arguments.seed)
    else:
        write_full(arguments.years, arguments.seed)


if __name__ == "__main__":
    sys.exit(main())
