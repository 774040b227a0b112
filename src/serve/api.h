#pragma once

#include <string>

#include "serve/session.h"

namespace rig::serve {

struct Ask {
  std::string method;  ///< "GET" or "POST".
  std::string path;    ///< "/api/report"; without the query.
  std::string body;
};

struct Reply {
  int status = 200;
  std::string type = "application/json";
  std::string body;
};

/// Answers one request of docs/api.md. Never throws but for a mistake of the program itself, which
/// it answers with 500.
Reply answer(Session& session, const Ask& ask);

}  // namespace rig::serve
