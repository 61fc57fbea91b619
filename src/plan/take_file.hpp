#pragma once
/// Taking in a file, the same for every face: read it, see what was noticed, then keep it. Each
/// kind has one reader here; a face only gathers options and shows findings and the sentence.
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/date.hpp"
#include "base/error.hpp"
#include "plan/take.hpp"
#include "store/store.hpp"

namespace wildling::plan {

/// Where the bytes are: a file on this machine, or bytes that came over the page.
struct TakeSource {
  std::string path = {};                  ///< used when there are no bytes
  std::string name = {};                  ///< without folder: for findings and the log
  std::optional<std::string> bytes = {};  ///< the whole file

  static TakeSource file(const std::string& path);
  static TakeSource upload(const std::string& name, std::string bytes);
};

/// What the user says about a file that does not say it. A kind reads only what concerns it.
struct TakeOptions {
  // boundary, water, elevation
  std::string crs = {};      ///< "EPSG:32650"; empty = what the file says
  bool swap_axes = false;    ///< the file has latitude first
  bool close_lines = false;  ///< a walk goes round a site
  // weather
  std::string station = "Station";  ///< as it stands, the name in the file goes before it
  std::optional<double> lon_deg = {}, lat_deg = {}, elevation_m = {}, distance_km = {};
  bool replace = false;                 ///< the new log takes the place of the station's old one
  bool correct = false;                 ///< days of the log are added or corrected, the others stay
  bool main = false;                    ///< the station speaks for the programme from now on
  std::vector<std::string> units = {};  ///< "rain=inch", over what the file says
  std::optional<int> year = {};         ///< of a month matrix that does not name its year
  bool read_next_morning = false;       ///< readings belong to the day before
  std::string date_order = {};          ///< dmy, mdy or ymd
  std::string decimal = {};             ///< comma or dot
  std::string only_station = {};        ///< the one to read, where the file holds several
  std::vector<double> missing = {};
  std::optional<double> trace = {};
  std::vector<std::string> columns = {};  ///< "rain=CURAH HUJAN"
  std::optional<Date> today = {};         ///< later days are set aside
};

/// A file that has been read and not kept yet.
struct ReadFile {
  TakenFile record = {};  ///< with all findings
  /// Keeps it in one act. @return what was kept, as a sentence. @throws Error. Empty when nothing
  /// of the file can be used.
  std::function<Message(store::Store&, const Actor&)> keep = {};

  /// What keeping it changed in the programme (corrected readings); filled by `keep`.
  std::shared_ptr<Findings> changes = std::make_shared<Findings>();

  /// @throws Error{input} when nothing of the file can be used
  void refuse_if_empty() const;
};

/// One thing that can be taken in.
struct TakeKind {
  std::string name = {};  ///< "boundary"
  ReadFile (*read)(const TakeSource&, const TakeOptions&) = nullptr;
};

/// boundary, water, weather, species, elevation
const std::vector<TakeKind>& take_kinds();

/// @param kind  name of a TakeKind
/// @throws Error{usage} for an unknown kind; Error as the readers of intake
ReadFile read_to_take(const std::string& kind, const TakeSource& source,
                      const TakeOptions& options);

}  // namespace wildling::plan
