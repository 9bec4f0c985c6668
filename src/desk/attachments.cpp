// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/attachments.h"

#include <QObject>
#include <QTemporaryDir>

#include <memory>
#include <vector>

#include "base/problem.h"
#include "design/attachment.h"

namespace belvedere::desk {

namespace fs = std::filesystem;

namespace {

[[noreturn]] void fail(const char* code, const QString& what) {
  throw InputError({{code, "", what.toStdString(), ""}});
}

std::vector<design::Attachment> attachmentsOf(const design::Design& design) {
  std::vector<design::Attachment> files = design.catalogue.files;
  for (const design::Solid& solid : design.site.solids)
    if (solid.file) files.push_back(*solid.file);
  if (design.site.terrain) files.push_back(design.site.terrain->file);
  for (const design::Light& light : design.site.lights)
    if (light.photometry) files.push_back(*light.photometry);
  for (const design::Underlay& underlay : design.site.underlays) files.push_back(underlay.file);
  for (const design::Evidence& evidence : design.evidence)
    if (!evidence.file.path.empty()) files.push_back(evidence.file);
  return files;
}

}  // namespace

void bringAttachments(const design::Design& design, const fs::path& from, const fs::path& to) {
  std::error_code error;
  if (from.empty() || fs::equivalent(from, to, error)) return;
  for (const design::Attachment& file : attachmentsOf(design)) {
    const fs::path source = from / file.path, target = to / file.path;
    if (!fs::exists(source, error)) continue;  // never was there: reading would have said so
    if (fs::exists(target, error)) {
      if (design::sha256OfFile(target) == file.sha256) continue;
      fail("cannot_save", QObject::tr("%1 belongs to the design, but another file of that name lies "
                                      "in %2")
                              .arg(QString::fromStdString(file.path),
                                   QString::fromStdString(to.string())));
    }
    fs::create_directories(target.parent_path(), error);
    if (!fs::copy_file(source, target, error))
      fail("cannot_save", QObject::tr("%1 could not be put beside the design: %2")
                              .arg(QString::fromStdString(file.path),
                                   QString::fromStdString(error.message())));
  }
}

design::Attachment attach(const fs::path& file, const fs::path& folder) {
  const auto sha256 = design::sha256OfFile(file);
  if (!sha256)
    fail("file_not_readable",
         QObject::tr("%1 cannot be read").arg(QString::fromStdString(file.string())));
  std::error_code error;
  for (int number = 1;; ++number) {
    fs::path name = file.filename();
    if (number > 1)
      name = file.stem().string() + "-" + std::to_string(number) + file.extension().string();
    const fs::path target = folder / name;
    if (!fs::exists(target, error)) {
      if (!fs::copy_file(file, target, error))
        fail("file_not_readable",
             QObject::tr("%1 could not be put beside the design: %2")
                 .arg(QString::fromStdString(name.string()),
                      QString::fromStdString(error.message())));
      return {name.string(), *sha256};
    }
    if (design::sha256OfFile(target) == sha256) return {name.string(), *sha256};
  }
}

fs::path folderForUnsaved() {
  static std::vector<std::unique_ptr<QTemporaryDir>> folders;
  folders.push_back(std::make_unique<QTemporaryDir>());
  return folders.back()->path().toStdString();
}

}  // namespace belvedere::desk
