#include "serve/file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace rig::serve {
namespace {

constexpr std::uintmax_t kLargestFile = 8U << 20U;

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() { close_now(); }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  int number() const { return number_; }
  bool close_now() {
    if (number_ < 0) return true;
    const int result = ::close(number_);
    number_ = -1;
    return result == 0;
  }

 private:
  int number_;
};

bool write_all(int descriptor, const std::string& text) {
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t wrote = ::write(descriptor, text.data() + done, text.size() - done);
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote <= 0) return false;
    done += static_cast<std::size_t>(wrote);
  }
  return true;
}

Failure cannot_write(const std::string& path, int error) {
  return fail("serve.cannot_write", "",
              fmt::format("{} can't be written: {}", path, std::strerror(error)),
              "the file is as it was; free some space or mend its folder's rights, then try again");
}

}  // namespace

Result<std::string> read_text(const std::string& path) {
  std::error_code error;
  const auto size = std::filesystem::file_size(path, error);
  std::ifstream in(path, std::ios::binary);
  if (error || !in) {
    return fail("serve.cannot_read", "", fmt::format("{} can't be read", path),
                "check the name and the folder");
  }
  if (size > kLargestFile) {
    return fail("serve.too_large", "", fmt::format("{} is larger than 8 MiB", path),
                "a build file is a few hundred KiB at most: this is another kind of file");
  }
  std::ostringstream text;
  text << in.rdbuf();
  return std::move(text).str();
}

std::string path_beside(const std::string& path) {
  const std::filesystem::path whole(path);
  return (whole.parent_path() / fmt::format(".{}.new", whole.filename().string())).string();
}

void flush_folder_of(const std::string& path) {
  const std::string folder = std::filesystem::absolute(path).parent_path().string();
  const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.number() >= 0) ::fsync(directory.number());
}

Result<std::size_t> write_beside(const std::string& path, const std::string& text) {
  const std::string beside = path_beside(path);
  struct stat old {};
  const bool is_there = ::stat(path.c_str(), &old) == 0;
  const mode_t mode = is_there ? old.st_mode & 0777U : 0644U;
  Descriptor out(
      ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW, mode));
  if (out.number() < 0) return cannot_write(path, errno);
  // A file keeps its rights, whatever the umask; on disks that have none this changes nothing.
  if (is_there) ::fchmod(out.number(), mode);
  const bool written = write_all(out.number(), text) && ::fsync(out.number()) == 0;
  const int error = errno;
  if (!written || !out.close_now()) {
    ::unlink(beside.c_str());
    return cannot_write(path, error);
  }
  return text.size();
}

Result<std::size_t> put_in_place(const std::string& path) {
  if (::rename(path_beside(path).c_str(), path.c_str()) != 0) return cannot_write(path, errno);
  flush_folder_of(path);
  return std::size_t{0};
}

Result<std::size_t> write_text(const std::string& path, const std::string& text) {
  auto written = write_beside(path, text);
  if (!written) return written;
  if (auto placed = put_in_place(path); !placed) {
    ::unlink(path_beside(path).c_str());
    return placed;
  }
  return written;
}

Result<std::size_t> write_new_text(const std::string& path, const std::string& text) {
  auto written = write_beside(path, text);
  if (!written) return written;
  // Neither takes the place of another file; not every disk can do the first, or the second.
  const std::string beside = path_beside(path);
  bool made = ::renameat2(AT_FDCWD, beside.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE) == 0;
  if (!made && errno != EEXIST) made = ::link(beside.c_str(), path.c_str()) == 0;
  const int error = errno;
  ::unlink(beside.c_str());
  if (!made && error == EEXIST) {
    return fail("serve.file_exists", "/name", path + " is there already", "take another name");
  }
  if (!made) return cannot_write(path, error);
  flush_folder_of(path);
  return written;
}

}  // namespace rig::serve
