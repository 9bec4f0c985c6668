// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/write.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstring>

#include "design/attachment.h"
#include "design/field_writer.h"

namespace belvedere::design {

void FieldWriter::any(std::string_view key, std::string& text, const Field& field) {
  const Json* before = source_ ? source_->find(key) : nullptr;
  std::vector<Problem> problems;
  Json value = before && printJsonLine(*before) == text ? *before : parseJson(text, problems);
  BELVEDERE_CHECK(text.empty() || problems.empty(), "a value of any kind is held as JSON");
  entries_.push_back({key, std::move(value), field.required});
}

Json FieldWriter::take(const std::vector<Entry>& defaults) {
  const Json::Object* before = source_ ? source_->object() : nullptr;
  const auto stood = [&](std::string_view key) { return source_ && source_->find(key); };
  std::vector<bool> written(entries_.size());
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    const Entry& entry = entries_[i];
    written[i] = !entry.value.isNull() &&
                 (entry.always || stood(entry.key) || !(entry.value == defaults[i].value));
  }
  // Which entry goes where: those that stood in their order, the others after their neighbour.
  std::vector<std::size_t> order;
  if (before)
    for (const JsonMember& member : *before)
      for (std::size_t i = 0; i < entries_.size(); ++i)
        if (written[i] && entries_[i].key == member.key) order.push_back(i);
  for (std::size_t i = 0; i < entries_.size(); ++i) {
    if (!written[i] || stood(entries_[i].key)) continue;
    auto place = order.begin();
    for (std::size_t back = i; back-- > 0;) {
      const auto found = std::find(order.begin(), order.end(), back);
      if (found == order.end()) continue;
      place = found + 1;
      break;
    }
    order.insert(place, i);
  }
  Json::Object object;
  for (const std::size_t i : order)
    object.push_back({std::string(entries_[i].key), std::move(entries_[i].value)});
  return Json(std::move(object));
}

namespace {

Json tree(const DesignFile& file) { return treeOf(file.design, file.source.get()); }

[[noreturn]] void cannotSave(const std::filesystem::path& path, int error) {
  throw InputError({{"cannot_save", "", fmt::format("{} cannot be saved", shown(path.string())),
                     std::strerror(error)}},
                   path.string());
}

// Writes the whole text to a new file and syncs it; 0 or the error.
int writeSynced(const std::string& name, const std::string& text, const struct stat* like) {
  const int fd = ::open(name.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666);
  if (fd < 0) return errno;
  int error = 0;
  if (like && ::fchmod(fd, like->st_mode & 07777) != 0) error = errno;
  for (std::size_t done = 0; !error && done < text.size();) {
    const ssize_t n = ::write(fd, text.data() + done, text.size() - done);
    if (n >= 0) done += static_cast<std::size_t>(n);
    else if (errno != EINTR) error = errno;
  }
  if (!error && ::fsync(fd) != 0) error = errno;
  if (::close(fd) != 0 && !error) error = errno;
  return error;
}

}  // namespace

std::string writeDesign(const DesignFile& file) { return printJson(tree(file)); }

std::string writeCatalogue(const std::string& title, const std::vector<Model>& models) {
  return printJson(treeOf(CatalogueFile{title, models}, nullptr));
}

void saveText(const std::string& text, const std::filesystem::path& path) {
  std::error_code no_such_file;
  const std::filesystem::path real = std::filesystem::canonical(path, no_such_file);
  const std::filesystem::path target = no_such_file ? path : real;
  static std::atomic<unsigned> count{0};
  const std::string part = fmt::format("{}.{}-{}.part", target.string(), ::getpid(), count++);
  struct stat old {};
  const bool there = ::stat(target.c_str(), &old) == 0;
  int error = writeSynced(part, text, there ? &old : nullptr);
  if (!error && ::rename(part.c_str(), target.c_str()) != 0) error = errno;
  if (error) {
    if (error != EEXIST) ::unlink(part.c_str());
    cannotSave(path, error);
  }
  // The rename itself lasts only once the folder is on the disk.
  const std::filesystem::path folder = target.has_parent_path() ? target.parent_path() : ".";
  const int fd = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd >= 0) {
    ::fsync(fd);
    ::close(fd);
  }
}

void saveDesign(DesignFile& file, const std::filesystem::path& path) {
  Json source = tree(file);
  const std::string text = printJson(source);
  saveText(text, path);
  file.source = std::make_shared<const Json>(std::move(source));
  file.sha256 = sha256OfText(text);
  file.path = path;
}

}  // namespace belvedere::design
