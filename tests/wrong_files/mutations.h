#pragma once

#include <string>
#include <vector>

namespace rig {

/// A build file with one thing done to it.
struct MutatedFile {
  std::string name;  ///< What was done, usable as a file name.
  std::string text;
  bool wrong = false;  ///< It can't be valid any more; if not set, it may be.
};

/// Everything that hands, editors and disks do to a valid build file: keys left out, misspelt or
/// given twice, values of another kind or unit, text cut off or damaged. Always the same files in
/// the same order; `stride` takes every how-manieth of the many places there are.
std::vector<MutatedFile> make_mutated_files(const std::string& name, const std::string& text,
                                            std::size_t stride);

/// A value's place with every id and every item's number left open: values whose places are of one
/// kind mean the same.
std::string kind_of_place(const std::string& pointer);

}  // namespace rig
