// Elimination of the small symmetric systems of the rolling loads.
#pragma once

namespace fairlead::mainline {

/// m x = f for an even N: symmetric, upper triangle given, solved in f by 2 x 2 pivots in the given order.
template <int N>
struct Pairs {
  double m[N][N];
  double f[N];

  void solve() {
    Pivot pivot[N / 2];
    for (int p = 0; p < N; p += 2) {
      pivot[p / 2] = Pivot(m[p][p], m[p][p + 1], m[p + 1][p + 1]);
      for (int i = p + 2; i < N; ++i) {
        const auto [u, v] = pivot[p / 2].solve(m[p][i], m[p + 1][i]);
        for (int j = i; j < N; ++j) m[i][j] -= u * m[p][j] + v * m[p + 1][j];
        f[i] -= u * f[p] + v * f[p + 1];
      }
    }
    for (int p = N - 2; p >= 0; p -= 2) {
      for (int i = p + 2; i < N; ++i) {
        f[p] -= m[p][i] * f[i];
        f[p + 1] -= m[p + 1][i] * f[i];
      }
      const auto [u, v] = pivot[p / 2].solve(f[p], f[p + 1]);
      f[p] = u;
      f[p + 1] = v;
    }
  }

 private:
  struct Two {
    double u, v;
  };
  /// The inverse of a 2 x 2 block.
  struct Pivot {
    double a{}, b{}, d{};
    Pivot() = default;
    Pivot(double m00, double m01, double m11) {
      const double per_det = 1 / (m00 * m11 - m01 * m01);
      a = m11 * per_det, b = -m01 * per_det, d = m00 * per_det;
    }
    Two solve(double f0, double f1) const { return {a * f0 + b * f1, b * f0 + d * f1}; }
  };
};

}  // namespace fairlead::mainline
