#pragma once
#include <optional>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"

namespace wildling::climate {

/// Why the log gives no advice for `today`; empty when it does. A log whose last rain reading is
/// more than climate.log.old_after_days old, that ends after `today`, or that has no reading at
/// all.
std::optional<Message> no_advice_for(const DailyWeather& daily, Date today,
                                     const Parameters& parameters);

/// Last day with a rain reading (a total counts on its last day); empty when there is none.
std::optional<Date> last_rain_reading(const DailyWeather& daily);

}  // namespace wildling::climate
