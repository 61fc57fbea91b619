#pragma once
/// Drought indices on months: SPI (McKee, Doesken & Kleist 1993) and SPEI (Vicente-Serrano,
/// Begueria & Lopez-Moreno 2010). Each calendar month is fitted on its own by unbiased L-moments:
/// gamma for rain, three-parameter log-logistic for rain less potential evaporation. Refused below
/// climate.index.years_for_spi years.
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/message.hpp"
#include "base/parameters.hpp"
#include "climate/weather.hpp"
#include "stat/lmoments.hpp"

namespace wildling::climate {

/// What probability a rainless month gets; n months of which m are without rain.
enum class ZeroRule {
  centre_of_mass,  ///< (m + 1) / (2 (n + 1)); others m/(n+1) + (1 - m/(n+1)) F (Stagge et al.
                   ///< 2015); ours
  whole_share      ///< m/n; others m/n + (1 - m/n) F (the original SPI)
};

/// Sums over the last `scale` months; NaN where a month is missing.
std::vector<double> rolling_sums(std::span<const double> monthly, int scale);

/// @param monthly  rain of consecutive months, NaN = missing; the first is calendar month
/// `first_month` (1 to 12)
/// @return  one value per month, NaN where it cannot be told (fewer than 4 rainy values of that
/// calendar month)
std::vector<double> spi(std::span<const double> monthly, unsigned first_month, int scale,
                        ZeroRule rule);
std::vector<double> spei(std::span<const double> balance, unsigned first_month, int scale);

/// Probability of a sum of rain in n years of which m are without rain.
double rain_probability(double sum_mm, const stat::GammaFit& fit, double n, double m,
                        ZeroRule rule);
/// The index of a probability: standard normal quantile, the probability held off 0 and 1 by 1e-9.
double index_of_probability(double probability);

/// The last month that has an index; empty when none has.
std::optional<std::size_t> newest_month(std::span<const double> index);

/// "extremely wet" ... "extremely dry" as a word key: >= 2, 1.5, 1, (-1, 1), -1, -1.5, -2.
std::string_view spi_class_key(double index);

/// Potential evaporation of Thornthwaite (1948) in mm a month, as the SPEI package computes it
/// (28-day February).
std::vector<double> thornthwaite_mm(std::span<const double> mean_c, unsigned first_month,
                                    double latitude_deg);
/// Hargreaves with the SPEI package's constants: mm a month.
double hargreaves_month_mm(double tmax_c, double tmin_c, unsigned month, double latitude_deg);

/// Months of a log.
struct MonthSeries {
  int first_year = 0;
  unsigned first_month = 1;
  std::vector<double> rain_mm;     ///< NaN when too many days are missing
  std::vector<double> balance_mm;  ///< rain less ET0; NaN where either is missing
};

/// First day of month i of a series.
Date month_start(const MonthSeries& months, std::size_t i);

MonthSeries month_series(const WeatherBook& book, const Parameters& parameters);

struct DroughtResult {
  bool judged = false;
  std::optional<Message> refused;
  int years = 0;
  MonthSeries months;
  int scale = 0;
  std::vector<double> spi, spei;  ///< spei empty without temperatures
  std::string_view zero_rule = "centre_of_mass";
};

/// @param scale  1 to 24 months
DroughtResult drought(const WeatherBook& book, int scale, const Parameters& parameters);

/// The same at several scales; the months are made once.
std::vector<DroughtResult> droughts(const WeatherBook& book, std::span<const int> scales,
                                    const Parameters& parameters);

/// Rain of the months that the log touches, NaN where too many days are missing.
std::vector<double> monthly_rain_mm(const DailyWeather& daily, const Parameters& parameters);

}  // namespace wildling::climate
