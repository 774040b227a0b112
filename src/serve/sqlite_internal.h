#pragma once

#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

/// A thin hold on SQLite. Private to `serve`; its exception is caught where the journal is asked.
namespace rig::serve::sql {

/// What SQLite refused, with its own extended code.
class Error : public std::runtime_error {
 public:
  Error(int code, const std::string& words) : std::runtime_error(words), code_(code) {}
  int code() const { return code_; }

 private:
  int code_;
};

class Database {
 public:
  explicit Database(const std::string& path);
  void run(const std::string& statements);
  std::int64_t last_id() const { return sqlite3_last_insert_rowid(handle_.get()); }
  sqlite3* handle() const { return handle_.get(); }

 private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  std::unique_ptr<sqlite3, Close> handle_;
};

/// One statement with its values; a row at a time.
class Statement {
 public:
  Statement(const Database& database, const char* text);

  Statement& bind(std::int64_t value);
  Statement& bind(std::string_view text);
  Statement& bind_bytes(std::string_view bytes);
  Statement& bind(std::optional<std::int64_t> value);

  /// Ready to be bound and run again.
  Statement& again();

  /// Goes to the next row; false when there is none.
  bool step();
  /// Runs a statement that has no rows.
  void run() { step(); }

  std::int64_t number(int column) const { return sqlite3_column_int64(handle_.get(), column); }
  bool is_null(int column) const {
    return sqlite3_column_type(handle_.get(), column) == SQLITE_NULL;
  }
  std::string text(int column) const;

 private:
  struct Finalize {
    void operator()(sqlite3_stmt* handle) const { sqlite3_finalize(handle); }
  };
  const Database& database_;
  std::unique_ptr<sqlite3_stmt, Finalize> handle_;
  int bound_ = 0;
};

/// All of it or nothing: rolled back unless committed.
class Transaction {
 public:
  explicit Transaction(Database& database) : database_(database) {
    database_.run("BEGIN IMMEDIATE");
  }
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
  bool open_ = true;
};

}  // namespace rig::serve::sql
