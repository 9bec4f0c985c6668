// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/attachment.h"

#include <fmt/format.h>
#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fstream>
#include <memory>

#include "base/check.h"
#include "design/json_tree.h"

namespace belvedere::design {
namespace {

namespace fs = std::filesystem;

class Sha256 {
 public:
  Sha256() : context_(EVP_MD_CTX_new(), EVP_MD_CTX_free) {
    BELVEDERE_CHECK(context_ && EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) == 1,
                    "SHA-256 is there");
  }
  void add(const char* bytes, std::size_t size) {
    BELVEDERE_CHECK(EVP_DigestUpdate(context_.get(), bytes, size) == 1, "SHA-256 takes bytes");
  }
  std::string hex() {
    std::array<unsigned char, 32> digest;
    BELVEDERE_CHECK(EVP_DigestFinal_ex(context_.get(), digest.data(), nullptr) == 1,
                    "SHA-256 ends");
    std::string text;
    for (const unsigned char byte : digest) text += fmt::format("{:02x}", byte);
    return text;
  }

 private:
  std::unique_ptr<EVP_MD_CTX, void (*)(EVP_MD_CTX*)> context_;
};

bool isWithin(const fs::path& inner, const fs::path& outer) {
  auto i = inner.begin();
  for (auto o = outer.begin(); o != outer.end(); ++o) {
    if (o->empty()) continue;  // a trailing slash
    if (i == inner.end() || *i != *o) return false;
    ++i;
  }
  return true;
}

// The file in the same folder whose name is nearest, or "".
std::string nearestFile(const fs::path& path) {
  constexpr std::size_t kMostLookedAt = 2000;
  std::vector<std::string> names;
  std::error_code error;
  for (fs::directory_iterator at(path.parent_path(), error), end;
       !error && at != end && names.size() < kMostLookedAt; at.increment(error))
    names.push_back(at->path().filename().string());
  std::ranges::sort(names);  // the same nearest name in every run
  return nearestWord(path.filename().string(), names);
}

}  // namespace

std::string sha256OfText(std::string_view text) {
  Sha256 sha;
  sha.add(text.data(), text.size());
  return sha.hex();
}

std::optional<std::string> sha256OfFile(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  Sha256 sha;
  std::vector<char> buffer(1 << 16);
  while (in.read(buffer.data(), static_cast<std::streamsize>(buffer.size())) || in.gcount() > 0)
    sha.add(buffer.data(), static_cast<std::size_t>(in.gcount()));
  if (in.bad()) return std::nullopt;
  return sha.hex();
}

std::string readWholeFile(const fs::path& path, std::size_t most_bytes) {
  const auto fail = [&](std::string code, std::string what, std::string hint) {
    throw InputError({{std::move(code), "", std::move(what), std::move(hint)}}, path.string());
  };
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found)
    fail("file_not_readable", fmt::format("there is no file {}", shown(path.string())), "");
  if (status.type() != fs::file_type::regular)
    fail("file_not_readable", fmt::format("{} is no ordinary file", shown(path.string())), "");
  const std::uintmax_t size = fs::file_size(path, error);
  if (!error && size > most_bytes)
    fail("file_too_large",
         fmt::format("the file has {} bytes, {} at most are read", size, most_bytes),
         "put meshes, terrain and pictures into files of their own");
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  std::string text(error ? 0 : static_cast<std::size_t>(size), '\0');
  if (in) in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (!in || in.gcount() != static_cast<std::streamsize>(text.size()))
    fail("file_not_readable", fmt::format("{} cannot be read", shown(path.string())),
         errno ? std::strerror(errno) : "");
  return text;
}

std::optional<Problem> attachmentProblem(const Attachment& file, const fs::path& folder,
                                         const std::string& where) {
  const std::string name = shown(file.path);
  const auto problem = [&](const char* code, std::string what, std::string hint = {}) {
    return Problem{code, where + "/path", std::move(what), std::move(hint)};
  };
  const fs::path relative(file.path);
  if (file.path.empty())
    return problem("attachment_missing", "the path is empty", "name a file beside the design");
  if (relative.is_absolute() || file.path.front() == '\\' ||
      (file.path.size() > 1 && file.path[1] == ':'))
    return problem("path_absolute", fmt::format("\"{}\" is an absolute path", name),
                   "copy the file beside the design and name it relative to it");
  if (file.path.find('\\') != std::string::npos)
    return problem("path_climbs", fmt::format("\"{}\" has a backslash", name), "separate with /");
  for (const fs::path& part : relative)
    if (part == "..")
      return problem("path_climbs", fmt::format("\"{}\" climbs out of the design's folder", name),
                     "copy the file beside the design");
  std::error_code error;
  const fs::path root = fs::canonical(folder.empty() ? fs::path(".") : folder, error);
  if (error)
    return problem("attachment_missing", fmt::format("\"{}\" cannot be looked for", name),
                   "the design's folder is not there");
  const fs::path real = fs::canonical(root / relative, error);
  if (error) {
    const std::string near = nearestFile(root / relative);
    return problem("attachment_missing", fmt::format("there is no file \"{}\"", name),
                   near.empty() ? std::string("paths are relative to the design's folder")
                                : fmt::format("did you mean \"{}\"?",
                                              shown((relative.parent_path() / near).generic_string())));
  }
  if (!isWithin(real, root))
    return problem("path_climbs",
                   fmt::format("\"{}\" leads out of the design's folder by a symbolic link", name),
                   "copy the file itself beside the design");
  if (!fs::is_regular_file(real, error))
    return problem("attachment_missing", fmt::format("\"{}\" is no ordinary file", name));
  const std::optional<std::string> found = sha256OfFile(real);
  if (!found)
    return problem("attachment_missing", fmt::format("\"{}\" cannot be read", name),
                   "look at its permissions");
  if (*found != file.sha256)
    return Problem{"attachment_changed", where + "/sha256",
                   fmt::format("\"{}\" is not the file that was meant: its SHA-256 differs", name),
                   "if the change is wanted, write " + *found};
  return std::nullopt;
}

}  // namespace belvedere::design
