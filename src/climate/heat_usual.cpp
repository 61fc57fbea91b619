// The site's own usual: the worst hour of every day of the log. The curve's shape depends on the
// day of the year only, so it is made once for each of the 366 days.
#include <algorithm>
#include <cmath>

#include "climate/air.hpp"
#include "climate/et0_series.hpp"
#include "climate/heat.hpp"

namespace wildling::climate {
namespace {

struct HourShape {
  double share_of_range = 0;  // (T - Tmin)/(Tmax - Tmin)
  double sun_share = 0;
};

// With the vapour pressure held constant, strain grows with temperature, and from half the day's
// highest sun on it no longer depends on the sun. So only the hottest of those hours and hours
// still hotter than it can be the worst.
class YearShape {
 public:
  YearShape(double latitude_deg, const Parameters& p) {
    const auto from = static_cast<std::size_t>(p.value("climate.work.first_hour"));
    const auto to = static_cast<std::size_t>(p.value("climate.work.last_hour"));
    for (int j = 1; j <= 366; ++j) {
      const DayHours unit = day_hours(1, 0, 0, latitude_deg, j, p);
      double hottest = -1;
      for (std::size_t h = from; h < to; ++h) {
        if (2 * unit.sun_share[h] >= 1) hottest = std::max(hottest, unit.temperature_c[h]);
      }
      for (std::size_t h = from; h < to; ++h) {
        if (unit.temperature_c[h] >= hottest)
          hours_.push_back({unit.temperature_c[h], unit.sun_share[h]});
      }
      ends_.push_back(hours_.size());
    }
  }

  double worst(const Et0Input& in, double ea_kpa) const {
    const auto day = static_cast<std::size_t>(in.day_of_year - 1);
    double worst = -1e9;
    for (std::size_t h = day > 0 ? ends_[day - 1] : 0; h < ends_[day]; ++h) {
      const double t = in.tmin_c + (in.tmax_c - in.tmin_c) * hours_[h].share_of_range;
      const double rh = std::min(100.0, 100 * ea_kpa / saturation_vapour_pressure_kpa(t));
      worst = std::max(worst, wbgt_outside_c(wbgt_in_sun_c(t, ea_kpa), wbgt_in_shade_c(t, rh),
                                             hours_[h].sun_share));
    }
    return worst;
  }

 private:
  std::vector<HourShape> hours_;
  std::vector<std::size_t> ends_;  ///< of each day of the year
};

}  // namespace

std::optional<double> usual_worst_wbgt_c(const WeatherBook& book, const Parameters& p) {
  const Et0Settings settings = et0_settings(p);
  const YearShape shape(book.station.lat_deg.value_or(0), p);
  std::vector<double> worst;
  worst.reserve(book.daily.tmax_c.size());
  for (std::size_t i = 0; i < book.daily.tmax_c.size(); ++i) {
    const Et0Input in = et0_input(book, i);
    if (in.tmin_c <= in.tmax_c)
      worst.push_back(shape.worst(in, day_vapour_pressure_kpa(in, settings)));
  }
  return usual_worst_wbgt_c(std::move(worst));
}

}  // namespace wildling::climate
