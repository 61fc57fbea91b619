#include "stat/homogeneity.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace wildling::stat {
namespace {

struct Row {
  int n;
  double five_pct, one_pct;
};

// Khaliq & Ouarda (2007), Table I, columns 95 and 99 %; rows we need between which a straight line
// stays within 0.01 of those left out.
constexpr std::array<Row, 30> kTable = {
    {{10, 5.637, 6.769},    {12, 6.068, 7.459},    {14, 6.402, 8.001},    {16, 6.674, 8.440},
     {18, 6.899, 8.807},    {20, 7.089, 9.113},    {22, 7.257, 9.380},    {24, 7.400, 9.609},
     {26, 7.529, 9.812},    {28, 7.643, 9.993},    {30, 7.747, 10.153},   {34, 7.930, 10.434},
     {38, 8.081, 10.663},   {42, 8.214, 10.865},   {46, 8.331, 11.040},   {50, 8.432, 11.193},
     {54, 8.524, 11.324},   {60, 8.647, 11.498},   {66, 8.752, 11.648},   {72, 8.844, 11.776},
     {80, 8.951, 11.928},   {90, 9.067, 12.089},   {100, 9.167, 12.228},  {120, 9.330, 12.446},
     {150, 9.519, 12.694},  {200, 9.741, 12.982},  {300, 10.020, 13.326}, {400, 10.202, 13.542},
     {600, 10.431, 13.813}, {1000, 10.692, 14.105}}};

}  // namespace

Homogeneity standard_normal_homogeneity(std::span<const double> series) {
  std::vector<double> x;
  for (const double v : series) {
    if (!std::isnan(v)) x.push_back(v);
  }
  Homogeneity test;
  test.n = static_cast<int>(x.size());
  if (test.n < 2) return test;
  const auto n = static_cast<double>(x.size());
  double sum = 0, square = 0;
  for (const double v : x) sum += v;
  const double mean = sum / n;
  for (const double v : x) square += (v - mean) * (v - mean);
  const double sd = std::sqrt(square / (n - 1));
  test.before = test.after = mean;
  if (!(sd > 0) || !std::isfinite(sd)) return test;
  double below = 0;
  for (std::size_t k = 1; k < x.size(); ++k) {
    below += x[k - 1];
    const auto m = static_cast<double>(k);
    const double first = below / m, second = (sum - below) / (n - m);
    const double z1 = (first - mean) / sd, z2 = (second - mean) / sd;
    const double t = m * z1 * z1 + (n - m) * z2 * z2;
    if (t <= test.t) continue;
    test.t = t;
    test.change_after = static_cast<int>(k);
    test.before = first;
    test.after = second;
  }
  return test;
}

double homogeneity_critical(int n, HomogeneityLevel level) {
  const auto value = [level](const Row& row) {
    return level == HomogeneityLevel::one_pct ? row.one_pct : row.five_pct;
  };
  const auto above =
      std::find_if(kTable.begin(), kTable.end(), [n](const Row& r) { return r.n >= n; });
  if (above == kTable.end()) return value(kTable.back());
  if (above == kTable.begin() || above->n == n) return value(*above);
  const Row& low = *(above - 1);
  const double share = static_cast<double>(n - low.n) / (above->n - low.n);
  return value(low) + share * (value(*above) - value(low));
}

}  // namespace wildling::stat
