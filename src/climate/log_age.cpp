#include "climate/log_age.hpp"

#include <cmath>

namespace wildling::climate {

std::optional<Date> last_rain_reading(const DailyWeather& daily) {
  std::optional<Date> last;
  for (std::size_t i = daily.days(); i-- > 0 && !last;) {
    if (!std::isnan(daily.rain_mm[i])) last = daily.day(i);
  }
  for (const RainTotal& total : daily.totals) {
    if (!last || total.last > *last) last = total.last;
  }
  return last;
}

std::optional<Message> no_advice_for(const DailyWeather& daily, Date today,
                                     const Parameters& parameters) {
  const std::optional<Date> last = last_rain_reading(daily);
  if (!last) return say("climate.no_reading");
  const std::int64_t age = (today - *last).count();
  if (age < 0) return say("climate.log_ends_later", {{"last", *last}, {"today", today}});
  if (static_cast<double>(age) <= parameters.value("climate.log.old_after_days")) return {};
  return say("climate.log_old", {{"days", age}});
}

}  // namespace wildling::climate
