#include "store/sqlite.hpp"

#include <fmt/format.h>
#include <sqlite3.h>

#include "base/error.hpp"
#include "store/st_functions.hpp"

namespace wildling::store {
namespace {

constexpr int kPatienceMs = 5000;

std::string uri_of(const std::string& path) {
  std::string uri = "file:";
  for (const char c : path) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '/' || c == '.' || c == '-' || c == '_';
    uri += plain ? std::string(1, c) : fmt::format("%{:02x}", static_cast<unsigned char>(c));
  }
  return uri;
}

int flags_of(Connection::Mode mode) {
  constexpr int kAlways = SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
  switch (mode) {
    case Connection::Mode::create:
      return kAlways | SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    case Connection::Mode::read_write:
      return kAlways | SQLITE_OPEN_READWRITE;
    default:
      return kAlways | SQLITE_OPEN_READONLY;
  }
}

struct Failure {
  ErrorKind kind;
  const char* key;
};

Failure failure_of(int code) {
  switch (code & 0xff) {
    case SQLITE_FULL:
      return {ErrorKind::io, "store.disk_full"};
    case SQLITE_IOERR:
    case SQLITE_NOMEM:
      return {ErrorKind::io, "store.disk_error"};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorKind::io, "store.busy"};
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return {ErrorKind::io, "store.cannot_open_for_writing"};
    case SQLITE_CANTOPEN:
      return {ErrorKind::io, "store.cannot_open"};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
    case SQLITE_FORMAT:
      return {ErrorKind::input, "store.damaged"};
    default:
      return {ErrorKind::internal, "store.sql_failed"};
  }
}

}  // namespace

Statement::Statement(Connection& connection, std::string_view sql) : connection_(connection) {
  const int code = sqlite3_prepare_v2(connection.handle(), sql.data(), static_cast<int>(sql.size()),
                                      &statement_, nullptr);
  if (code != SQLITE_OK) connection.fail(code);
}

Statement::~Statement() {
  sqlite3_finalize(statement_);
}

void Statement::bind(int position, const Value& value) {
  int code = SQLITE_OK;
  if (const auto* whole = std::get_if<std::int64_t>(&value)) {
    code = sqlite3_bind_int64(statement_, position, *whole);
  } else if (const auto* real = std::get_if<double>(&value)) {
    code = sqlite3_bind_double(statement_, position, *real);
  } else if (const auto* text = std::get_if<std::string>(&value)) {
    code = sqlite3_bind_text64(statement_, position, text->data(), text->size(), SQLITE_STATIC,
                               SQLITE_UTF8);
  } else if (const auto* blob = std::get_if<Blob>(&value)) {
    // A null pointer would bind NULL; an empty blob is a value.
    code = blob->empty() ? sqlite3_bind_zeroblob(statement_, position, 0)
                         : sqlite3_bind_blob64(statement_, position, blob->data(), blob->size(),
                                               SQLITE_STATIC);
  } else {
    code = sqlite3_bind_null(statement_, position);
  }
  if (code != SQLITE_OK) connection_.fail(code);
}

bool Statement::step() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  connection_.fail(code);
}

void Statement::reset() noexcept {
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

Value Statement::value(int column) const {
  switch (sqlite3_column_type(statement_, column)) {
    case SQLITE_INTEGER:
      return sqlite3_column_int64(statement_, column);
    case SQLITE_FLOAT:
      return sqlite3_column_double(statement_, column);
    case SQLITE_TEXT:
      return text(column);
    case SQLITE_BLOB: {
      const auto* bytes = static_cast<const std::uint8_t*>(sqlite3_column_blob(statement_, column));
      return Blob(bytes, bytes + sqlite3_column_bytes(statement_, column));
    }
    default:
      return {};
  }
}

std::int64_t Statement::integer(int column) const {
  return sqlite3_column_int64(statement_, column);
}

std::string Statement::text(int column) const {
  const void* bytes = sqlite3_column_text(statement_, column);
  if (bytes == nullptr) return {};
  return {static_cast<const char*>(bytes),
          static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

Connection::Connection(const std::string& path, Mode mode) : path_(path) {
  const std::string uri = uri_of(path) + (mode == Mode::immutable ? "?immutable=1" : "");
  const int code = sqlite3_open_v2(uri.c_str(), &handle_, flags_of(mode), nullptr);
  try {
    if (code != SQLITE_OK) fail(code);
    sqlite3_busy_timeout(handle_, kPatienceMs);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    register_st_functions(handle_);
    run("PRAGMA cell_size_check=ON");
  } catch (...) {
    close();
    throw;
  }
}

Connection::~Connection() {
  close();
}

void Connection::close() noexcept {
  kept_.clear();
  sqlite3_close(handle_);
  handle_ = nullptr;
}

void Connection::fail(int code) const {
  const Failure failure = failure_of(code);
  const std::string reason = handle_ == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(handle_);
  throw Error(failure.kind, path_, say(failure.key, {{"reason", reason}}));
}

void Connection::run(const std::string& sql) {
  const int code = sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(code);
}

void Connection::run(std::string_view sql, std::initializer_list<Value> values) {
  const Borrowed statement(*this, std::string(sql));
  int position = 0;
  for (const Value& value : values) statement->bind(++position, value);
  while (statement->step()) {
  }
}

Value Connection::ask(const std::string& sql, std::initializer_list<Value> values) {
  Statement statement(*this, sql);
  int position = 0;
  for (const Value& value : values) statement.bind(++position, value);
  return statement.step() ? statement.value(0) : Value();
}

Connection::Borrowed::Borrowed(Connection& connection, std::string sql)
    : connection_(connection), sql_(std::move(sql)) {
  const auto found = connection_.kept_.find(sql_);
  if (found != connection_.kept_.end()) {
    statement_ = std::move(found->second);
    connection_.kept_.erase(found);
  } else {
    statement_ = std::make_unique<Statement>(connection_, sql_);
  }
}

Connection::Borrowed::~Borrowed() {
  constexpr std::size_t kMostKept = 300;
  statement_->reset();
  if (connection_.kept_.size() < kMostKept)
    connection_.kept_[std::move(sql_)] = std::move(statement_);
}

bool Connection::in_transaction() const {
  return sqlite3_get_autocommit(handle_) == 0;
}

void Connection::be_patient_ms(int milliseconds) {
  sqlite3_busy_timeout(handle_, milliseconds);
}

void copy_database(const Connection& from, Connection& to) {
  sqlite3_backup* backup = sqlite3_backup_init(to.handle(), "main", from.handle(), "main");
  if (backup == nullptr) to.fail(sqlite3_errcode(to.handle()));
  const int code = sqlite3_backup_step(backup, -1);
  const int end = sqlite3_backup_finish(backup);
  if (code != SQLITE_DONE) to.fail(code);
  if (end != SQLITE_OK) to.fail(end);
}

}  // namespace wildling::store
