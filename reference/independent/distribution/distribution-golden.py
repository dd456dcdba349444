"""Golden tails and quantiles of our own distribution functions, over shapes to 1e6 and tails to 1e-300.
Every tail is summed here from its defining positive series at enough digits that 50 remain after the complement; the sums
are compared with mpmath's own gammainc and betainc where those are quick. SciPy only proposes where to stand.
A quantile is exact at the rounded tail: x + (rounded tail - tail) / density, whose next term is below 1e-19 of it.
Condition numbers: tails by their point (x f / tail), quantiles by their tail (tail / (x f)).
Origin: mpmath 1.3.0 and SciPy 1.17.1, made 2026-11-26. Run: python3 distribution-golden.py > distribution-golden.json"""
import json
import math
import random
import sys
import mpmath as mp
from scipy import special as sp

DIGITS = 380  # 50 after a complement of 1e-300, and a margin
mp.mp.dps = DIGITS
M = mp.mpf


def stop(term, total):
    return term < total * M(10) ** (-DIGITS)


def gamma_tails(a, x):
    """P, Q and x times the density at exact doubles a and x."""
    a, x = M(a), M(x)
    front = mp.exp(a * mp.log(x) - x - mp.loggamma(a + 1))
    term, total, n = M(1), M(1), 0
    while not (stop(term, total) and x < a + n):
        n += 1
        term = term * x / (a + n)
        total += term
    lower = front * total
    return lower, 1 - lower, front * a


def beta_tails(a, b, x, y):
    """I, 1 - I and x times the density, x + y = 1 exactly in mpmath."""
    if x > y:
        lower, upper, slope = beta_tails(b, a, y, x)
        return upper, lower, slope * x / y
    front = mp.exp(a * mp.log(x) + b * mp.log(y) + mp.loggamma(a + b) - mp.loggamma(a) - mp.loggamma(b))
    term, total, n = M(1), M(1), 0
    while not (stop(term, total) and (a + b + n) * x < a + n):
        term = term * (a + b + n) / (a + 1 + n) * x
        total += term
        n += 1
    lower = front / a * total
    return lower, 1 - lower, front / y


def check_the_sums():
    mp.mp.dps = 60
    for a, x in [(0.5, 0.1), (3, 2), (40, 70), (250.5, 200)]:
        theirs = mp.gammainc(M(a), M(x), mp.inf, regularized=True)
        assert abs(gamma_tails(a, x)[1] / theirs - 1) < 1e-45, (a, x)
    for a, b, x in [(0.5, 0.5, 0.1), (3, 7, 0.4), (40, 15.5, 0.9)]:
        theirs = mp.betainc(M(a), M(b), 0, M(x), regularized=True)
        assert abs(beta_tails(M(a), M(b), M(x), 1 - M(x))[0] / theirs - 1) < 1e-45, (a, b, x)
    mp.mp.dps = DIGITS


def quantile(x, tail, slope, sign):
    """Where the double nearest to `tail` is reached; `slope` is x times the density. None above 1 - 1e-6."""
    rounded = M(float(tail))
    if tail > 1 - M("1e-6"):
        return None
    return float(M(x) + sign * (rounded - tail) * M(x) / slope)


def row(point, x, lower, upper, slope):
    """[...point, lower, condition, upper, condition, x at lower, x at upper, condition lower, condition upper]"""
    slope = abs(slope)
    return [
        *point, float(lower), float(slope / lower), float(upper), float(slope / upper),
        quantile(x, lower, slope, 1), quantile(x, upper, slope, -1), float(lower / slope), float(upper / slope),
    ]


TAILS = [1e-299, 1e-200, 1e-100, 1e-40, 1e-15, 1e-6, 0.001, 0.025, 0.2]
SHAPES = [0.5, 0.75, 1, 1.5, 2, 3.5, 10, 19.5, 21, 75, 400, 900.5, 1082, 2500, 20000, 150000, 1000000]
SMALL_SHAPES = [1e-6, 0.001, 0.05, 0.3]


def standing(finite):
    return [x for x in finite if x > 1e-299 and math.isfinite(x)]


def gamma_rows():
    rows = []
    for a in [*SMALL_SHAPES, *SHAPES]:
        xs = [float(sp.gammaincinv(a, t)) for t in TAILS] + [float(a)] + [float(sp.gammainccinv(a, t)) for t in TAILS]
        if a < 1:
            xs += [1e-250, 1e-20, 1e-3, 0.4, 1.4999, 1.5, 2]
        for x in standing(xs):
            lower, upper, slope = gamma_tails(a, x)
            if min(lower, upper) > M("1e-300"):
                rows.append(row([a, x], x, lower, upper, slope))
    return rows


def beta_rows():
    rows = []
    pairs = [(0.5, 0.5), (0.5, 1), (1, 1), (2, 0.5), (2.5, 7), (20, 3), (19.5, 20.5), (0.5, 1000), (1, 30000), (5, 100000),
             (300, 299.5), (1, 1000000), (0.5, 1000000), (12, 1000000), (4000, 60), (25000, 70000), (1000, 1000000),
             (1000000, 1000000), (500000, 1000000)]
    for a, b in pairs:
        xs = [float(sp.betaincinv(a, b, t)) for t in TAILS] + [a / (a + b)] + [float(sp.betainccinv(a, b, t)) for t in TAILS]
        for x in standing(xs):
            if x >= 1:
                continue
            lower, upper, slope = beta_tails(M(a), M(b), M(x), 1 - M(x))
            if min(lower, upper) > M("1e-300"):
                rows.append(row([a, b, x], x, lower, upper, slope))
    return rows


def poisson_rows():
    """[k, m, P(X = k), condition, P(X <= k), condition, P(X >= k), condition], conditions by m"""
    rows = []
    for m in [1e-280, 1e-9, 0.03, 0.7, 3.07, 10.3, 47.25, 500.5, 5000, 73456.7, 1000000]:
        ks = {0, 1, 2, 7, int(m)}
        for t in TAILS:
            z = float(sp.ndtri(t))
            for s in (z, -z):
                ks.add(max(0, int(m + s * math.sqrt(m) + (s * s - 1) / 6)))
        for k in sorted(ks):
            if k * math.log(m) - m - math.lgamma(k + 1) < -692:  # under 1e-300: outside the promise, and slow
                continue
            at_least, _, slope_up = gamma_tails(k, m) if k > 0 else (M(1), M(0), M(0))
            _, at_most, slope_down = gamma_tails(k + 1, m)
            term = at_least - (1 - at_most) if k > 0 else mp.exp(-M(m))
            if term > M("1e-300"):
                rows.append([k, m, float(term), float(abs(k - M(m))), float(at_most), float(slope_down / at_most),
                             float(at_least), float(slope_up / at_least)])
    return rows


def binomial_rows():
    """[k, n, p, P(X = k), condition, P(X <= k), condition, P(X >= k), condition], conditions by p"""
    rows = []
    for n, p in [(1, 0.3), (12, 0.02), (29, 0.5), (148, 1e-12), (263, 0.31), (1000, 0.999), (20000, 1e-4), (100000, 0.04),
                 (1000000, 0.5), (1000000, 3e-6), (1000000, 0.9)]:
        ks = {0, 1, n // 2, n, int(n * p)}
        for t in TAILS:
            z = float(sp.ndtri(t))
            for s in (z, -z):
                ks.add(min(n, max(0, int(n * p + s * math.sqrt(n * p * (1 - p)) + (1 - 2 * p) * (s * s - 1) / 6))))
        x, y = M(p), 1 - M(p)
        for k in sorted(ks):
            log_term = math.lgamma(n + 1) - math.lgamma(k + 1) - math.lgamma(n - k + 1) + k * math.log(p) + (n - k) * math.log1p(-p)
            if log_term < -692:  # under 1e-300: outside the promise, and slow
                continue
            at_least, slope_up = (M(1), M(0))
            if k > 0:
                at_least, _, slope_up = beta_tails(M(k), M(n - k + 1), x, y)
            at_most, slope_down = (M(1), M(0))
            if k < n:
                _, at_most, slope_down = beta_tails(M(k + 1), M(n - k), x, y)
            term = mp.exp(mp.loggamma(n + 1) - mp.loggamma(k + 1) - mp.loggamma(n - k + 1) + k * mp.log(x) + (n - k) * mp.log(y))
            if term > M("1e-300"):
                rows.append([k, n, p, float(term), float(abs(k - n * x) / y), float(at_most), float(slope_down / at_most),
                             float(at_least), float(slope_up / at_least)])
    return rows


def student_rows():
    rows = []
    for df in [1, 2, 3.5, 9, 30, 119, 1000, 1000000]:
        for t in [1e-200, 1e-8, 0.1, 0.7, 1.5, 2.5, 6, 20, 36.5, 1000, 1e20, 1e140]:
            v, T = M(df), M(t)
            square = T * T / v
            x, y = square / (1 + square), 1 / (1 + square)
            _, upper, slope = beta_tails(M(0.5), v / 2, x, y)
            upper, slope = upper / 2, slope * y  # x f(x) dx/dt t/x = x f(x) 2 y, and half of it
            if upper > M("1e-300"):
                rows.append(row([df, t], t, 1 - upper, upper, slope))
    return rows


def f_rows():
    rows = []
    for d1, d2 in [(1, 1), (1, 30), (2, 7), (8, 2), (20, 14), (15, 400), (1000, 3), (20000, 30000), (1000000, 10), (1000000, 2000000)]:
        for t in [1e-120, 1e-8, 0.3, 0.9, 1, 1.001, 1.02, 1.6, 4, 30, 1e7, 1e100]:
            r = M(t) * d1 / d2
            x, y = r / (1 + r), 1 / (1 + r)
            # where one tail is certainly under 1e-300 the point is outside the promise
            if abs(math.log(t)) * math.sqrt(1 / (2 / d1 + 2 / d2)) > 60 and min(d1, d2) > 20:
                continue
            lower, upper, slope = beta_tails(M(d1) / 2, M(d2) / 2, x, y)
            if min(lower, upper) > M("1e-300"):
                rows.append(row([d1, d2, t], t, lower, upper, slope * y))
    return rows


def between_gamma_rows():
    """Points nobody chose: shapes and tails drawn on a log scale, seeded, three in ten beside the mean."""
    random.seed(5)
    rows = []
    while len(rows) < 150:
        a = math.exp(random.uniform(math.log(0.02), math.log(3000)))
        t = 10 ** random.uniform(-295, -0.3)
        x = float((sp.gammaincinv if random.random() < 0.5 else sp.gammainccinv)(a, t))
        if random.random() < 0.3:
            x = a * random.uniform(0.8, 1.2)
        if 1e-290 < x < 1e9:
            lower, upper, slope = gamma_tails(a, x)
            if min(lower, upper) > M("1e-300"):
                rows.append(row([a, x], x, lower, upper, slope))
    return rows


def between_beta_rows():
    random.seed(6)
    rows = []
    while len(rows) < 150:
        a, b = [math.exp(random.uniform(math.log(0.5), math.log(3000))) for _ in "ab"]
        t = 10 ** random.uniform(-295, -0.3)
        x = float((sp.betaincinv if random.random() < 0.5 else sp.betainccinv)(a, b, t))
        if 1e-290 < x < 1:
            lower, upper, slope = beta_tails(M(a), M(b), M(x), 1 - M(x))
            if min(lower, upper) > M("1e-300"):
                rows.append(row([a, b, x], x, lower, upper, slope))
    return rows


def normal_rows():
    """[p, z, condition p / (z f)], z from the logarithm of erfc so that the far tail keeps its digits"""
    rows = []
    for p in [1e-300, 1e-200, 1e-100, 1e-50, 1e-20, 1e-10, 1e-5, 0.00135, 0.01, 0.025, 0.05, 0.1, 0.2, 0.3, 0.45, 0.49, 0.499,
              0.5001, 0.6, 0.8, 0.95, 0.975, 0.999]:
        P = M(p)
        start = -mp.sqrt(-2 * mp.log(P)) if p < 0.1 else mp.sqrt(2) * mp.erfinv(2 * P - 1)
        z = mp.findroot(lambda z: mp.log(mp.erfc(-z / mp.sqrt(2)) / 2) - mp.log(P), start)
        rows.append([p, float(z), float(abs(P / (z * mp.npdf(z))))])
    return rows


def log_gamma_rows():
    """[x, ln Gamma, condition]"""
    xs = [1e-300, 1e-10, 0.001, 0.3, 0.5, 0.75, 0.999, 0.9999999, 1.0000001, 1.2, 1.5, 1.9999, 2.0000001, 2.4, 2.5, 3, 7.7, 12.5,
          19.999, 20, 20.5, 55.5, 171.6, 1e4, 123456.75, 1e6, 1e15]
    rows = []
    for x in xs:
        mp.mp.dps = 60
        value = mp.loggamma(M(x))
        gamma = float(mp.gamma(M(x))) if 1e-300 < x <= 171.6 else None
        rows.append([x, float(value), float(abs(x * mp.digamma(M(x)) / value)), gamma, float(abs(x * mp.digamma(M(x))))])
        mp.mp.dps = DIGITS
    return rows


if __name__ == "__main__":
    check_the_sums()
    parts = {}
    for name, make in [("logGamma", log_gamma_rows), ("gamma", gamma_rows), ("beta", beta_rows), ("poisson", poisson_rows),
                       ("binomial", binomial_rows), ("student", student_rows), ("f", f_rows),
                       ("normal", normal_rows), ("betweenGamma", between_gamma_rows), ("betweenBeta", between_beta_rows)]:
        parts[name] = make()
        print(name, len(parts[name]), file=sys.stderr)
    print("{" + ",\n".join(f'"{name}": [\n' + ",\n".join(json.dumps(r) for r in rows) + "\n]" for name, rows in parts.items()) + "}")
