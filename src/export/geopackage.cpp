#include "export/geopackage.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "base/error.hpp"
#include "export/gpkg_shapes.hpp"
#include "export/sqlite_file.hpp"
#include "export/whole_file.hpp"
#include "layout/assign.hpp"

namespace wildling::exports {
namespace {

// OGC 12-128r15, table definitions of annex C; the definition of 4326 is that of its
// requirement 11.
constexpr const char* kTables = R"sql(
PRAGMA application_id = 1196444487;
PRAGMA user_version = 10300;
PRAGMA journal_mode = OFF;
PRAGMA synchronous = OFF;
BEGIN;
CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY,
  organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL, description TEXT);
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined cartesian SRS', -1, 'NONE', -1, 'undefined', 'undefined cartesian coordinate reference system'),
  ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system'),
  ('WGS 84 geodetic', 4326, 'EPSG', 4326, 'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AXIS["Latitude",NORTH],AXIS["Longitude",EAST],AUTHORITY["EPSG","4326"]]', 'longitude/latitude coordinates in decimal degrees on the WGS 84 spheroid');
CREATE TABLE gpkg_contents (table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL, identifier TEXT UNIQUE,
  description TEXT DEFAULT '', last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE, srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id));
CREATE TABLE gpkg_geometry_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL,
  geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name), CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));
CREATE TABLE blocks (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom MULTIPOLYGON, block TEXT, site TEXT,
  ground_type TEXT, area_ha REAL, places INTEGER, planted INTEGER, status TEXT);
CREATE TABLE seedlings (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom POINT, seedling TEXT, block TEXT,
  row INTEGER, number INTEGER, species TEXT);
CREATE TABLE pegs (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom POINT, block TEXT, peg TEXT);
CREATE TABLE baselines (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom LINESTRING, block TEXT, length_m REAL,
  bearing_deg REAL, row_bearing_deg REAL, rows INTEGER);
CREATE TABLE about (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, line TEXT);
)sql";

constexpr std::size_t kStopEvery = 1U << 14U;

std::string quoted_name(const std::string& name) {
  std::string out = "\"";
  for (const char c : name) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

class Writer {
 public:
  Writer(SqliteFile& file, const GeoPackageCopy& copy, const Words& words, const Progress& progress)
      : file_(file), copy_(copy), words_(words), progress_(progress) {}

  void blocks() {
    SqliteFile::Insert row(file_, "INSERT INTO blocks VALUES (NULL, ?, ?, ?, ?, ?, ?, ?, ?)");
    const std::string draft = draft_mark(words_);
    Box box;
    for (const LaidBlock& block : copy_.blocks) {
      const std::string shape = gpkg_multipolygon(block.shape);
      row.blob(shape).text(block.code).text(block.site).text(block.ground_type);
      row.number(ground::area_m2(block.shape) / 10'000);
      row.integer(block.places == nullptr ? 0 : static_cast<std::int64_t>(block.places->size()));
      row.integer(planted_on(block));
      if (block.gate.open) {
        row.null();
      } else {
        row.text(draft);
      }
      row.insert();
      for (const auto& part : block.shape.parts) {
        for (const ground::LonLat& at : part.outer) box.add(at);
      }
    }
    list("blocks", "MULTIPOLYGON", box);
  }

  std::int64_t seedlings() {
    SqliteFile::Insert row(file_, "INSERT INTO seedlings VALUES (NULL, ?, ?, ?, ?, ?, ?)");
    Box box;
    std::int64_t count = 0;
    for (const LaidBlock& block : copy_.blocks) {
      const bool ready = block.places != nullptr && block.frame != nullptr &&
                         block.species.size() == block.places->size();
      if (block.gate.open && ready) count += seedlings_of(block, row, box);
    }
    list("seedlings", "POINT", box);
    return count;
  }

  void pegs() {
    SqliteFile::Insert peg(file_, "INSERT INTO pegs VALUES (NULL, ?, ?, ?)");
    SqliteFile::Insert line(file_, "INSERT INTO baselines VALUES (NULL, ?, ?, ?, ?, ?, ?)");
    Box box;
    for (const LaidBlock& block : copy_.blocks) {
      if (!block.gate.open || block.baseline == nullptr || block.frame == nullptr) continue;
      const layout::Baseline& b = *block.baseline;
      const ground::LonLat ends[2] = {block.frame->to_lonlat(b.peg_a),
                                      block.frame->to_lonlat(b.peg_b)};
      for (int i = 0; i < 2; ++i) {
        const std::string shape = gpkg_point(ends[i]);
        peg.blob(shape).text(block.code).text(i == 0 ? "A" : "B").insert();
        box.add(ends[i]);
      }
      const std::string shape = gpkg_line({ends[0], ends[1]});
      line.blob(shape)
          .text(block.code)
          .number(b.length_m)
          .number(b.bearing_deg)
          .number(b.row_bearing_deg);
      line.integer(static_cast<std::int64_t>(b.rows.size())).insert();
    }
    list("pegs", "POINT", box);
    list("baselines", "LINESTRING", box);
  }

  void about(const std::vector<Message>& note) {
    SqliteFile::Insert row(file_, "INSERT INTO about VALUES (NULL, ?)");
    if (!copy_.title.empty()) row.text(copy_.title).insert();
    for (const Message& message : note) row.text(words_.text(message)).insert();
    list("about", "", {});
  }

  void table(const Table& fit) {
    std::string columns;
    std::string marks = "NULL";
    for (const Column& column : fit.columns) {
      columns += ", " + quoted_name(column.name) + " " + type_of(fit, column);
      marks += ", ?";
    }
    const std::string name = quoted_name(fit.name);
    file_.run("CREATE TABLE " + name + " (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL" +
              columns + ")");
    SqliteFile::Insert row(file_, "INSERT INTO " + name + " VALUES (" + marks + ")");
    for (const TableRow& one : fit.rows) {
      std::vector<std::string> days(one.cells.size());  // live until the row is in
      for (std::size_t c = 0; c < one.cells.size(); ++c) bind(row, one.cells[c], days[c]);
      row.insert();
    }
    list(fit.name, "", {});
  }

 private:
  std::int64_t seedlings_of(const LaidBlock& block, SqliteFile::Insert& row, Box& box) {
    const layout::Places& places = *block.places;
    std::int64_t count = 0;
    fmt::memory_buffer id;
    for (std::size_t r = 0; r < places.rows.size(); ++r) {
      const layout::Row& line = places.rows[r];
      for (std::uint32_t n = 0; n < line.count; ++n) {
        const std::size_t place = line.first + n;
        if (block.species[place] == layout::kEmptyPlace) continue;
        if (++done_ % kStopEvery == 0) check_stop(progress_);
        const ground::LonLat at = block.frame->to_lonlat(places.at(place));
        const std::string shape = gpkg_point(at);
        box.add(at);
        id.clear();
        fmt::format_to(std::back_inserter(id), "{}-r{:03}-{:03}", block.code, r + 1, n + 1);
        row.blob(shape).text({id.data(), id.size()}).text(block.code);
        row.integer(static_cast<std::int64_t>(r + 1)).integer(std::int64_t{n} + 1);
        row.text(copy_.species.at(block.species[place])).insert();
        ++count;
      }
    }
    return count;
  }

  /// Lists a table in gpkg_contents, as features when it has a geometry.
  void list(const std::string& name, const std::string& geometry, const Box& box) {
    SqliteFile::Insert row(
        file_,
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, last_change, "
        "min_x, min_y, max_x, max_y, srs_id) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    row.text(name).text(geometry.empty() ? "attributes" : "features").text(name).text(copy_.title);
    row.text(copy_.made_at_utc);
    if (box.empty()) {
      row.null().null().null().null();
    } else {
      row.number(box.west).number(box.south).number(box.east).number(box.north);
    }
    row.integer(geometry.empty() ? 0 : 4326).insert();
    if (geometry.empty()) return;
    SqliteFile::Insert column(
        file_, "INSERT INTO gpkg_geometry_columns VALUES (?, 'geom', ?, 4326, 0, 0)");
    column.text(name).text(geometry).insert();
  }

  static std::string type_of(const Table& fit, const Column& column) {
    const auto c = static_cast<std::size_t>(&column - fit.columns.data());
    bool real = false;
    bool whole = false;
    for (const TableRow& row : fit.rows) {
      if (std::holds_alternative<std::string>(row.cells[c])) return "TEXT";
      if (std::holds_alternative<Date>(row.cells[c])) return "DATE";
      real = real || std::holds_alternative<double>(row.cells[c]);
      whole = whole || std::holds_alternative<std::int64_t>(row.cells[c]);
    }
    return real ? "REAL" : whole ? "INTEGER" : "TEXT";
  }

  static void bind(SqliteFile::Insert& row, const Cell& cell, std::string& day) {
    if (const auto* text = std::get_if<std::string>(&cell)) {
      row.text(*text);
    } else if (const auto* real = std::get_if<double>(&cell)) {
      row.number(*real);  // SQLite keeps a NaN as NULL
    } else if (const auto* whole = std::get_if<std::int64_t>(&cell)) {
      row.integer(*whole);
    } else if (const auto* date = std::get_if<Date>(&cell)) {
      day = iso_date(*date);
      row.text(day);
    } else {
      row.null();
    }
  }

  SqliteFile& file_;
  const GeoPackageCopy& copy_;
  const Words& words_;
  const Progress& progress_;
  std::size_t done_ = 0;
};

void check_copy(const GeoPackageCopy& copy) {
  for (const LaidBlock& block : copy.blocks) {
    for (const std::uint8_t s : block.species) {
      if (s == layout::kEmptyPlace || s < copy.species.size()) continue;
      throw Error(ErrorKind::internal, block.code,
                  say("export.species_without_name", {{"species", std::int64_t{s}}}));
    }
  }
  std::set<std::string> names = {"blocks", "seedlings", "pegs", "baselines", "about"};
  for (const Table& table : copy.tables) {
    const bool reserved = table.name.empty() || table.name.rfind("gpkg_", 0) == 0 ||
                          table.name.rfind("sqlite_", 0) == 0;
    if (reserved || !names.insert(table.name).second) {
      throw Error(ErrorKind::internal, table.name, say("export.table_name_taken"));
    }
  }
}

std::vector<Message> note_of(const GeoPackageCopy& copy, const GateBook& gates,
                             const ExportRules& rules) {
  std::int64_t seedlings = 0;
  std::string closed;
  for (const LaidBlock& block : copy.blocks) {
    if (block.gate.open) {
      seedlings += planted_on(block);
    } else {
      closed += (closed.empty() ? "" : ", ") + block.code;
    }
  }
  std::vector<Message> note = {
      say("export.note.geopackage",
          {{"blocks", static_cast<std::int64_t>(copy.blocks.size())}, {"seedlings", seedlings}})};
  if (!closed.empty())
    note.push_back(say("export.note.closed_without_seedlings", {{"blocks", closed}}));
  for (const Table& table : copy.tables) {
    for (Message& message : contents_note(table, gates, rules)) note.push_back(std::move(message));
  }
  return note;
}

}  // namespace

std::vector<Message> write_geopackage(const std::string& path, const GeoPackageCopy& copy,
                                      const ExportRules& rules, const Words& words, bool overwrite,
                                      const Progress& progress) {
  check_rules(rules);
  check_copy(copy);
  const GateBook gates = gates_of(copy.blocks);
  std::vector<Table> tables;
  for (const Table& table : copy.tables) tables.push_back(fit_to_leave(table, gates, rules, words));
  const std::vector<Message> note = note_of(copy, gates, rules);
  WholeFile whole(path, overwrite);
  {
    SqliteFile file(whole.temporary(), path);
    file.run(kTables);
    {
      Writer writer(file, copy, words, progress);
      writer.blocks();
      writer.seedlings();
      writer.pegs();
      writer.about(note);
      for (const Table& table : tables) writer.table(table);
    }
    file.run("COMMIT");
    file.close();
  }
  check_stop(progress);
  whole.keep();
  return note;
}

}  // namespace wildling::exports
