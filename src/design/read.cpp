// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "design/attachment.h"
#include "design/check.h"
#include "design/field_reader.h"
#include "design/migrate.h"

namespace belvedere::design {
namespace {

// Throws when the tree is not of this format, or of a version that cannot be read; takes an older
// version to the current one.
void checkHead(Json& tree, std::string_view format, int version,
               std::span<const MigrationStep> steps) {
  const auto fail = [](const char* code, const char* where, std::string what, std::string hint) {
    throw InputError({{code, where, std::move(what), std::move(hint)}});
  };
  if (!tree.object())
    fail("wrong_format", "", fmt::format("the file holds {}, not an object", kindOf(tree)),
         fmt::format("a file starts with {{\"format\": \"{}\", \"version\": {}", format, version));
  const Json* named = tree.find("format");
  if (!named || !named->text() || *named->text() != format)
    fail("wrong_format", named ? "/format" : "",
         named ? fmt::format("\"format\" is not \"{}\"", format) : "\"format\" is missing",
         fmt::format("write \"format\": \"{}\"", format));
  const Json* stated = tree.find("version");
  if (!stated || !stated->number() || *stated->number() != std::floor(*stated->number()))
    fail("version_unknown", stated ? "/version" : "", "\"version\" is not a whole number",
         fmt::format("write \"version\": {}", version));
  const double number = *stated->number();
  if (number > version)
    fail("version_newer", "/version",
         fmt::format("the file is of version {}, this program reads up to version {}",
                     printNumber(number), version),
         "take a newer program");
  if (number < version && (number < 0 || !migrate(tree, static_cast<int>(number), version, steps)))
    fail("version_unknown", "/version",
         fmt::format("there was no version {} of this format", printNumber(number)),
         fmt::format("write \"version\": {}", version));
}

// Parses, checks the head, fills `value` from the fields. Throws for what leaves nothing to read.
template <class S>
Json readFields(std::string_view text, S& value, ReadLog& log, std::string_view format,
                int version, std::span<const MigrationStep> steps) {
  std::vector<Problem> problems;
  Json tree = parseJson(text, problems);
  for (Problem& p : problems) log.problem(p.code, p.where, p.what, p.hint);
  if (tree.isNull() && !problems.empty()) throw InputError(log.take(tree));
  checkHead(tree, format, version, steps);
  FieldReader reader(log, "", *tree.object());
  describe(reader, value);
  reader.finish();
  return tree;
}

std::vector<Model> readModels(std::string_view text) {
  ReadLog log;
  CatalogueFile file;
  const Json tree =
      readFields(text, file, log, kCatalogueFormat, kCatalogueVersion, std::span<MigrationStep>{});
  checkReferences({}, log);
  checkModels(file.models, "/models", log);
  if (!log.clean()) throw InputError(log.take(tree));
  return file.models;
}

// Attachments, and the models of those that are catalogue files.
void readAttachments(Design& design, const std::filesystem::path& folder, ReadLog& log) {
  std::set<std::string> bad;
  const std::vector<FoundAttachment> attachments = std::move(log.attachments);
  std::vector<Problem> of_catalogue;  // kept until it is known what follows from them
  for (const FoundAttachment& found : attachments) {
    if (!log.usable(found.where)) bad.insert(found.where);
    else if (const auto p = attachmentProblem(found.file, folder, found.where)) {
      if (found.where.starts_with("/catalogue/files/")) of_catalogue.push_back(*p);
      else
        log.problem(p->code, p->where, p->what, p->hint);
      bad.insert(found.where);
    }
  }
  const std::size_t missing = of_catalogue.size();
  std::size_t unread = 0;
  std::unordered_map<std::string, std::string> from;  // file of each model of the library
  for (std::size_t i = 0; i < design.catalogue.files.size(); ++i) {
    const std::string at = fmt::format("/catalogue/files/{}", i);
    const std::string& path = design.catalogue.files[i].path;
    if (bad.contains(at)) continue;
    try {
      for (Model& model : readModels(readWholeFile(folder / path, kMostBytes))) {
        const auto [first, is_new] = from.try_emplace(model.id.text, path);
        if (is_new) design.library.push_back(std::move(model));
        else
          log.problem("duplicate_id", at,
                      fmt::format("the model \"{}\" of \"{}\" is in \"{}\" already",
                                  shown(model.id.text), shown(path), shown(first->second)),
                      "take it out of one of the files");
      }
    } catch (const InputError& error) {
      for (const Problem& p : error.problems())
        of_catalogue.push_back({p.code, path + "#" + p.where, p.what, p.hint});
      log.unreliable(at);
      ++unread;
    }
  }
  unread += missing;
  if (unread == 0) return;
  // A model that is nowhere may be in the file that cannot be used: said once, with the file.
  const std::size_t follow = std::erase_if(log.references, [&](const Reference& reference) {
    return std::ranges::find(reference.kinds, ObjectKind::model) != reference.kinds.end() &&
           !log.ids.contains(reference.id) && !findModel(design, {reference.id});
  });
  if (follow > 0 && !of_catalogue.empty()) {
    std::string& hint = of_catalogue.front().hint;
    hint += fmt::format("{}{} reference{} to models of it follow{} from this", hint.empty() ? "" : hint.back() == '?' ? " " : "; ",
                        follow, follow == 1 ? "" : "s", follow == 1 ? "s" : "");
  }
  for (Problem& p : of_catalogue)
    log.problem(std::move(p.code), std::move(p.where), std::move(p.what), std::move(p.hint));
}

}  // namespace

DesignFile readDesignText(std::string_view text, const std::filesystem::path& folder) {
  DesignFile file;
  ReadLog log;
  Json tree =
      readFields(text, file.design, log, kDesignFormat, kDesignVersion, designSteps());
  readAttachments(file.design, folder, log);
  checkReferences(file.design, log);
  checkSite(file.design, log);
  checkBrief(file.design, log);
  checkModels(file.design.catalogue.models, "/catalogue/models", log);
  checkHousings(file.design, log);
  checkServices(file.design, log);
  if (!log.clean()) throw InputError(log.take(tree));
  file.source = std::make_shared<const Json>(std::move(tree));
  file.sha256 = sha256OfText(text);
  return file;
}

DesignFile readDesign(const std::filesystem::path& path) {
  const std::string text = readWholeFile(path, kMostBytes);
  try {
    DesignFile file = readDesignText(text, path.parent_path());
    file.path = path;
    return file;
  } catch (const InputError& error) {
    throw InputError(error.problems(), path.string());
  }
}

std::vector<Model> readCatalogueText(std::string_view text) { return readModels(text); }

std::vector<Model> readCatalogue(const std::filesystem::path& path) {
  const std::string text = readWholeFile(path, kMostBytes);
  try {
    return readModels(text);
  } catch (const InputError& error) {
    throw InputError(error.problems(), path.string());
  }
}

}  // namespace belvedere::design
