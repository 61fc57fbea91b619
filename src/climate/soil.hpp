#pragma once
/// Soil water of FAO-56 (Allen et al. 1998), chapters 7 and 8; equations in brackets. Depths and
/// depletions in mm.
#include <array>
#include <optional>
#include <string_view>

namespace wildling::climate {

/// FAO-56 Table 19 (p. 144): ranges of a texture class. No row is printed for sandy clay loam, clay
/// loam, sandy clay.
struct Texture {
  std::string_view name;                           ///< "silt_clay_loam"
  double field_capacity_low, field_capacity_high;  ///< m3/m3
  double wilting_point_low, wilting_point_high;    ///< m3/m3
  double usable_low, usable_high;                  ///< field capacity less wilting point, m3/m3
  double rew_low_mm, rew_high_mm;                  ///< readily evaporable water
  double tew_low_mm, tew_high_mm;                  ///< total evaporable water at Ze 0.10 m
};

const std::array<Texture, 9>& textures();
const Texture* find_texture(std::string_view name);

double total_available_mm(double field_capacity, double wilting_point,
                          double depth_m);             ///< TAW (82)
double readily_available_mm(double taw_mm, double p);  ///< RAW (83)
/// p for another demand than 5 mm/day: p + 0.04 (5 - ETc), held in [0.1, 0.8] (Table 22, note).
double depletion_share(double p_table, double etc_mm);
double stress_factor(double depletion_mm, double taw_mm, double raw_mm);  ///< Ks (84), in [0, 1]

/// One day of a root zone.
struct RootZoneStep {
  double ks = 1;
  double etc_adj_mm = 0;
  double percolation_mm = 0;
  double depletion_mm = 0;  ///< at the end of the day, in [0, TAW]
};

/// Balance (85) without capillary rise. Percolation by (88), or, as Example 38 does it, before the
/// day's evaporation (`drain_first`).
RootZoneStep root_zone_step(double depletion_mm, double taw_mm, double raw_mm, double etc_mm,
                            double water_in_mm, bool drain_first);

/// Basal crop coefficient on day i (66): constant, then linear between stages.
struct CropStages {
  double kcb_ini, kcb_mid, kcb_end;
  int ini_days, dev_days, mid_days, late_days;
};

double basal_coefficient(const CropStages& stages, int day);

double kc_max(double kcb, double wind_2m_m_s, double rh_min_pct, double height_m);  ///< (72)
double covered_share(double kcb, double kc_min, double kc_max, double height_m);    ///< fc (76)
/// few (75): the wetted part that is exposed; with drippers under the canopy fw is cut by 1 - 2/3
/// fc.
double exposed_wetted_share(double fc, double fw, bool drip = false);
double total_evaporable_mm(double field_capacity, double wilting_point,
                           double depth_m);                                       ///< TEW (73)
double evaporation_reduction(double depletion_mm, double tew_mm, double rew_mm);  ///< Kr (74)
double soil_evaporation_coefficient(double kr, double kc_max, double kcb, double few);  ///< Ke (71)

/// One day of the surface layer (77, 79): wetting in the morning, then evaporation.
struct SurfaceStep {
  double start_mm = 0;  ///< depletion after wetting
  double kr = 0, ke = 0;
  double evaporation_mm = 0;  ///< Ke ETo, over the whole ground
  double percolation_mm = 0;
  double depletion_mm = 0;  ///< at the end of the day
};

SurfaceStep surface_step(double depletion_mm, double wetting_mm, double et0_mm, double tew_mm,
                         double rew_mm, double kc_max, double kcb, double few);

}  // namespace wildling::climate
