#include "plan/take_elevation.hpp"

#include <fmt/format.h>

#include "plan/act.hpp"
#include "plan/geometry.hpp"
#include "plan/programme.hpp"
#include "store/geometry.hpp"

namespace wildling::plan {
namespace {

using store::Filter;
using store::from;
using store::Value;

const std::string kName = "hillshade";

std::vector<ground::Shape> site_shapes(const store::Store& store) {
  std::vector<ground::Shape> shapes;
  for (const store::Row& row : store.rows("sites"))
    shapes.push_back(to_shape(store::decode(store::blob_of(row, "geom"))));
  return shapes;
}

std::string source_of(const intake::ElevationFile& elevation) {
  return fmt::format("{}, cells of {:.3g} m, {}", elevation.name, elevation.cell_m,
                     elevation.crs_name);
}

store::DerivedRows picture_rows(const intake::Hillshade& shade, const std::string& source) {
  store::DerivedRows rows;
  rows.table = "pictures";
  rows.columns = {"name", "west_deg", "south_deg", "east_deg", "north_deg", "source", "picture"};
  rows.replaces = Filter{}.with("name", Value{kName});
  rows.write = [&shade, source](store::RowSink& sink) {
    const store::Blob png(shade.png.begin(), shade.png.end());
    sink.add(std::vector<Value>{kName, from(shade.box.west_deg), from(shade.box.south_deg),
                                from(shade.box.east_deg), from(shade.box.north_deg), source, png});
  };
  return rows;
}

}  // namespace

ElevationKept take_elevation(store::Store& store, const intake::ElevationFile& elevation,
                             TakenFile file, const Actor& actor) {
  const std::vector<ground::Shape> sites = site_shapes(store);
  if (sites.empty()) throw Error(ErrorKind::input, elevation.name, say("intake.elevation.no_site"));
  const Parameters parameters = load_programme(store).parameters;
  const intake::Hillshade shade = intake::hillshade(elevation, sites, parameters);
  file.findings.insert(file.findings.end(), shade.findings.begin(), shade.findings.end());
  file.read = std::int64_t{elevation.columns} * elevation.rows;
  file.kept = std::int64_t{shade.columns} * shade.rows;
  store::ChangeSet act = act_of(actor, "elevation model taken in");
  attach(act, "elevation", file);
  act.derived = {picture_rows(shade, source_of(elevation))};
  store.apply(act);
  return {shade.columns,       shade.rows,     shade.cell_m,
          shade.covered_share, shade.lowest_m, shade.highest_m};
}

}  // namespace wildling::plan
