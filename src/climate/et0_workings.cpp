// Nodes of one day's ET0; symbols and equation numbers of Allen et al. (1998), FAO-56.
#include <algorithm>
#include <cmath>

#include "base/exact_trig.hpp"
#include "climate/air.hpp"
#include "climate/climate_workings.hpp"
#include "climate/radiation.hpp"

namespace wildling::climate {
namespace {

using In = std::span<const double>;
using Keys = std::vector<std::string>;
constexpr const char* kSource = "Allen et al. (1998), FAO Irrigation and Drainage Paper 56";

int day_number(double j) {
  return static_cast<int>(std::lround(j));
}

struct Builder {
  Workings& workings;
  std::string prefix;
  Date date;
  std::string source;

  std::string leaf(const std::string& name, double value, const std::string& unit, Origin origin) {
    return workings.add({.key = prefix + name,
                         .label = detail::day_label("climate.node." + name, date),
                         .value = value,
                         .unit = unit,
                         .origin = origin,
                         .formula = "",
                         .source = source,
                         .note = "",
                         .inputs = {}});
  }

  std::string computed(const std::string& name, double value, const std::string& unit,
                       const std::string& formula, Keys inputs) {
    return workings.add({.key = prefix + name,
                         .label = detail::day_label("climate.node." + name, date),
                         .value = value,
                         .unit = unit,
                         .origin = Origin::computed,
                         .formula = formula,
                         .source = "",
                         .note = "",
                         .inputs = std::move(inputs)});
  }
};

std::string add_vapour_pressure(Builder& b, const Et0Day& d, const Parameters& parameters,
                                const Keys& temps) {
  const Et0Input& in = d.input;
  const auto read = [&](const char* name, const std::optional<double>& v) {
    return b.leaf(name, v.value_or(0), "%", Origin::measured);
  };
  switch (d.humidity) {
    case Humidity::given:
      return b.leaf("ea", d.ea_kpa, "kPa", Origin::measured);
    case Humidity::rh_max_min:
      return b.computed(
          "ea", d.ea_kpa, "kPa", "climate.ea_rh_max_min",
          {temps[0], temps[1], read("rh_max", in.rh_max_pct), read("rh_min", in.rh_min_pct)});
    case Humidity::rh_max:
      return b.computed("ea", d.ea_kpa, "kPa", "climate.ea_rh_max",
                        {temps[1], read("rh_max", in.rh_max_pct)});
    case Humidity::rh_mean:
      return b.computed("ea", d.ea_kpa, "kPa", "climate.ea_rh_mean",
                        {temps[0], temps[1], read("rh_mean", in.rh_mean_pct)});
    case Humidity::dew_point_is_tmin:
      break;
  }
  const auto dew = add_parameter(b.workings, parameters.at("climate.et0.dew_below_tmin_c"));
  return b.computed("ea", d.ea_kpa, "kPa", "climate.ea_dew_is_tmin", {temps[1], dew});
}

std::string add_solar(Builder& b, const Et0Day& d, const Parameters& parameters, const Keys& temps,
                      const std::string& ra, const std::string& rso, const std::string& latitude,
                      const std::string& day) {
  if (d.radiation == Radiation::given) return b.leaf("rs", d.rs_mj_m2, "MJ/m2/d", Origin::measured);
  if (d.radiation == Radiation::sunshine) {
    const auto hours = b.leaf("sun", d.input.sun_h.value_or(0), "h", Origin::measured);
    const auto daylight =
        b.computed("daylight", d.daylight_h, "h", "climate.daylight", {latitude, day});
    return b.computed(
        "rs", d.rs_mj_m2, "MJ/m2/d", "climate.rs_sun",
        {ra, hours, daylight, add_parameter(b.workings, parameters.at("climate.et0.a_s")),
         add_parameter(b.workings, parameters.at("climate.et0.b_s"))});
  }
  const auto k_rs = add_parameter(b.workings, parameters.at("climate.et0.k_rs"));
  return b.computed("rs", d.rs_mj_m2, "MJ/m2/d", "climate.rs_range",
                    {ra, temps[0], temps[1], k_rs, rso});
}

std::string add_wind(Builder& b, const Et0Day& d, const Parameters& parameters) {
  const auto least = add_parameter(b.workings, parameters.at("climate.et0.wind_least_m_s"));
  const auto raw = d.wind_assumed
                       ? add_parameter(b.workings, parameters.at("climate.et0.wind_missing_m_s"))
                       : b.leaf("wind", d.input.wind_2m_m_s.value_or(0), "m/s", Origin::measured);
  return b.computed("wind_used", d.wind_2m_m_s, "m/s", "climate.larger_of", {least, raw});
}

}  // namespace

std::string add_et0_workings(Workings& workings, const Et0Day& d, Date date, const Station& station,
                             const Parameters& parameters) {
  Builder b{workings, detail::day_key("climate/et0/", date) + "/", date, station.source};
  const Keys t = {b.leaf("tmax", d.input.tmax_c, "degC", Origin::measured),
                  b.leaf("tmin", d.input.tmin_c, "degC", Origin::measured)};
  const auto place = station.origin;
  const auto lat = b.leaf("latitude", d.input.latitude_deg, "deg", place);
  const auto z =
      b.leaf("elevation", d.input.elevation_m, "m", station.elevation_m ? place : Origin::assumed);
  const auto j = b.leaf("day_of_year", d.input.day_of_year, "", Origin::measured);
  const auto mean = b.computed("tmean", d.t_mean_c, "degC", "climate.mean_of_two", t);
  const auto p = b.computed("pressure", d.pressure_kpa, "kPa", "climate.pressure", {z});
  const auto gamma = b.computed("gamma", d.gamma_kpa_c, "kPa/degC", "climate.gamma", {p});
  const auto delta = b.computed("delta", d.delta_kpa_c, "kPa/degC", "climate.delta", {mean});
  const auto es = b.computed("es", d.es_kpa, "kPa", "climate.es", t);
  const auto ea = add_vapour_pressure(b, d, parameters, t);
  const auto vpd = b.computed("vpd", d.vpd_kpa, "kPa", "climate.vpd", {es, ea});
  const auto wind = add_wind(b, d, parameters);
  const auto ra = b.computed("ra", d.ra_mj_m2, "MJ/m2/d", "climate.ra", {lat, j});
  const auto rso = b.computed("rso", d.rso_mj_m2, "MJ/m2/d", "climate.rso", {ra, z});
  const auto rs = add_solar(b, d, parameters, t, ra, rso, lat, j);
  const auto albedo = add_parameter(workings, parameters.at("climate.et0.albedo"));
  const auto rns = b.computed("rns", d.rns_mj_m2, "MJ/m2/d", "climate.rns", {rs, albedo});
  const auto rnl =
      b.computed("rnl", d.rnl_mj_m2, "MJ/m2/d", "climate.rnl", {t[0], t[1], ea, rs, rso});
  const auto rn = b.computed("rn", d.rn_mj_m2, "MJ/m2/d", "climate.difference", {rns, rnl});
  return b.computed("et0", d.et0_mm, "mm", "climate.et0", {delta, gamma, rn, mean, wind, vpd});
}

namespace detail {

void add_et0_formulas(Formulas& f) {
  f.push_back({"climate.mean_of_two", "(a + b) / 2 (eq. 9)", kSource,
               [](In x) { return (x[0] + x[1]) / 2; }});
  f.push_back({"climate.pressure", "P = 101.3 ((293 - 0.0065 z) / 293)^5.26 (eq. 7)", kSource,
               [](In x) { return pressure_kpa(x[0]); }});
  f.push_back({"climate.gamma", "gamma = 0.000665 P (eq. 8)", kSource,
               [](In x) { return psychrometric_constant_kpa_c(x[0]); }});
  f.push_back({"climate.delta", "Delta = 4098 e0(T) / (T + 237.3)^2 (eq. 13)", kSource,
               [](In x) { return slope_vapour_pressure_kpa_c(x[0]); }});
  f.push_back({"climate.es", "es = (e0(Tmax) + e0(Tmin)) / 2 (eq. 11, 12)", kSource,
               [](In x) { return mean_saturation_vapour_pressure_kpa(x[0], x[1]); }});
  f.push_back({"climate.ea_rh_max_min", "ea = (e0(Tmin) RHmax + e0(Tmax) RHmin) / 200 (eq. 17)",
               kSource,
               [](In x) { return vapour_pressure_from_rh_max_min_kpa(x[0], x[1], x[2], x[3]); }});
  f.push_back({"climate.ea_rh_max", "ea = e0(Tmin) RHmax / 100 (eq. 18)", kSource,
               [](In x) { return vapour_pressure_from_rh_max_kpa(x[0], x[1]); }});
  f.push_back({"climate.ea_rh_mean", "ea = RHmean es / 100 (eq. 19)", kSource,
               [](In x) { return vapour_pressure_from_rh_mean_kpa(x[0], x[1], x[2]); }});
  f.push_back({"climate.ea_dew_is_tmin", "ea = e0(Tmin - Ko) (eq. 14, 48)", kSource,
               [](In x) { return vapour_pressure_from_dew_point_kpa(x[0] - x[1]); }});
  f.push_back(
      {"climate.vpd", "max(0, es - ea)", kSource, [](In x) { return std::max(0.0, x[0] - x[1]); }});
  f.push_back(
      {"climate.larger_of", "max(a, b)", kSource, [](In x) { return std::max(x[0], x[1]); }});
  f.push_back({"climate.ra", "Ra of latitude and day (eq. 21 to 25)", kSource,
               [](In x) { return sun_day(x[0], day_number(x[1])).ra_mj_m2; }});
  f.push_back({"climate.daylight", "N = 24 omega_s / pi (eq. 34)", kSource,
               [](In x) { return sun_day(x[0], day_number(x[1])).daylight_h; }});
  f.push_back({"climate.rso", "Rso = (0.75 + 0.00002 z) Ra (eq. 37)", kSource,
               [](In x) { return clear_sky_mj_m2(x[0], x[1]); }});
  f.push_back({"climate.rs_sun", "Rs = (a_s + b_s n/N) Ra (eq. 35)", kSource,
               [](In x) { return solar_from_sunshine_mj_m2(x[0], x[1], x[2], x[3], x[4]); }});
  f.push_back(
      {"climate.rs_range", "Rs = kRs (Tmax - Tmin)^0.5 Ra, at most Rso (eq. 50)", kSource,
       [](In x) { return std::min(x[4], solar_from_temperature_mj_m2(x[0], x[1], x[2], x[3])); }});
  f.push_back({"climate.rns", "Rns = (1 - albedo) Rs (eq. 38)", kSource,
               [](In x) { return net_shortwave_mj_m2(x[0], x[1]); }});
  f.push_back({"climate.rnl", "Rnl of Tmax, Tmin, ea and Rs/Rso (eq. 39)", kSource, [](In x) {
                 return net_longwave_mj_m2(x[0], x[1], x[2], x[4] > 0 ? x[3] / x[4] : 1.0);
               }});
  f.push_back({"climate.difference", "a - b (eq. 40)", kSource, [](In x) { return x[0] - x[1]; }});
  f.push_back({"climate.et0",
               "ET0 = (0.408 Delta Rn + gamma 900/(T + 273) u2 (es - ea)) / (Delta + gamma (1 + "
               "0.34 u2)) (eq. 6, G = 0)",
               kSource, [](In x) {
                 return std::max(0.0, penman_monteith_mm(x[0], x[1], x[2], 0, x[3], x[4], x[5]));
               }});
}

}  // namespace detail
}  // namespace wildling::climate
