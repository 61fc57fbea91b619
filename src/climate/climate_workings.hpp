#pragma once
/// Workings of the climate room: every number of a summary as nodes under "climate/...".
#include "base/workings.hpp"
#include "climate/et0_series.hpp"
#include "climate/normals.hpp"
#include "climate/pit_balance.hpp"
#include "climate/planting_window.hpp"

namespace wildling::climate {

/// The formulas of this room, each with its evaluator.
const Formulas& formulas();

/// One day's reference evapotranspiration with every intermediate value,
/// "climate/et0/2021-03-05/...". Readings that were not taken do not appear; what stood in for them
/// does.
/// @return  key of the day's ET0
std::string add_et0_workings(Workings& workings, const Et0Day& day, Date date,
                             const Station& station, const Parameters& parameters);

/// Monthly means from the sums of the years that count, "climate/month/3/rain_mean".
void add_normals_workings(Workings& workings, const WeatherBook& book,
                          const std::array<MonthNormal, 12>& normals, const Parameters& parameters);

/// The window: its weeks (chosen), its weakest period's counts and their limits, each period's
/// count as a sum of yearly flags, and each flag from the days' rain and evaporation through the
/// balance of ball and hole. When no period passes, the same for the best period, whose counts the
/// answer names. Nothing when the log is too short to judge.
void add_window_workings(Workings& workings, const WeatherBook& book, const WindowResult& result,
                         const Parameters& parameters, std::optional<double> et0_override = {});

namespace detail {
void add_et0_formulas(Formulas& formulas);
void add_window_formulas(Formulas& formulas);
void add_advice_formulas(Formulas& formulas);
void add_day_formulas(Formulas& formulas);
void add_season_formulas(Formulas& formulas);
void add_drought_formulas(Formulas& formulas);
void add_index_formulas(Formulas& formulas);
void add_chain_formulas(Formulas& formulas);
void add_hindcast_formulas(Formulas& formulas);
void add_paired_formulas(Formulas& formulas);
void add_water_formulas(Formulas& formulas);
/// Settings of the pit from 15 numbers in the order of pit_parameter_keys().
PitSettings pit_from(std::span<const double> numbers);
const std::array<const char*, 15>& pit_parameter_keys();
void add_window_choice(Workings& workings, const WindowResult& result, const Parameters& parameters,
                       const std::vector<std::string>& counts);
void add_window_choice_formulas(Formulas& formulas);
std::string day_key(std::string_view what, Date day);
Message day_label(std::string_view key, Date day);
}  // namespace detail

}  // namespace wildling::climate
