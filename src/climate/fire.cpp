// Notation of Van Wagner (1987): m moisture content %, F code, H humidity %, W wind km/h, T degC;
// Keetch-Byram: Q, R.
#include "climate/fire.hpp"

#include <algorithm>
#include <cmath>

#include "base/exact_math.hpp"

namespace wildling::climate {
namespace {

double pow10_of(double x) {
  return exact_exp(x * exact_log(10.0));
}

// eq. 3a, 3b
double wetted(double m, double rain_mm) {
  if (rain_mm <= 0.5) return m;
  const double r = rain_mm - 0.5;  // eq. 2
  double wet = m + 42.5 * r * exact_exp(-100 / (251 - m)) * (1 - exact_exp(-6.93 / r));
  if (m > 150) wet += 0.0015 * (m - 150) * (m - 150) * std::sqrt(r);
  return std::min(wet, 250.0);
}

// log drying or wetting rate: share = H/100 when drying, (100 - H)/100 when wetting; eq. 6, 7
double rate(double share, double wind, double t) {
  const double s2 = share * share, s8 = s2 * s2 * s2 * s2;
  const double power = share > 0 ? exact_pow(share, 1.7) : 0;
  return (0.424 * (1 - power) + 0.0694 * std::sqrt(wind) * (1 - s8)) * 0.581 *
         exact_exp(0.0365 * t);
}

double drying(double q, double tmax_f, double annual_rain_in) {
  if (tmax_f < 50) return 0;
  return (800 - q) * (0.968 * exact_exp(0.0486 * tmax_f) - 8.30) * 0.001 /
         (1 + 10.88 * exact_exp(-0.0441 * annual_rain_in));  // SE-38 eq. 18
}

double drying_mm(double q, double tmax_c, double annual_rain_mm, double exponent) {
  if (tmax_c < 10) return 0;
  return (203.2 - q) * (0.968 * exact_exp(0.0875 * tmax_c + 1.5552) - 8.30) * 0.001 /
         (1 + 10.88 * exact_exp(-exponent * annual_rain_mm));
}

}  // namespace

double fine_fuel_moisture_code(double t, double h, double w, double rain_mm, double before) {
  const double m0 = wetted(147.2 * (101 - before) / (59.5 + before), rain_mm);  // eq. 1
  const double shift = 0.18 * (21.1 - t) * (1 - exact_exp(-0.115 * h));
  const double wet_end = 10 * exact_exp((h - 100) / 10) + shift;
  const double dry =
      (h > 0 ? 0.942 * exact_pow(h, 0.679) : 0) + 1.1 * (wet_end - shift) + shift;  // Ed, eq. 4
  const double wet = (h > 0 ? 0.618 * exact_pow(h, 0.753) : 0) + wet_end;           // Ew, eq. 5
  double m = m0;
  if (m0 > dry) m = dry + (m0 - dry) * pow10_of(-rate(h / 100, w, t));          // eq. 8
  if (m0 < wet) m = wet - (wet - m0) * pow10_of(-rate((100 - h) / 100, w, t));  // eq. 9
  return std::clamp(59.5 * (250 - m) / (147.2 + m), 0.0, 101.0);                // eq. 10
}

double WetRun::net(double rain, double loss) {
  if (rain <= 0) {
    left = loss;
    return 0;
  }
  const double lost = std::min(left, rain);
  left -= lost;
  return rain - lost;
}

double keetch_byram_us(double before, double net_rain_in, double tmax_f, double annual_rain_in) {
  const double q = std::max(0.0, before - 100 * net_rain_in);
  return std::min(800.0, q + drying(q, tmax_f, annual_rain_in));
}

double keetch_byram_mm(double before_mm, double net_rain_mm, double tmax_c, double annual_rain_mm) {
  const double q = std::max(0.0, before_mm - net_rain_mm);
  return std::min(203.2, q + drying_mm(q, tmax_c, annual_rain_mm, 0.001736));
}

double keetch_byram_finkele_mm(double before_mm, double net_rain_mm, double tmax_c,
                               double annual_rain_mm) {
  const double q = before_mm - net_rain_mm + drying_mm(before_mm, tmax_c, annual_rain_mm, 0.00173);
  return std::clamp(q, 0.0, 203.2);
}

std::vector<double> keetch_byram_series(const DailyWeather& daily, double start_mm) {
  double rain = 0, rain_days = 0, heat = 0, heat_days = 0;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    if (!std::isnan(daily.rain_mm[i])) rain += daily.rain_mm[i], rain_days += 1;
    const double tmax = at_or_missing(daily.tmax_c, i);
    if (!std::isnan(tmax)) heat += tmax, heat_days += 1;
  }
  if (rain_days < 365 || heat_days < 1) return {};
  const double annual = rain / rain_days * 365.25, mean_tmax = heat / heat_days;
  constexpr double kLoss = 5.08;  // 0.20 in
  WetRun run{kLoss};
  std::vector<double> index(daily.days());
  double q = start_mm;
  for (std::size_t i = 0; i < daily.days(); ++i) {
    const double r = std::isnan(daily.rain_mm[i]) ? 0 : daily.rain_mm[i];
    const double tmax = at_or_missing(daily.tmax_c, i);
    q = keetch_byram_mm(q, run.net(r, kLoss), std::isnan(tmax) ? mean_tmax : tmax, annual);
    index[i] = q;
  }
  return index;
}

}  // namespace wildling::climate
