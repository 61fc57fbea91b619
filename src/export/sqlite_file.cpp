#include "export/sqlite_file.hpp"

#include <utility>

#include <sqlite3.h>

#include "base/error.hpp"

namespace wildling::exports {
namespace {

sqlite3* handle(void* database) {
  return static_cast<sqlite3*>(database);
}

sqlite3_stmt* prepared(void* statement) {
  return static_cast<sqlite3_stmt*>(statement);
}

}  // namespace

SqliteFile::SqliteFile(const std::string& temporary, std::string path) : path_(std::move(path)) {
  sqlite3* database = nullptr;
  const int code = sqlite3_open_v2(temporary.c_str(), &database,
                                   SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, nullptr);
  database_ = database;
  if (code == SQLITE_OK) return;
  const std::string reason = sqlite3_errstr(code);
  sqlite3_close_v2(database);
  throw Error(ErrorKind::io, path_, say("base.file_not_written", {{"reason", reason}}));
}

SqliteFile::~SqliteFile() {
  sqlite3_close_v2(handle(database_));
}

void SqliteFile::fail() {
  throw Error(
      ErrorKind::io, path_,
      say("base.file_not_written", {{"reason", std::string(sqlite3_errmsg(handle(database_)))}}));
}

void SqliteFile::run(const std::string& sql) {
  if (sqlite3_exec(handle(database_), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) fail();
}

void SqliteFile::close() {
  if (sqlite3_close(handle(database_)) != SQLITE_OK) fail();
  database_ = nullptr;
}

SqliteFile::Insert::Insert(SqliteFile& file, const std::string& sql) : file_(file) {
  sqlite3_stmt* statement = nullptr;
  check(sqlite3_prepare_v2(handle(file.database_), sql.c_str(), -1, &statement, nullptr));
  statement_ = statement;
}

SqliteFile::Insert::~Insert() {
  sqlite3_finalize(prepared(statement_));
}

void SqliteFile::Insert::check(int code) {
  if (code != SQLITE_OK) file_.fail();
}

SqliteFile::Insert& SqliteFile::Insert::text(std::string_view value) {
  check(sqlite3_bind_text(prepared(statement_), next_++, value.data(),
                          static_cast<int>(value.size()), SQLITE_STATIC));
  return *this;
}

SqliteFile::Insert& SqliteFile::Insert::blob(std::string_view value) {
  check(sqlite3_bind_blob(prepared(statement_), next_++, value.data(),
                          static_cast<int>(value.size()), SQLITE_STATIC));
  return *this;
}

SqliteFile::Insert& SqliteFile::Insert::number(double value) {
  check(sqlite3_bind_double(prepared(statement_), next_++, value));
  return *this;
}

SqliteFile::Insert& SqliteFile::Insert::integer(std::int64_t value) {
  check(sqlite3_bind_int64(prepared(statement_), next_++, value));
  return *this;
}

SqliteFile::Insert& SqliteFile::Insert::null() {
  check(sqlite3_bind_null(prepared(statement_), next_++));
  return *this;
}

void SqliteFile::Insert::insert() {
  if (sqlite3_step(prepared(statement_)) != SQLITE_DONE) file_.fail();
  check(sqlite3_reset(prepared(statement_)));
  next_ = 1;
}

}  // namespace wildling::exports
