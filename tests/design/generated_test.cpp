// SPDX-License-Identifier: GPL-3.0-or-later
//
// Golden: what is generated from the field tables stands in the repository as the program makes
// it. With BELVEDERE_WRITE_GENERATED=1 the files are written instead of compared.
#include <gtest/gtest.h>

#include <cstdlib>
#include <regex>
#include <set>

#include "design/fields.h"
#include "design/json_tree.h"
#include "design/schema.h"
#include "sample.h"

namespace belvedere::design {
namespace {

namespace fs = std::filesystem;

const fs::path kRoot = BELVEDERE_SOURCE_DIR;
const std::string kBegin = "<!-- The tables below are generated from src/design/fields*.h. -->\n";
const std::string kEnd = "<!-- End of the generated tables. -->";

void compare(const fs::path& path, const std::string& text) {
  if (std::getenv("BELVEDERE_WRITE_GENERATED")) {
    fs::create_directories(path.parent_path());
    std::ofstream(path) << text;
  }
  EXPECT_TRUE(textOf(path) == text)
      << path << " is not what the field tables say: run with BELVEDERE_WRITE_GENERATED=1";
}

TEST(Generated, SchemasAreCurrent) {
  compare(kRoot / "schema/belvedere.design.schema.json", designSchema());
  compare(kRoot / "schema/belvedere.catalogue.schema.json", catalogueSchema());
}

TEST(Generated, TablesOfTheFormatPageAreCurrent) {
  const fs::path page = kRoot / "docs/format.md";
  const std::string text = textOf(page);
  const std::size_t begin = text.find(kBegin), end = text.find(kEnd);
  ASSERT_NE(begin, std::string::npos);
  ASSERT_NE(end, std::string::npos);
  compare(page, text.substr(0, begin) + kBegin + "\n" + fieldTables() + text.substr(end));
}

void collectKeys(const Json& json, std::set<std::string>& keys) {
  if (const Json::Object* object = json.object())
    for (const JsonMember& member : *object) {
      keys.insert(member.key);
      collectKeys(member.value, keys);
    }
  if (const Json::List* list = json.list())
    for (const Json& item : *list) collectKeys(item, keys);
}

// So that the tests of reading and writing leave no section out.
TEST(Generated, TheWholeSampleHasEveryKeyOfTheFormat) {
  std::vector<Problem> problems;
  std::set<std::string> in_sample, in_schema;
  collectKeys(parseJson(wholeText(), problems), in_sample);
  const Json schema = parseJson(designSchema(), problems);
  for (const JsonMember& definition : *schema.find("definitions")->object())
    for (const JsonMember& property : *definition.value.find("properties")->object())
      in_schema.insert(property.key);
  for (const JsonMember& property : *schema.find("properties")->object())
    in_schema.insert(property.key);
  for (const std::string& key : in_schema) EXPECT_TRUE(in_sample.contains(key)) << key;
}

// Codes as the sources write them: a word in quotes as the first argument of what says a problem.
std::set<std::string> codesInSources() {
  const std::regex said(
      "(?:(?:problem|Problem|finding|fail|pointsProblem|InputError)\\s*\\(?\\{*\\s*(?:\\w+,\\s*)?|"
      "problems_?\\.push_back\\(\\{\\s*)\"([a-z0-9]+_[a-z0-9_]+)\"");
  std::set<std::string> codes;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(kRoot / "src")) {
    if (entry.path().extension() != ".cpp") continue;
    const std::string text = textOf(entry.path());
    for (std::sregex_iterator i(text.begin(), text.end(), said), end; i != end; ++i)
      codes.insert((*i)[1]);
  }
  return codes;
}

TEST(Problems, EveryCodeHasItsEntryInThePage) {
  const std::string page = textOf(kRoot / "docs/problems.md");
  const std::set<std::string> codes = codesInSources();
  EXPECT_GT(codes.size(), 50u) << "the pattern no longer finds the codes";
  for (const std::string& code : codes)
    EXPECT_NE(page.find("\n### " + code + "\n"), std::string::npos)
        << code << " is missing in docs/problems.md";
}

TEST(Problems, NoEntryStandsTwice) {
  const std::string page = textOf(kRoot / "docs/problems.md");
  const std::regex heading("\n### ([a-z0-9_]+)\n");
  std::set<std::string> seen;
  for (std::sregex_iterator i(page.begin(), page.end(), heading), end; i != end; ++i)
    EXPECT_TRUE(seen.insert((*i)[1]).second) << (*i)[1];
}

}  // namespace
}  // namespace belvedere::design
