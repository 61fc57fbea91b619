#include "climate/fill.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace wildling::climate {
namespace {

constexpr double kMissing = std::numeric_limits<double>::quiet_NaN();

// The neighbour's reading of a day; NaN outside its log.
double there(const DailyWeather& neighbour, Column column, Date day) {
  const auto i = neighbour.index(day);
  return i ? at_or_missing(column_of(neighbour, column), *i) : kMissing;
}

struct Common {
  double own = 0, other = 0;
  int days = 0;
};

// Sums over the days that both stations read, by calendar month.
std::array<Common, 12> common_days(const DailyWeather& daily, const DailyWeather& neighbour,
                                   Column column) {
  std::array<Common, 12> sums{};
  const std::vector<double>& values = column_of(daily, column);
  for (std::size_t i = 0; i < values.size(); ++i) {
    const Date day = daily.day(i);
    const double other = there(neighbour, column, day);
    if (std::isnan(values[i]) || std::isnan(other)) continue;
    Common& month = sums[month_of(day) - 1];
    month.own += values[i];
    month.other += other;
    ++month.days;
  }
  return sums;
}

void put(FilledColumn& filled, std::size_t i, double value, FillMethod method) {
  filled.values[i] = value;
  filled.method[i] = method;
}

void fill_between(FilledColumn& filled, std::size_t most) {
  std::vector<double>& v = filled.values;
  for (std::size_t i = 1; i < v.size(); ++i) {
    if (!std::isnan(v[i]) || std::isnan(v[i - 1])) continue;
    std::size_t end = i;
    while (end < v.size() && std::isnan(v[end])) ++end;
    if (end < v.size() && end - i <= most) {
      const double from = v[i - 1], step = (v[end] - from) / static_cast<double>(end - i + 1);
      for (std::size_t k = i; k < end; ++k)
        put(filled, k, from + step * static_cast<double>(k - i + 1), FillMethod::between);
    }
    i = end;
  }
}

bool in_total(const DailyWeather& daily, Date day) {
  for (const RainTotal& total : daily.totals) {
    if (total.first <= day && day <= total.last) return true;
  }
  return false;
}

void fill_from(FilledColumn& filled, const DailyWeather& daily, const DailyWeather& neighbour,
               const Parameters& parameters) {
  const auto sums = common_days(daily, neighbour, filled.column);
  const double least = parameters.value("climate.fill.common_days_least");
  const bool rain = filled.column == Column::rain;
  for (std::size_t i = 0; i < filled.values.size(); ++i) {
    const Date day = daily.day(i);
    const double other = there(neighbour, filled.column, day);
    const Common& month = sums[month_of(day) - 1];
    if (!std::isnan(filled.values[i]) || std::isnan(other) || month.days < least) continue;
    if (rain && (month.other <= 0 || in_total(daily, day))) continue;
    const double value =
        rain ? other * month.own / month.other : other + (month.own - month.other) / month.days;
    put(filled, i, value, FillMethod::neighbour);
  }
}

// A catch of several days as the neighbour's days went, when it read them all and had rain.
void share_totals(FilledColumn& rain, const DailyWeather& daily, const DailyWeather& neighbour) {
  for (const RainTotal& total : daily.totals) {
    double sum = 0;
    for (Date day = total.first; day <= total.last; day += std::chrono::days(1))
      sum += there(neighbour, Column::rain, day);
    if (!(sum > 0) && total.total_mm > 0) continue;
    for (Date day = total.first; day <= total.last; day += std::chrono::days(1)) {
      const auto i = daily.index(day);
      const double other = there(neighbour, Column::rain, day);
      if (i && !std::isnan(sum))
        put(rain, *i, total.total_mm > 0 ? total.total_mm * other / sum : 0,
            FillMethod::total_shared);
    }
  }
}

void count(FilledColumn& filled) {
  filled.days = filled.values.size();
  for (std::size_t i = 0; i < filled.days; ++i) {
    filled.filled_days += filled.method[i] != FillMethod::none ? 1U : 0U;
    filled.missing_days += std::isnan(filled.values[i]) ? 1U : 0U;
  }
  filled.share = filled.days > 0
                     ? static_cast<double>(filled.filled_days) / static_cast<double>(filled.days)
                     : 0;
  filled.first_line =
      say("climate.filled", {{"column", std::string(column_name(filled.column))},
                             {"filled", static_cast<std::int64_t>(filled.filled_days)},
                             {"days", static_cast<std::int64_t>(filled.days)},
                             {"share", 100 * filled.share},
                             {"missing", static_cast<std::int64_t>(filled.missing_days)}});
}

}  // namespace

FilledLog fill_gaps(const DailyWeather& daily, const DailyWeather* neighbour,
                    const Parameters& parameters) {
  FilledLog log;
  const auto most = static_cast<std::size_t>(parameters.value("climate.fill.between_days_most"));
  for (const Column column : {Column::rain, Column::tmax, Column::tmin, Column::rh_max,
                              Column::rh_min, Column::rh_mean, Column::wind, Column::sun}) {
    if (column_of(daily, column).empty()) continue;
    FilledColumn filled;
    filled.column = column;
    filled.values = column_of(daily, column);
    filled.method.assign(filled.values.size(), FillMethod::none);
    const bool steady = column != Column::rain && column != Column::wind && column != Column::sun;
    if (steady) fill_between(filled, most);
    if (neighbour != nullptr) {
      fill_from(filled, daily, *neighbour, parameters);
      if (column == Column::rain) share_totals(filled, daily, *neighbour);
    }
    count(filled);
    log.columns.push_back(std::move(filled));
  }
  return log;
}

}  // namespace wildling::climate
