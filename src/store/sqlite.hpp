#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>

#include "store/value.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace wildling::store {

class Connection;

/// A prepared statement. Values are bound without copying: they must live until reset().
class Statement {
 public:
  Statement(Connection& connection, std::string_view sql);
  ~Statement();
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;

  /// @param position  1 = the first question mark
  void bind(int position, const Value& value);
  /// @return true when a row is there. @throws Error as Connection says
  bool step();
  /// Ready to run again; bindings are gone.
  void reset() noexcept;

  /// @param column  0 = the first
  [[nodiscard]] Value value(int column) const;
  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] std::string text(int column) const;

 private:
  Connection& connection_;
  sqlite3_stmt* statement_ = nullptr;
};

/// One SQLite connection with what the programme file needs: the five ST_ functions, 5 s of
/// patience, and no trust in what a file brings along. All failures are Error: io for disk, lock
/// and read-only, input for damage, else internal.
class Connection {
 public:
  enum class Mode { create, read_write, read_only, immutable };

  Connection(const std::string& path, Mode mode);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  /// One or more statements without values or results.
  void run(const std::string& sql);
  void run(std::string_view sql, std::initializer_list<Value> values);
  /// First column of the first row; null when there is none.
  Value ask(const std::string& sql, std::initializer_list<Value> values = {});

  /// A prepared statement from the store of the last few hundred, by its text; it goes back at the
  /// end of the scope.
  class Borrowed {
   public:
    Borrowed(Connection& connection, std::string sql);
    ~Borrowed();
    Borrowed(const Borrowed&) = delete;
    Borrowed& operator=(const Borrowed&) = delete;

    Statement* operator->() const { return statement_.get(); }

    Statement& operator*() const { return *statement_; }

   private:
    Connection& connection_;
    std::string sql_;
    std::unique_ptr<Statement> statement_;
  };

  [[nodiscard]] const std::string& path() const { return path_; }

  [[nodiscard]] sqlite3* handle() const { return handle_; }

  [[nodiscard]] bool in_transaction() const;
  void be_patient_ms(int milliseconds);
  /// @throws Error for an SQLite result code
  [[noreturn]] void fail(int code) const;

 private:
  void close() noexcept;

  std::string path_;
  sqlite3* handle_ = nullptr;
  std::map<std::string, std::unique_ptr<Statement>, std::less<>> kept_;
};

/// Copies a whole database, also while it is written to. @throws Error{io}
void copy_database(const Connection& from, Connection& to);

}  // namespace wildling::store
