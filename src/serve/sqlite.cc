#include "serve/sqlite_internal.h"

namespace rig::serve::sql {
namespace {

[[noreturn]] void refuse(sqlite3* handle) {
  throw Error(sqlite3_extended_errcode(handle), sqlite3_errmsg(handle));
}

}  // namespace

Database::Database(const std::string& path) {
  sqlite3* opened = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOFOLLOW |
                    SQLITE_OPEN_FULLMUTEX | SQLITE_OPEN_EXRESCODE;
  const int code = sqlite3_open_v2(path.c_str(), &opened, flags, nullptr);
  handle_.reset(opened);
  if (code != SQLITE_OK) throw Error(code, sqlite3_errstr(code));
}

void Database::run(const std::string& statements) {
  if (sqlite3_exec(handle_.get(), statements.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
    refuse(handle_.get());
  }
}

Statement::Statement(const Database& database, const char* text) : database_(database) {
  sqlite3_stmt* made = nullptr;
  if (sqlite3_prepare_v2(database.handle(), text, -1, &made, nullptr) != SQLITE_OK) {
    refuse(database.handle());
  }
  handle_.reset(made);
}

Statement& Statement::bind(std::int64_t value) {
  if (sqlite3_bind_int64(handle_.get(), ++bound_, value) != SQLITE_OK) refuse(database_.handle());
  return *this;
}

Statement& Statement::bind(std::string_view text) {
  if (sqlite3_bind_text64(handle_.get(), ++bound_, text.data(), text.size(), SQLITE_TRANSIENT,
                          SQLITE_UTF8) != SQLITE_OK) {
    refuse(database_.handle());
  }
  return *this;
}

Statement& Statement::bind_bytes(std::string_view bytes) {
  if (sqlite3_bind_blob64(handle_.get(), ++bound_, bytes.data(), bytes.size(), SQLITE_TRANSIENT) !=
      SQLITE_OK) {
    refuse(database_.handle());
  }
  return *this;
}

Statement& Statement::bind(std::optional<std::int64_t> value) {
  if (value) return bind(*value);
  if (sqlite3_bind_null(handle_.get(), ++bound_) != SQLITE_OK) refuse(database_.handle());
  return *this;
}

Statement& Statement::again() {
  sqlite3_reset(handle_.get());
  bound_ = 0;
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(handle_.get());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) refuse(database_.handle());
  return false;
}

std::string Statement::text(int column) const {
  const void* bytes = sqlite3_column_blob(handle_.get(), column);
  const int size = sqlite3_column_bytes(handle_.get(), column);
  if (bytes == nullptr || size <= 0) return {};
  return {static_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

Transaction::~Transaction() {
  // After a full disk SQLite may have rolled back already, and then refuses to do it again.
  if (open_) sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  database_.run("COMMIT");
  open_ = false;
}

}  // namespace rig::serve::sql
