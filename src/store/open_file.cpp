#include <array>
#include <filesystem>
#include <fstream>

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/backed_store.hpp"
#include "store/copy.hpp"
#include "store/geopackage.hpp"
#include "store/sqlite_backend.hpp"

namespace wildling::store {
namespace {

namespace fs = std::filesystem;

/// The first bytes of the file, before SQLite sees it (https://www.sqlite.org/fileformat.html,
/// table of clause 1.3).
struct Head {
  bool write_ahead = false;  ///< bytes 18 and 19: it was not closed cleanly, or is in use
};

[[noreturn]] void not_a_programme(const std::string& path) {
  throw Error(ErrorKind::input, path, say("store.not_a_programme"));
}

Head read_head(const std::string& path) {
  std::error_code status;
  if (!fs::exists(path, status)) throw Error(ErrorKind::input, path, say("base.file_missing"));
  if (!fs::is_regular_file(path, status))
    throw Error(ErrorKind::input, path, say("base.file_is_folder"));
  std::ifstream file(path, std::ios::binary);
  if (!file) throw Error(ErrorKind::input, path, say("base.file_unreadable"));
  std::array<char, 100> bytes{};
  file.read(bytes.data(), bytes.size());
  const std::string_view head(bytes.data(), static_cast<std::size_t>(file.gcount()));
  if (head.size() < bytes.size() ||
      head.substr(0, 16) != std::string_view("SQLite format 3\0", 16)) {
    not_a_programme(path);
  }
  if (head.substr(68, 4) != "GPKG") not_a_programme(path);
  return {head[18] == 2 || head[19] == 2};
}

bool can_write(const std::string& path) {
  return ::access(path.c_str(), W_OK) == 0;
}

std::string folder_of(const std::string& path) {
  return fs::path(path).parent_path().string();
}

bool holds_bytes(const std::string& path) {
  std::error_code status;
  const auto size = fs::file_size(path, status);
  return !status && size > 0;
}

/// Opens without leaving a trace. In a write-protected folder SQLite cannot make the files that go
/// with a write-ahead log, so such a file is read as it stands, if nothing is left in a log beside
/// it.
std::unique_ptr<Connection> connect_read_only(const std::string& path, const Head& head) {
  if (!can_write(folder_of(path))) {
    if (holds_bytes(path + "-wal") || holds_bytes(path + "-journal")) {
      throw Error(ErrorKind::io, path, say("store.not_closed_cleanly"));
    }
    if (head.write_ahead) return std::make_unique<Connection>(path, Connection::Mode::immutable);
  }
  return std::make_unique<Connection>(path, Connection::Mode::read_only);
}

bool has_table(Connection& connection, const std::string& name) {
  const Value found =
      connection.ask("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?", {name});
  return std::holds_alternative<std::int64_t>(found);
}

int version_in(Connection& connection) {
  if (!has_table(connection, "schema_versions") || !has_table(connection, "change_sets")) {
    not_a_programme(connection.path());
  }
  const Value version = connection.ask("SELECT max(version) FROM schema_versions");
  const auto* found = std::get_if<std::int64_t>(&version);
  if (found == nullptr || *found < 1 || *found > 1'000'000) not_a_programme(connection.path());
  return static_cast<int>(*found);
}

Finding newer(const std::string& path, int found, int known) {
  return {Severity::note, path,
          say("store.newer", {{"found", std::int64_t{found}}, {"known", std::int64_t{known}}})};
}

Opened open_read_only(const std::string& path, const Head& head, const Schema& schema) {
  Opened opened;
  auto connection = connect_read_only(path, head);
  opened.schema_version = version_in(*connection);
  opened.read_only = true;
  const int known = newest_version(schema);
  if (opened.schema_version > known)
    opened.findings.push_back(newer(path, opened.schema_version, known));
  opened.backend = std::make_unique<SqliteBackend>(std::move(connection), nullptr);
  return opened;
}

/// "demo.before-version-3.gpkg", with a number when that exists.
std::string free_copy_name(const std::string& path, int version) {
  const fs::path file(path);
  const std::string stem = (file.parent_path() / file.stem()).string();
  std::error_code status;
  for (int i = 1;; ++i) {
    const std::string name =
        fmt::format("{}.before-version-{}{}{}", stem, version, i == 1 ? "" : fmt::format("-{}", i),
                    file.extension().string());
    if (!fs::exists(name, status)) return name;
  }
}

void bring_up_to_date(Connection& connection, const Schema& schema, Opened& opened,
                      Outside& outside) {
  const int wanted = newest_version(schema);
  const std::string copy = free_copy_name(connection.path(), wanted);
  make_file(copy, false, [&](Connection& to) { copy_database(connection, to); });
  connection.run("BEGIN IMMEDIATE");
  try {
    migrate(connection, schema, opened.schema_version, outside.now_utc());
    connection.run("COMMIT");
  } catch (...) {
    if (connection.in_transaction()) connection.run("ROLLBACK");
    throw;
  }
  opened.findings.push_back(
      {Severity::changed, connection.path(),
       say("store.migrated", {{"found", std::int64_t{opened.schema_version}},
                              {"wanted", std::int64_t{wanted}},
                              {"copy", fs::path(copy).filename().string()}})});
  opened.schema_version = wanted;
}

Opened open_for_writing(const std::string& path, const Head& head, const Schema& schema,
                        Outside& outside) {
  if (!can_write(path) || !can_write(folder_of(path))) {
    throw Error(ErrorKind::io, path, say("store.cannot_open_for_writing"));
  }
  Opened opened;
  {
    auto lock = std::make_unique<FileLock>(path);
    auto connection = std::make_unique<Connection>(path, Connection::Mode::read_write);
    connection->run("PRAGMA synchronous=FULL");
    opened.schema_version = version_in(*connection);
    if (opened.schema_version <= newest_version(schema)) {
      if (opened.schema_version < newest_version(schema))
        bring_up_to_date(*connection, schema, opened, outside);
      connection->run("PRAGMA journal_mode=WAL; PRAGMA journal_size_limit=67108864");
      opened.backend = std::make_unique<SqliteBackend>(std::move(connection), std::move(lock));
      return opened;
    }
  }
  return open_read_only(path, head, schema);
}

}  // namespace

std::unique_ptr<Store> open_file(const std::string& path, OpenMode mode, Outside& outside,
                                 const Schema& schema) {
  const Head head = read_head(path);
  // One name for one file, so that the lock is the same however it was called.
  const std::string real = fs::canonical(path).string();
  Opened opened = mode == OpenMode::read_only ? open_read_only(real, head, schema)
                                              : open_for_writing(real, head, schema, outside);
  return std::make_unique<BackedStore>(std::move(opened), schema, outside);
}

std::unique_ptr<Store> create_file(const std::string& path, Outside& outside,
                                   const Schema& schema) {
  const std::string now = outside.now_utc();
  make_file(path, false, [&](Connection& connection) { build_programme(connection, schema, now); });
  return open_file(path, OpenMode::read_write, outside, schema);
}

}  // namespace wildling::store
