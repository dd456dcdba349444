"""Golden tails and quantiles at the edges that distribution-golden.py leaves out: shapes of the beta under one half, the
negative binomial over sizes and counts to 1e6, the normal tail by small steps, quantiles at tails beside one, and whole
numbers that are quantiles. The sums are those of distribution-golden.py; a quantile here is found by Newton's steps in
mpmath on the double asked for, until it no longer moves.
Origin: mpmath 1.3.0 and SciPy 1.17.1, made 2026-11-26. Run: python3 distribution-edges-golden.py > distribution-edges-golden.json"""
import importlib
import json
import math
import random
import sys
import mpmath as mp
from scipy import special as sp

base = importlib.import_module("distribution-golden")
M, TAILS, beta_tails, gamma_tails, row, standing = mp.mpf, base.TAILS, base.beta_tails, base.gamma_tails, base.row, base.standing


def digits(n):
    """The sums stop at their own number of digits; far tails need all of them, tails beside one do not."""
    base.DIGITS = n
    mp.mp.dps = n
    least = M(10) ** -n
    base.stop = lambda term, total: term < total * least


def small_beta_rows():
    rows = []
    for a, b in [(0.02, 0.02), (0.02, 1), (0.05, 30), (0.1, 0.3), (0.2, 7.5), (0.3, 0.45), (0.4, 1000), (0.25, 100000), (3, 0.1), (500, 0.2)]:
        xs = [float(sp.betaincinv(a, b, t)) for t in TAILS] + [a / (a + b)] + [float(sp.betainccinv(a, b, t)) for t in TAILS]
        for x in standing(xs):
            if x < 1:
                lower, upper, slope = beta_tails(M(a), M(b), M(x), 1 - M(x))
                if min(lower, upper) > M("1e-300"):
                    rows.append(row([a, b, x], x, lower, upper, slope))
    return rows


def negative_binomial_rows():
    """[k, r, p, P(X <= k), condition, P(X >= k), condition], conditions by p"""
    rows = []
    random.seed(7)
    pairs = [(0.5, 0.3), (0.5, 1e-5), (1, 0.0193482688), (1, 0.9), (1, 2e-5), (3.5, 0.02), (5, 0.5), (12.5, 0.0004), (75, 0.6),
             (400, 0.01), (2500.5, 0.05), (40000, 0.5), (250000, 0.3), (1000000, 0.9), (1000000, 0.6)]
    pairs += [(math.exp(random.uniform(-0.6, 9)), math.exp(random.uniform(-7, -0.01))) for _ in range(10)]
    for r, p in pairs:
        mean, sd = r * (1 - p) / p, math.sqrt(r * (1 - p)) / p
        ks = {0, 1, 2, 7, int(mean)}
        for t in TAILS:
            z = float(sp.ndtri(t))
            for s in (z, -z):
                ks.add(max(0, int(mean + s * sd + (s * s - 1) / 6 * (2 - p) / p)))
        for k in sorted(ks):
            if k > 1000000:
                continue
            log_term = math.lgamma(r + k) - math.lgamma(r) - math.lgamma(k + 1) + r * math.log(p) + k * math.log1p(-p)
            if log_term < -690:  # one tail may lie under 1e-300: outside the promise, and slow
                continue
            x, y = M(p), 1 - M(p)
            at_most, _, slope = beta_tails(M(r), M(k + 1), x, y)
            at_least, slope_up = M(1), M(0)
            if k > 0:
                _, at_least, slope_up = beta_tails(M(r), M(k), x, y)
            if min(at_most, at_least) > M("1e-300"):
                rows.append([k, r, p, float(at_most), float(slope / at_most), float(at_least), float(slope_up / at_least)])
    return rows


def normal_rows():
    """[z, lower tail, condition |z| f / tail]"""
    rows = []
    mp.mp.dps = 60
    for k in range(-300, 68):
        z = k / 8 + (0.0078125 if k % 2 else 0)
        tail = mp.erfc(-M(z) / mp.sqrt(2)) / 2
        if tail > M("1e-300"):
            rows.append([z, float(tail), float(abs(M(z)) * mp.npdf(M(z)) / tail)])
    return rows


BESIDE_ONE = [1 - 2.0**-k for k in (20, 23, 30, 37, 44, 50, 53)]


def newton(x, at, complement):
    """Where the upper tail is `complement`; `at` gives the upper tail and the density times x."""
    for _ in range(60):
        upper, slope = at(x)
        step = mp.log(upper / complement) * upper / slope  # on the logarithm of the tail, which bends little
        x = x * mp.exp(max(-5, min(5, step)))
        if abs(step) < M(10) ** -40:
            return x
    raise ValueError((x, complement))


def beside_one_rows():
    """[family, shapes..., tail, x of the lower tail, condition]: gamma, beta (as odds), Student t, F, normal"""
    rows = []
    digits(70)
    for p in BESIDE_ONE:
        q = 1 - M(p)
        for a in [0.05, 0.5, 1, 3.5, 21, 400, 20000, 1000000]:
            x = newton(M(float(sp.gammainccinv(a, float(q)))), lambda x: gamma_tails(a, x)[1:], q)
            rows.append(["gamma", [a], p, float(x), float(M(p) / gamma_tails(a, x)[2])])
        for a, b in [(0.5, 0.5), (1, 1), (2.5, 7), (20, 3), (300, 299.5), (12, 100000), (1000000, 1000000)]:
            def at_odds(odds):
                y = 1 / (1 + odds)
                _, upper, slope = beta_tails(M(a), M(b), odds * y, y)
                return upper, slope * y
            x = float(sp.betainccinv(a, b, float(q)))
            start = M(x) / (1 - M(x)) if x < 1 else M(1) / q
            odds = newton(start, at_odds, q)
            rows.append(["beta", [a, b], p, float(odds), float(M(p) / at_odds(odds)[1])])
            if a < 20000:  # the F of 2a and 2b, f = odds b / a
                rows.append(["f", [2 * a, 2 * b], p, float(odds * b / a), float(M(p) / at_odds(odds)[1])])
        for df in [1, 3.5, 30, 1000, 1000000]:
            def at_t(t):
                square = t * t / M(df)
                y = 1 / (1 + square)
                _, upper, slope = beta_tails(M(0.5), M(df) / 2, square * y, y)
                return upper / 2, slope * y
            t = newton(M(float(sp.stdtrit(df, p))), at_t, q)
            rows.append(["student", [df], p, float(t), float(M(p) / at_t(t)[1])])
        z = newton(M(float(-sp.ndtri(float(q)))), lambda z: (mp.erfc(z / mp.sqrt(2)) / 2, z * mp.npdf(z)), q)
        rows.append(["normal", [], p, float(z), float(M(p) / (z * mp.npdf(z)))])
    return rows


def grid_rows():
    """[part, shapes..., side, tail, x]: the places of distribution-golden.json whose tail lies within 1e-6 of one, but not at
    one, where that file gives no quantile. The complement of the double asked for is exact."""
    digits(70)
    golden = json.load(open("distribution-golden.json"))
    rows = []
    for part, width in [("gamma", 2), ("betweenGamma", 2), ("beta", 3), ("betweenBeta", 3), ("student", 2), ("f", 3)]:
        for values in golden[part]:
            shapes, x = values[: width - 1], M(values[width - 1])
            for side in (0, 1):
                p = values[width + 2 * side]
                if values[width + 4 + side] is not None or p >= 1:
                    continue
                q = 1 - M(p)
                if "amma" in part:
                    both = lambda x: gamma_tails(shapes[0], x)
                elif "eta" in part:
                    x = x / (1 - x)  # the odds
                    def both(odds):
                        y = 1 / (1 + odds)
                        lower, upper, slope = beta_tails(M(shapes[0]), M(shapes[1]), odds * y, y)
                        return lower, upper, slope * y
                elif part == "f":
                    def both(f):
                        odds = f * M(shapes[0]) / M(shapes[1])
                        y = 1 / (1 + odds)
                        lower, upper, slope = beta_tails(M(shapes[0]) / 2, M(shapes[1]) / 2, odds * y, y)
                        return lower, upper, slope * y
                else:
                    def both(t):
                        square = t * t / M(shapes[0])
                        y = 1 / (1 + square)
                        _, upper, slope = beta_tails(M(0.5), M(shapes[0]) / 2, square * y, y)
                        return 1 - upper / 2, upper / 2, slope * y
                if side == 0:
                    x = newton(x, lambda x: both(x)[1:], q)
                else:  # falling from the other end: one over x rises where x falls
                    x = 1 / newton(1 / x, lambda u: (both(1 / u)[0], both(1 / u)[2]), q)
                if "eta" in part:
                    x = x / (1 + x)
                rows.append([part, shapes, ["lower", "upper"][side], p, float(x)])
                x = M(values[width - 1])
    return rows


def first_count(near, exactly):
    """The first count from zero at which something has become true: found by SciPy's doubles, proved by the sums on both sides."""
    high = 1
    while not near(high):
        high *= 2
    low = -1
    while high - low > 1:
        middle = (high + low) // 2
        low, high = (low, middle) if near(middle) else (middle, high)
    while not exactly(high):
        high += 1
    while high > 0 and exactly(high - 1):
        high -= 1
    return high


def whole_rows():
    """[family, numbers..., bound, count]: the first count whose upper Poisson tail is below the bound; the smallest count
    whose lower negative binomial tail reaches it"""
    rows = []
    for bound in [1e-280, 1e-60, 1e-12, 0.00135, 0.2, 0.7]:
        digits(40 if bound > 1e-20 else 330)
        for m in [1e-9, 0.7, 3.07, 47.25, 5000, 73456.7, 900000]:
            rows.append(["poisson", [m], bound, first_count(
                lambda k: k > 0 and sp.gammainc(k, m) < bound, lambda k: k > 0 and gamma_tails(k, m)[0] < M(bound))])
        for r, p in [(0.5, 0.3), (1, 0.0193482688), (5, 0.02), (12.5, 0.0004), (400, 0.01), (40000, 0.5)]:
            rows.append(["negative binomial", [r, p], bound, first_count(
                lambda k: sp.betainc(r, k + 1, p) >= bound, lambda k: beta_tails(M(r), M(k + 1), M(p), 1 - M(p))[0] >= M(bound))])
    return rows


if __name__ == "__main__":
    parts = {}
    for name, make in [("normal", normal_rows), ("besideOne", beside_one_rows), ("grid", grid_rows), ("whole", whole_rows), ("smallBeta", small_beta_rows),
                       ("negativeBinomial", negative_binomial_rows)]:
        if name in ("smallBeta", "negativeBinomial"):
            digits(380)
        parts[name] = make()
        print(name, len(parts[name]), file=sys.stderr, flush=True)
    print("{" + ",\n".join(f'"{name}": [\n' + ",\n".join(json.dumps(r) for r in rows) + "\n]" for name, rows in parts.items()) + "}")
