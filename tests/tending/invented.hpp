#pragma once
#include "tending/care.hpp"

/// Invented blocks and rain for the tests of tending.
namespace wildling::tending {

inline const Parameters& shipped() {
  static const Parameters parameters = Parameters::shipped();
  return parameters;
}

/// Rain of 12 months in mm, January first; half of the rain in mm as rain days per 20 mm.
inline std::array<climate::MonthNormal, 12> normals_of(const std::array<double, 12>& rain_mm) {
  std::array<climate::MonthNormal, 12> normals{};
  for (std::size_t i = 0; i < 12; ++i) {
    normals[i].month = static_cast<int>(i) + 1;
    normals[i].years = 10;
    normals[i].rain_mean_mm = rain_mm[i];
    normals[i].rain_days_mean = rain_mm[i] / 15;
  }
  return normals;
}

inline const std::array<double, 12> kEverWet = {250, 220, 240, 230, 200, 180,
                                                150, 140, 170, 220, 260, 280};
inline const std::array<double, 12> kSeasonal = {250, 220, 240, 180, 120, 60,
                                                 30,  20,  70,  160, 260, 280};

inline BlockCare invented_block(std::string code = "B1") {
  BlockCare block;
  block.block = std::move(code);
  block.area_ha = 10;
  block.cover = ground::Cover::running_grass;
  block.slope_deg = 8;
  block.planted_by_group = {6000, 4000, 3700};
  block.row_spacing_m = 2.7;
  block.planting_first = make_date(2026, 11, 10);
  block.planting_last = make_date(2026, 12, 7);
  block.firebreak_m = 1300;
  return block;
}

}  // namespace wildling::tending
