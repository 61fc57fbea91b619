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

class YearShape {
 public:
  YearShape(double latitude_deg, const Parameters& p)
      : from_(static_cast<std::size_t>(p.value("climate.work.first_hour"))),
        to_(static_cast<std::size_t>(p.value("climate.work.last_hour"))) {
    for (int j = 1; j <= 366; ++j) {
      const DayHours unit = day_hours(1, 0, 0, latitude_deg, j, p);
      for (std::size_t h = from_; h < to_; ++h)
        hours_.push_back({unit.temperature_c[h], unit.sun_share[h]});
    }
  }

  double worst(const Et0Input& in, double ea_kpa) const {
    const std::size_t n = to_ - from_;
    const HourShape* hour = hours_.data() + static_cast<std::size_t>(in.day_of_year - 1) * n;
    double worst = -1e9;
    for (std::size_t h = 0; h < n; ++h, ++hour) {
      const double t = in.tmin_c + (in.tmax_c - in.tmin_c) * hour->share_of_range;
      const double rh = std::min(100.0, 100 * ea_kpa / saturation_vapour_pressure_kpa(t));
      worst = std::max(
          worst, wbgt_outside_c(wbgt_in_sun_c(t, ea_kpa), wbgt_in_shade_c(t, rh), hour->sun_share));
    }
    return worst;
  }

 private:
  std::size_t from_, to_;
  std::vector<HourShape> hours_;
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
