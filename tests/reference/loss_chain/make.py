#!/usr/bin/env python3
"""Exact chance that at least `need` of n pass seven beta-binomial stages: sums over how many pass each stage, in
double precision with math.lgamma. Prints data.csv. Takes about half a minute."""
import math

MEANS = (.75, .70, .90, .85, .95, .90, .97)
CORRELATIONS = (.08, .05, .04, .02, .02, .005, .005)


def log_choose(n, k):
    return math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1)


def log_beta(a, b):
    return math.lgamma(a) + math.lgamma(b) - math.lgamma(a + b)


def chance(need, n):
    now = [0.0] * n + [1.0]
    for mean, correlation in zip(MEANS, CORRELATIONS):
        both = 1 / correlation - 1
        a, b = mean * both, (1 - mean) * both
        first = log_beta(a, b)
        following = [0.0] * (n + 1)
        for start in range(n + 1):
            if now[start] < 1e-18:
                continue
            for end in range(start + 1):
                term = log_choose(start, end) + log_beta(end + a, start - end + b) - first
                following[end] += now[start] * math.exp(term)
        now = following
    return sum(now[need:])


print("need,n,chance")
for need, n in ((20, 90), (50, 253), (50, 254), (200, 992), (200, 993)):
    print(f"{need},{n},{chance(need, n):.8f}")
