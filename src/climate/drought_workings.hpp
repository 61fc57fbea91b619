#pragma once
/// Workings of SPI and SPEI: newest month, from the months' rain through sums, L-moments, fitted
/// distribution and probability.
#include "base/workings.hpp"
#include "climate/drought.hpp"

namespace wildling::climate {

/// Keys: "climate/drought/SCALE/sum", "/spi", "/spi_probability", "/spi_shape", "/spi_scale",
/// "/no_rain_share", "/spi_l1", "/spi_l2"; with temperatures also "/balance", "/spei",
/// "/spei_probability", "/spei_xi", "/spei_alpha", "/spei_k". Nothing when refused or when no month
/// has an index.
void add_drought_workings(Workings& workings, const WeatherBook& book, const DroughtResult& result,
                          const Parameters& parameters);

}  // namespace wildling::climate
