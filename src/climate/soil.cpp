// Notation of FAO-56: TAW, RAW, Dr root zone; TEW, REW, De surface layer; Kcb, Ke, Kr, Ks
// coefficients.
#include "climate/soil.hpp"

#include <algorithm>

#include "base/exact_math.hpp"

namespace wildling::climate {

const std::array<Texture, 9>& textures() {
  static const std::array<Texture, 9> table = {{
      {"sand", 0.07, 0.17, 0.02, 0.07, 0.05, 0.11, 2, 7, 6, 12},
      {"loamy_sand", 0.11, 0.19, 0.03, 0.10, 0.06, 0.12, 4, 8, 9, 14},
      {"sandy_loam", 0.18, 0.28, 0.06, 0.16, 0.11, 0.15, 6, 10, 15, 20},
      {"loam", 0.20, 0.30, 0.07, 0.17, 0.13, 0.18, 8, 10, 16, 22},
      {"silt_loam", 0.22, 0.36, 0.09, 0.21, 0.13, 0.19, 8, 11, 18, 25},
      {"silt", 0.28, 0.36, 0.12, 0.22, 0.16, 0.20, 8, 11, 22, 26},
      {"silt_clay_loam", 0.30, 0.37, 0.17, 0.24, 0.13, 0.18, 8, 11, 22, 27},
      {"silty_clay", 0.30, 0.42, 0.17, 0.29, 0.13, 0.19, 8, 12, 22, 28},
      {"clay", 0.32, 0.40, 0.20, 0.24, 0.12, 0.20, 8, 12, 22, 29},
  }};
  return table;
}

const Texture* find_texture(std::string_view name) {
  const auto& table = textures();
  const auto found =
      std::find_if(table.begin(), table.end(), [&](const Texture& t) { return t.name == name; });
  return found == table.end() ? nullptr : &*found;
}

double total_available_mm(double field_capacity, double wilting_point, double depth_m) {
  return 1000 * (field_capacity - wilting_point) * depth_m;  // eq. 82
}

double readily_available_mm(double taw_mm, double p) {
  return p * taw_mm;
}  // eq. 83

double depletion_share(double p_table, double etc_mm) {
  return std::clamp(p_table + 0.04 * (5 - etc_mm), 0.1, 0.8);
}

double stress_factor(double depletion_mm, double taw_mm, double raw_mm) {
  if (depletion_mm <= raw_mm) return 1;
  return std::clamp((taw_mm - depletion_mm) / (taw_mm - raw_mm), 0.0, 1.0);  // eq. 84
}

RootZoneStep root_zone_step(double depletion_mm, double taw_mm, double raw_mm, double etc_mm,
                            double water_in_mm, bool drain_first) {
  RootZoneStep step;
  double d = depletion_mm;
  if (drain_first) {
    step.percolation_mm = std::max(0.0, water_in_mm - d);
    d = std::max(0.0, d - water_in_mm);
  }
  step.ks = stress_factor(d, taw_mm, raw_mm);
  step.etc_adj_mm = step.ks * etc_mm;  // eq. 81
  if (!drain_first) {
    step.percolation_mm = std::max(0.0, water_in_mm - step.etc_adj_mm - d);  // eq. 88
    d = d - water_in_mm + step.percolation_mm;                               // eq. 85
  }
  step.depletion_mm = std::clamp(d + step.etc_adj_mm, 0.0, taw_mm);  // eq. 85, 86
  return step;
}

double basal_coefficient(const CropStages& s, int day) {
  const auto between = [day](double from, double to, int begin, int length) {
    return from + (to - from) * (day - begin) / length;  // eq. 66
  };
  const int dev = s.ini_days, mid = dev + s.dev_days, late = mid + s.mid_days;
  if (day <= dev) return s.kcb_ini;
  if (day <= mid) return between(s.kcb_ini, s.kcb_mid, dev, s.dev_days);
  if (day <= late) return s.kcb_mid;
  return between(s.kcb_mid, s.kcb_end, late, s.late_days);
}

double kc_max(double kcb, double wind_2m_m_s, double rh_min_pct, double height_m) {
  const double climate =
      1.2 + (0.04 * (wind_2m_m_s - 2) - 0.004 * (rh_min_pct - 45)) * exact_pow(height_m / 3, 0.3);
  return std::max(climate, kcb + 0.05);  // eq. 72
}

double covered_share(double kcb, double kc_min, double kc_max, double height_m) {
  if (kcb <= kc_min) return 0;
  return exact_pow((kcb - kc_min) / (kc_max - kc_min), 1 + 0.5 * height_m);  // eq. 76
}

double exposed_wetted_share(double fc, double fw, bool drip) {
  const double wetted = drip ? (1 - 2.0 / 3.0 * fc) * fw : fw;
  return std::min(1 - fc, wetted);  // eq. 75
}

double total_evaporable_mm(double field_capacity, double wilting_point, double depth_m) {
  return 1000 * (field_capacity - 0.5 * wilting_point) * depth_m;  // eq. 73
}

double evaporation_reduction(double depletion_mm, double tew_mm, double rew_mm) {
  if (depletion_mm <= rew_mm) return 1;
  return std::clamp((tew_mm - depletion_mm) / (tew_mm - rew_mm), 0.0, 1.0);  // eq. 74
}

double soil_evaporation_coefficient(double kr, double kc_max, double kcb, double few) {
  return std::min(kr * (kc_max - kcb), few * kc_max);  // eq. 71
}

SurfaceStep surface_step(double depletion_mm, double wetting_mm, double et0_mm, double tew_mm,
                         double rew_mm, double kc_max, double kcb, double few) {
  SurfaceStep step;
  step.percolation_mm = std::max(0.0, wetting_mm - depletion_mm);  // eq. 79
  step.start_mm = std::max(0.0, depletion_mm - wetting_mm);
  step.kr = evaporation_reduction(step.start_mm, tew_mm, rew_mm);
  step.ke = soil_evaporation_coefficient(step.kr, kc_max, kcb, few);
  step.evaporation_mm = step.ke * et0_mm;
  step.depletion_mm = std::min(tew_mm, step.start_mm + step.evaporation_mm / few);  // eq. 77
  return step;
}

}  // namespace wildling::climate
