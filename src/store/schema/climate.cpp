#include "store/schema/rooms.hpp"

namespace wildling::store::schema {
namespace {

using enum ColumnType;

TableDef stations() {
  return {"stations",
          "Weather stations",
          "taking in a weather log; the user",
          TableKind::features,
          GeometryType::point,
          {{"name", text, "", "name of the station", false},
           {"elevation_m", real, "m", "height above the sea"},
           {"distance_km", real, "km", "distance from the site"},
           {"rain_read_next_morning", boolean, "",
            "1 = a reading belongs to the day before it was written"},
           {"origin", text, "", "measured, told, documented, assumed"},
           {"source", text, "", "who keeps the log, or publication and place"}},
          {{{"name"}}}};
}

TableDef weather_days() {
  return {"weather_days",
          "Daily weather",
          "taking in a weather log",
          TableKind::attributes,
          GeometryType::none,
          {{"station_uid", text, "", "station", false},
           {"day", date, "", "day the weather happened", false},
           {"rain_mm", real, "mm", "rain of the day"},
           {"tmax_c", real, "deg C", "highest air temperature"},
           {"tmin_c", real, "deg C", "lowest air temperature"},
           {"rh_max_pct", real, "%", "highest relative humidity"},
           {"rh_min_pct", real, "%", "lowest relative humidity"},
           {"rh_mean_pct", real, "%", "mean relative humidity"},
           {"wind_m_s", real, "m/s", "mean wind speed at 2 m"},
           {"sun_h", real, "h", "hours of bright sunshine"}},
          {{{"station_uid", "day"}, true}},
          false};
}

}  // namespace

std::vector<TableDef> climate_tables() {
  return {stations(), weather_days()};
}

}  // namespace wildling::store::schema
