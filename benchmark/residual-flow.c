/* The loop of benchmark/flow.ts in C: the same places, the same formulas as src/core/flow/vein/residual-flow.ts.
   Prints microseconds per value (median of 31 rounds) and the sum of all values, which must agree.
   gcc -O2 -o residual-flow residual-flow.c -lm */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double trigamma(double x) {
  double sum = 0;
  while (x < 12) {
    sum += 1 / (x * x);
    x += 1;
  }
  double y = 1 / (x * x);
  double b = 1.0 / 6 - y * (1.0 / 30 - y * (1.0 / 42 - y * (1.0 / 30 - y * (5.0 / 66 - y * (691.0 / 2730 - y * 7 / 6)))));
  return sum + (1 + y * b) / x + y / 2;
}

static const double bernoulli[9] = {1.0 / 12,        -1.0 / 120, 1.0 / 252,      -1.0 / 240,     1.0 / 132,
                                    -691.0 / 32760, 1.0 / 12,   -3617.0 / 8160, 43867.0 / 14364};
static const double over_sinh[9] = {1,
                                    -1.0 / 6,
                                    7.0 / 360,
                                    -31.0 / 15120,
                                    127.0 / 604800,
                                    -73.0 / 3421440,
                                    1414477.0 / 653837184000.0,
                                    -8191.0 / 37362124800.0,
                                    16931177.0 / 762187345920000.0};

static double residual_flow(double k, double offset) {
  double gap = 1 - k, apart = offset * gap, narrow = gap * (1 - offset);
  double d = narrow * (1 - apart + k) * (gap + apart) * (1 + apart + k);
  double w = 2 * asinh(sqrt(narrow * gap * (1 + offset) / (4 * k)));
  double open = gap * (1 + k) * (1 + k * k);
  if (offset < 1e-9) return open - gap * (1 + k) * gap * (1 + k) / (k < 0.5 ? -log(k) : -log1p(k - 1));
  if (w == 0) return open - 4 * k * k * trigamma(1 / gap);
  double pole = sqrt(d) / (2 * apart), alpha = asinh(pole), beta = asinh(pole / k);
  if (beta < 0.4) {
    double s = alpha + beta, decay[18], correction = 0;
    decay[0] = 1;
    for (int m = 1; m < 18; m++) decay[m] = -decay[m - 1] * s / m;
    for (int j = 1; j <= 9; j++) {
      double coefficient = 0, power = 1;
      for (int i = 0; i < j; i++) {
        coefficient += over_sinh[i] * power * decay[2 * j - 1 - 2 * i];
        power *= w * w;
      }
      correction += bernoulli[j - 1] * coefficient;
    }
    return open - d * (trigamma(beta / w) / w - 2 * correction) / w;
  }
  double q = exp(-2 * beta), r = exp(-2 * w), first = -expm1(-2 * w);
  double power = q, decay = r, one_minus = first, sum = 0;
  for (int n = 1; n < 2000; n++) {
    double term = n * power / one_minus;
    sum += term;
    if (term <= 1e-18 * sum) break;
    power *= q;
    one_minus += decay * first;
    decay *= r;
  }
  return open - (d / w + 4 * d * sum);
}

static int ascending(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

int main(void) {
  static double k[1000], offset[1000];
  double taken[31], total = 0;
  for (int i = 0; i < 1000; i++) {
    k[i] = 0.02 + 0.95 * fmod(i * 0.6180339887, 1);
    offset[i] = fmod(i * 0.4142135624, 1);
  }
  for (int round = 0; round < 31; round++) {
    struct timespec a, b;
    clock_gettime(CLOCK_MONOTONIC, &a);
    total = 0;
    for (int turn = 0; turn < 10; turn++)
      for (int i = 0; i < 1000; i++) total += residual_flow(k[i], offset[i]);
    clock_gettime(CLOCK_MONOTONIC, &b);
    taken[round] = ((b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec)) / 1e4 / 1e3;
  }
  qsort(taken, 31, sizeof(double), ascending);
  printf("{\"microseconds\": %.6f, \"sum\": %.12f}\n", taken[15], total / 10);
  return 0;
}
