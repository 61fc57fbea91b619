#include "store/copy.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/error.hpp"
#include "store/geopackage.hpp"
#include "store/sqlite_backend.hpp"

namespace wildling::store {
namespace {

[[noreturn]] void refuse(const std::string& path, int reason) {
  if (reason == EEXIST) throw Error(ErrorKind::usage, path, say("base.file_exists"));
  throw Error(ErrorKind::io, path,
              say("base.file_not_written", {{"reason", std::string(std::strerror(reason))}}));
}

std::string temporary_beside(const std::string& path) {
  std::string name = path + ".XXXXXX";
  const int file = ::mkstemp(name.data());
  if (file < 0) refuse(path, errno);
  ::fchmod(file, 0644);
  ::close(file);
  return name;
}

void sync_folder_of(const std::string& path) {
  const auto folder = std::filesystem::absolute(path).parent_path();
  const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (file < 0)
    return;  // some file systems do not let a folder be opened; the file itself is on the disk
  ::fsync(file);
  ::close(file);
}

void give_name(const std::string& temporary, const std::string& path, bool overwrite) {
  // link() refuses an existing name in one step; file systems without links (FAT sticks) take the
  // second way.
  if (!overwrite && ::link(temporary.c_str(), path.c_str()) == 0) {
    ::unlink(temporary.c_str());
    return;
  }
  if (!overwrite && (errno == EEXIST || ::access(path.c_str(), F_OK) == 0)) refuse(path, EEXIST);
  if (::rename(temporary.c_str(), path.c_str()) != 0) refuse(path, errno);
}

}  // namespace

void make_file(const std::string& path, bool overwrite,
               const std::function<void(Connection&)>& fill) {
  std::error_code status;
  if (!overwrite && std::filesystem::exists(std::filesystem::symlink_status(path, status)))
    refuse(path, EEXIST);
  if (std::filesystem::is_directory(path, status))
    throw Error(ErrorKind::input, path, say("base.file_is_folder"));
  const std::string temporary = temporary_beside(path);
  const auto clean = [&] {
    for (const char* ending : {"", "-journal", "-wal", "-shm"})
      ::unlink((temporary + ending).c_str());
  };
  try {
    {
      Connection connection(temporary, Connection::Mode::create);
      fill(connection);
      connection.run("PRAGMA journal_mode=DELETE");
    }
    give_name(temporary, path, overwrite);
    sync_folder_of(path);
  } catch (const Error& error) {
    clean();
    throw Error(error.kind(), path,
                error.message());  // the temporary name means nothing to anybody
  } catch (...) {
    clean();
    throw;
  }
}

void build_programme(Connection& connection, const Schema& schema, const std::string& now_utc) {
  connection.run("PRAGMA synchronous=FULL; BEGIN IMMEDIATE");
  make_geopackage(connection);
  migrate(connection, schema, 0, now_utc);
  connection.run("COMMIT");
}

void write_copy(const std::string& path, bool overwrite, const Schema& schema, Backend& from) {
  make_file(path, overwrite, [&](Connection& connection) {
    const Tables tables(tables_of(schema, newest_version(schema)));
    std::string now;
    from.select(tables.at("schema_versions"), {},
                [&](const Row& row) { now = text_of(row, "made_utc"); });
    build_programme(connection, schema, now);
    connection.run("BEGIN IMMEDIATE; DELETE FROM schema_versions");
    SqliteWriter writer(connection);
    for (const TableDef& definition : tables.definitions()) {
      const Table& table = tables.at(definition.name);
      Touched touched;
      from.select(table, {}, [&](const Row& row) {
        writer.insert(table, row);
        if (const auto* blob = std::get_if<Blob>(&cell(row, "geom"))) {
          if (const auto box = envelope_of(*blob)) touched.add(*box);
        }
      });
      writer.finish(table, touched, now);
    }
    connection.run("COMMIT");
  });
}

}  // namespace wildling::store
