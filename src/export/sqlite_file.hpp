#pragma once
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace wildling::exports {

/// A new SQLite file of our own making; every failure becomes Error{io} that names the file and
/// SQLite's reason.
class SqliteFile {
 public:
  /// @param temporary  where it is written
  /// @param path       how it is called in errors
  SqliteFile(const std::string& temporary, std::string path);
  SqliteFile(const SqliteFile&) = delete;
  SqliteFile& operator=(const SqliteFile&) = delete;
  ~SqliteFile();

  void run(const std::string& sql);
  void close();  ///< @throws Error{io}

  /// A prepared INSERT. Bind in order, then insert().
  class Insert {
   public:
    Insert(SqliteFile& file, const std::string& sql);
    Insert(const Insert&) = delete;
    Insert& operator=(const Insert&) = delete;
    ~Insert();
    Insert& text(std::string_view value);  ///< must live until insert()
    Insert& blob(std::string_view value);  ///< must live until insert()
    Insert& number(double value);
    Insert& integer(std::int64_t value);
    Insert& null();
    void insert();

   private:
    void check(int code);
    SqliteFile& file_;
    void* statement_ = nullptr;
    int next_ = 1;
  };

 private:
  [[noreturn]] void fail();
  void* database_ = nullptr;
  std::string path_;
};

}  // namespace wildling::exports
