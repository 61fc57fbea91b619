#pragma once
/// Workings of the wet-and-dry chain and of the generator fitted to a log.
#include "base/workings.hpp"
#include "climate/generator.hpp"
#include "climate/rain_chain.hpp"

namespace wildling::climate {

/// History of a chain in keys and words: "w" wet, "d" dry, yesterday first; "-" for order 0.
std::string history_name(unsigned history, int order);

/// Keys: "climate/chain/ORDER/HARMONICS/bic" of every candidate, "climate/chain/order",
/// "climate/chain/harmonics"; "climate/chain/wet/MONTH/HISTORY" = chance of a wet day in the middle
/// of the month by the chosen chain, "climate/chain/seen/MONTH/HISTORY" = share of wet days seen.
void add_chain_workings(Workings& workings, const WeatherBook& book, const ChainChoice& choice,
                        const Parameters& parameters);

/// Keys: "climate/generator/shape", "climate/generator/amount/MONTH" = mean rain of a wet day in
/// the middle of the month, "climate/generator/amount_seen/MONTH", and for each column (tmax, tmin,
/// rh_mean) "climate/generator/COLUMN/MONTH/dry", "/wet", "climate/generator/COLUMN/sd/dry",
/// "/wet", "climate/generator/keeps/COLUMN/COLUMN" (A) and "climate/generator/luck/COLUMN/COLUMN"
/// (B).
void add_generator_workings(Workings& workings, const WeatherBook& book, const WeatherModel& model,
                            const Parameters& parameters);

}  // namespace wildling::climate
