"""The loop of benchmark/flow.ts in NumPy and SciPy: the same places, the bipolar series.
one: a call for each place, its terms as one array; touching and centred by the closed forms (scipy.special.polygamma)
all: every place and term in one array, as long as the longest sum needs
Prints microseconds per value (medians) and the sum of all values, which must agree.  Run: python3 residual-flow.py"""
import json
import time
import numpy as np
from scipy.special import polygamma

i = np.arange(1000)
K = 0.02 + 0.95 * np.mod(i * 0.6180339887, 1)
O = np.mod(i * 0.4142135624, 1)


def geometry(k, offset):
    e = offset * (1 - k)
    D = (1 - k) * (1 - offset) * (1 - e + k) * (1 - k + e) * (1 + e + k)
    w = 2 * np.arcsinh(np.sqrt((1 - k) ** 2 * (1 - offset) * (1 + offset) / (4 * k)))
    M = np.sqrt(D) / (2 * e)
    return D, w, np.arcsinh(M / k)


def one(k, offset):
    if offset < 1e-9:
        return 1 - k**4 - (1 - k**2) ** 2 / np.log(1 / k)
    if offset == 1:
        return 1 - k**4 - 4 * k**2 * polygamma(1, 1 / (1 - k))
    D, w, beta = geometry(k, offset)
    n = np.arange(1, int(20 / beta) + 8)
    return 1 - k**4 - D / w - 4 * D * np.sum(n * np.exp(-2 * n * beta) / -np.expm1(-2 * n * w))


def every(k, offset):
    D, w, beta = geometry(k[1:], offset[1:])
    n = np.arange(1, int(20 / beta.min()) + 8)[:, None]
    total = np.sum(n * np.exp(-2 * n * beta) / -np.expm1(-2 * n * w), axis=0)
    flow = 1 - k[1:] ** 4 - D / w - 4 * D * total
    return np.concatenate([[one(k[0], offset[0])], flow])  # the first place is centred


def median(times, run):
    taken = []
    for _ in range(times):
        since = time.perf_counter()
        value = run()
        taken.append(time.perf_counter() - since)
    return sorted(taken)[times // 2] * 1e6 / len(K), float(value)


one_us, total = median(9, lambda: sum(one(k, o) for k, o in zip(K, O)))
every_us, again = median(9, lambda: np.sum(every(K, O)))
assert abs(total - again) < 1e-9
print(json.dumps({"one": one_us, "all": every_us, "sum": total}))
