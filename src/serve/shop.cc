#include "serve/shop.h"

#include <fmt/format.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <set>

#include "serve/file.h"

namespace rig::serve {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view kEnding = ".rig.json";
constexpr std::size_t kLongestId = 48;
/// More than a shop works on in a day; those that nobody uses are closed beyond it.
constexpr std::size_t kMostOpen = 32;

/// The build files of a folder, links left out, in the order of their names.
std::vector<std::string> build_files(const std::string& folder) {
  std::vector<std::string> files;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
       entry.increment(error)) {
    const std::string name = entry->path().filename().string();
    std::error_code ignored;
    if (name.ends_with(kEnding) && !name.starts_with('.') &&
        entry->symlink_status(ignored).type() == fs::file_type::regular) {
      files.push_back(entry->path().string());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string stem_of(const std::string& path) {
  std::string name = fs::path(path).filename().string();
  for (const std::string_view ending : {kEnding, std::string_view(".json")}) {
    if (name.ends_with(ending)) return name.substr(0, name.size() - ending.size());
  }
  return name;
}

Failure single_only() {
  return fail("serve.single", "", "this server shows one file only",
              "start \"rigwright serve FOLDER\" to add or archive builds");
}

Failure cannot_move(const std::error_code& error) {
  return fail("serve.cannot_write", "",
              fmt::format("the build can't be moved: {}", error.message()),
              "mend the folder's rights or free some space, then try again");
}

}  // namespace

std::string id_from_name(const std::string& name) {
  std::string id;
  for (const char c : name) {
    const bool is_capital = c >= 'A' && c <= 'Z';
    const bool is_plain = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
    if (id.size() == kLongestId) break;
    if (is_capital) {
      id += static_cast<char>(c - 'A' + 'a');
    } else if (is_plain) {
      id += c;
    } else if (!id.empty() && id.back() != '_') {
      id += '_';
    }
  }
  while (!id.empty() && id.back() == '_') id.pop_back();
  return id.empty() ? "build" : id;
}

Result<std::unique_ptr<Shop>> Shop::open_folder(const std::string& folder) {
  std::error_code error;
  const auto whole = fs::canonical(folder, error);
  if (error || !fs::is_directory(whole)) {
    return fail("serve.no_folder", "", fmt::format("{} is no folder", folder),
                "name the folder that the builds are in");
  }
  std::unique_ptr<Shop> shop(new Shop(whole.string()));
  shop->mend_journals();
  shop->scan();
  return shop;
}

Result<std::unique_ptr<Shop>> Shop::open_file(const std::string& file) {
  std::error_code error;
  const auto whole = fs::canonical(file, error);
  if (error) return Failure{read_text(file).error()};
  std::unique_ptr<Shop> shop(new Shop(whole.parent_path().string()));
  shop->single_ = whole.string();
  shop->scan();
  if (auto opened = shop->open_at(shop->single_); !opened) return Failure{opened.error()};
  return shop;
}

std::string Shop::folder_name() const { return fs::path(folder_).filename().string(); }

/// A move into or out of the archive that was cut short left a journal on the other side.
void Shop::mend_journals() const {
  for (const auto& [here, there] :
       {std::pair(folder_, archive_folder()), std::pair(archive_folder(), folder_)}) {
    for (const std::string& file : build_files(here)) {
      const std::string journal = journal_path(file);
      const fs::path other = fs::path(there) / fs::path(journal).filename();
      const fs::path other_file = fs::path(there) / fs::path(file).filename();
      if (fs::exists(journal) || fs::exists(other_file) || !fs::exists(other)) continue;
      std::error_code ignored;
      fs::rename(other, journal, ignored);
    }
  }
}

void Shop::scan() {
  std::map<std::string, Place> found;  // By path.
  if (is_single()) {
    found[single_] = {single_, false};
  } else {
    for (auto& path : build_files(folder_)) found[path] = {path, false};
    for (auto& path : build_files(archive_folder())) found[path] = {path, true};
  }
  std::erase_if(places_, [&](const auto& entry) { return !found.contains(entry.second.path); });
  for (const auto& [id, place] : places_) found.erase(place.path);
  // Names that are ids already get theirs first.
  for (const bool exact : {true, false}) {
    for (const auto& [path, place] : found) {
      const std::string stem = stem_of(path), id = id_from_name(stem);
      if ((stem == id && !place.is_archived) != exact) continue;
      std::string unique = id;
      for (int n = 2; places_.contains(unique); ++n) unique = fmt::format("{}-{}", id, n);
      places_[unique] = place;
    }
  }
}

const Shop::Place* Shop::place_of(const std::string& id) {
  auto place = places_.find(id);
  if (place == places_.end() || !fs::exists(place->second.path)) {
    scan();
    place = places_.find(id);
  }
  return place == places_.end() ? nullptr : &place->second;
}

std::vector<Listing> Shop::list() {
  std::vector<Listing> listings;
  {
    const std::lock_guard lock(mutex_);
    scan();
    for (const auto& [id, place] : places_) {
      listings.push_back({.id = id, .file = place.path, .is_archived = place.is_archived});
    }
  }
  for (Listing& listing : listings) {
    struct stat found {};
    if (::stat(listing.file.c_str(), &found) == 0) {
      listing.changed_ms = found.st_mtim.tv_sec * 1000 + found.st_mtim.tv_nsec / 1'000'000;
    }
    listing.glance = glances_.at(listing.file);
    listing.file = fs::path(listing.file).filename().string();
  }
  std::stable_sort(listings.begin(), listings.end(), [](const Listing& a, const Listing& b) {
    return std::tie(a.is_archived, a.glance->name) < std::tie(b.is_archived, b.glance->name);
  });
  return listings;
}

Result<std::shared_ptr<OpenBuild>> Shop::open_at(const std::string& path) {
  if (const auto known = open_.find(path); known != open_.end()) return known->second;
  if (open_.size() >= kMostOpen) {
    std::erase_if(open_, [](const auto& entry) {
      return entry.second.use_count() == 1 && !entry.second->is_watched();
    });
  }
  auto opened = OpenBuild::open(path);
  if (!opened) return Failure{opened.error()};
  open_[path] = *opened;
  return *opened;
}

Result<std::shared_ptr<OpenBuild>> Shop::find(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const Place* place = place_of(id);
  if (place == nullptr) return build_is_gone();
  return open_at(place->path);
}

Result<std::shared_ptr<const Glance>> Shop::glance(const std::string& id) {
  std::string path;
  {
    const std::lock_guard lock(mutex_);
    const Place* place = place_of(id);
    if (place == nullptr) return build_is_gone();
    path = place->path;
  }
  return glances_.at(path);
}

std::string Shop::free_stem(const std::string& name) const {
  const std::string id = id_from_name(name);
  std::string stem = id;
  const auto is_taken = [&] {
    if (places_.contains(stem)) return true;
    // A journal without its file is the history of a truck that was taken away.
    const auto is_in = [&](const std::string& folder) {
      const std::string path = (fs::path(folder) / (stem + std::string(kEnding))).string();
      return fs::exists(path) || fs::exists(journal_path(path));
    };
    return is_in(folder_) || is_in(archive_folder());
  };
  for (int n = 2; is_taken(); ++n) stem = fmt::format("{}_{}", id, n);
  return stem;
}

Result<std::string> Shop::add(const std::string& name, const std::string& text) {
  if (is_single()) return single_only();
  const std::lock_guard lock(mutex_);
  scan();
  const std::string stem = free_stem(name);
  const std::string path = (fs::path(folder_) / (stem + std::string(kEnding))).string();
  if (const auto written = write_new_text(path, text); !written) return Failure{written.error()};
  places_[stem] = {path, false};
  return stem;
}

Result<std::string> Shop::archive(const std::string& id, bool archived) {
  if (is_single()) return single_only();
  const std::lock_guard lock(mutex_);
  const Place* place = place_of(id);
  if (place == nullptr) return build_is_gone();
  if (place->is_archived == archived) return id;
  const std::string from = place->path;
  const fs::path folder = archived ? archive_folder() : folder_;
  const std::string to = (folder / fs::path(from).filename()).string();
  if (fs::exists(to) || fs::exists(journal_path(to))) {
    return fail("serve.file_exists", "", fmt::format("{} is there already", to),
                "give one of the two another name in the folder");
  }
  std::error_code error;
  fs::create_directory(folder, error);
  if (const auto open = open_.find(from); open != open_.end()) {
    open->second->close();
    open_.erase(open);
  }
  if (fs::exists(journal_path(from))) {
    // Opened once so that all of it is in the one file.
    if (const auto journal = Journal::open(journal_path(from)); !journal) {
      return Failure{journal.error()};
    }
    fs::rename(journal_path(from), journal_path(to), error);
    if (error) return cannot_move(error);
  }
  fs::rename(from, to, error);
  if (error) {
    std::error_code ignored;
    fs::rename(journal_path(to), journal_path(from), ignored);
    return cannot_move(error);
  }
  flush_folder_of(from);
  flush_folder_of(to);
  places_[id] = {to, archived};
  return id;
}

void Shop::look_around() {
  std::vector<std::shared_ptr<OpenBuild>> watched;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [path, build] : open_) {
      if (build->is_watched()) watched.push_back(build);
    }
  }
  for (const auto& build : watched) build->snapshot();
}

}  // namespace rig::serve
