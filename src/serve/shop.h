#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "serve/glance.h"
#include "serve/open_build.h"

namespace rig::serve {

/// A build as it stands in the shop's list.
struct Listing {
  std::string id;
  std::string file;  ///< Its name in the folder.
  bool is_archived = false;
  std::int64_t changed_ms = 0;  ///< Since 1970-01-01 UTC.
  std::shared_ptr<const Glance> glance;
};

/// The builds of one folder, and those in its `archive` folder; or one file alone. Builds are named
/// by ids, never by paths. Safe to use from several threads.
class Shop {
 public:
  /// @errors serve.no_folder.
  static Result<std::unique_ptr<Shop>> open_folder(const std::string& folder);

  /// A shop that shows only this file. The file is opened.
  /// @errors those of `OpenBuild::open`.
  static Result<std::unique_ptr<Shop>> open_file(const std::string& file);

  /// One file alone: nothing can be added or archived.
  bool is_single() const { return !single_.empty(); }
  const std::string& folder() const { return folder_; }
  std::string folder_name() const;

  /// In the order of their names; the archived ones last.
  std::vector<Listing> list();

  /// A build, opened if it was not yet.
  /// @errors serve.no_build, and those of `OpenBuild::open`.
  Result<std::shared_ptr<OpenBuild>> find(const std::string& id);

  /// What there is to see of a build without opening it.
  /// @errors serve.no_build.
  Result<std::shared_ptr<const Glance>> glance(const std::string& id);

  /// Keeps a text as a new build; gives its id.
  /// @errors serve.single, serve.cannot_write.
  Result<std::string> add(const std::string& name, const std::string& text);

  /// Moves a build with its journal into the archive or back.
  /// @errors serve.single, serve.no_build, serve.file_exists, serve.cannot_write.
  Result<std::string> archive(const std::string& id, bool archived);

  /// Looks whether another program changed one of the builds that somebody watches.
  void look_around();

 private:
  struct Place {
    std::string path;
    bool is_archived = false;
  };

  explicit Shop(std::string folder) : folder_(std::move(folder)) {}
  std::string archive_folder() const { return folder_ + "/archive"; }
  void scan();
  void mend_journals() const;
  const Place* place_of(const std::string& id);
  std::string free_stem(const std::string& name) const;
  Result<std::shared_ptr<OpenBuild>> open_at(const std::string& path);

  std::string folder_, single_;
  std::mutex mutex_;
  std::map<std::string, Place> places_;                     ///< By id; an id stays with its file.
  std::map<std::string, std::shared_ptr<OpenBuild>> open_;  ///< By path.
  Glances glances_;
};

/// What an id is made of: "My truck" -> "my_truck".
std::string id_from_name(const std::string& name);

}  // namespace rig::serve
