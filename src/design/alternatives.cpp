// SPDX-License-Identifier: GPL-3.0-or-later
#include "design/alternatives.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <type_traits>

#include "base/check.h"
#include "design/check.h"
#include "design/field_reader.h"
#include "design/field_writer.h"

namespace belvedere::design {
namespace {

// ---- an alternative made ------------------------------------------------------------------------

// The object of an id, wherever it stands; alternatives themselves are no part of what they change.
Json* objectOf(Json& tree, const std::string& id) {
  if (Json::List* list = tree.list()) {
    for (Json& item : *list)
      if (Json* found = objectOf(item, id)) return found;
  } else if (Json::Object* members = tree.object()) {
    const Json* own = tree.find("id");
    if (own && own->text() && *own->text() == id) return &tree;
    for (JsonMember& member : *members)
      if (member.key != "alternatives")
        if (Json* found = objectOf(member.value, id)) return found;
  }
  return nullptr;
}
// An imager: housing, point, slot.
Json* imagerOf(Json& tree, const std::string& name) {
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos) return nullptr;
  Json* housing = objectOf(tree, name.substr(0, dot));
  Json* imagers = housing ? housing->find("imagers") : nullptr;
  if (!imagers || !imagers->list()) return nullptr;
  for (Json& imager : *imagers->list()) {
    const Json* slot = imager.find("slot");
    const double number = slot && slot->number() ? *slot->number() : HousingImager{}.slot;
    if (printNumber(number) == name.substr(dot + 1)) return &imager;
  }
  return nullptr;
}
Json* namedBy(Json& tree, const std::string& id) {
  Json* object = objectOf(tree, id);
  return object ? object : imagerOf(tree, id);
}

// Puts a value under a key with slashes; false when the way there is barred by another value.
bool put(Json& object, std::string_view key, Json value) {
  const std::size_t slash = key.find('/');
  const std::string first(key.substr(0, slash));
  Json::Object* members = object.object();
  if (!members || first.empty()) return false;
  Json* at = object.find(first);
  if (!at) {
    members->push_back({first, slash == key.npos ? Json() : Json(Json::Object{})});
    at = &members->back().value;
  }
  if (slash != key.npos) return put(*at, key.substr(slash + 1), std::move(value));
  *at = std::move(value);
  return true;
}

// ---- what differs -------------------------------------------------------------------------------

// What an object says by itself: its keys' values, defaults too. Of objects that are named for
// themselves only the names stand there.
struct Said {
  std::string_view key;
  Json value;
  bool names = false;  // of objects that are named for themselves
  Json whole;          // of imagers: the list, for when others are in it
};
struct Spoken {
  std::string id, what;
  std::vector<Said> said;
};

template <class T>
concept HasId = requires(const T& t) { t.id.text; };
template <class T>
struct ListOf : std::false_type {};
template <class T>
struct ListOf<std::vector<T>> : std::true_type {
  using Item = T;
};

// The visitor that gathers all objects, in the order of the file.
class Gather {
 public:
  Gather(std::vector<Spoken>& all, std::string id, std::string what)
      : all_(all), at_(all.size()) {
    all_.push_back({std::move(id), std::move(what), {}});
  }
  void object(std::string_view, std::string_view) {}
  template <class T>
  void constant(std::string_view, const T&) {}
  template <class Tag>
  void id(Id<Tag>&, ObjectKind, bool = true) {}
  template <class T>
  void operator()(std::string_view key, T& value, const Field& field) {
    if constexpr (ListOf<T>::value) {
      using Item = typename ListOf<T>::Item;
      if constexpr (std::is_same_v<Item, Alternative>) {
        return;
      } else if constexpr (std::is_same_v<Item, HousingImager>) {
        imagers(key, value, field);
        return;
      } else if constexpr (std::is_class_v<Item> && HasId<Item>) {
        Json::List ids;
        for (Item& item : value) ids.push_back(Json(item.id.text));
        add({key, Json(std::move(ids)), true, {}});
        for (Item& item : value) gather(item, item.id.text, std::string(key));
        return;
      }
    }
    if constexpr (std::is_same_v<T, Site> || std::is_same_v<T, Catalogue> ||
                  std::is_same_v<T, Services>) {
      gather(value, "", std::string(key));  // holds objects, has no id itself
    } else {
      if constexpr (std::is_same_v<T, std::optional<Terrain>>)
        if (value && !value->id.empty()) {
          add({key, Json(Json::List{Json(value->id.text)}), true, {}});
          return gather(*value, value->id.text, std::string(key));
        }
      add({key, valueTree(value, nullptr, field), false, {}});
    }
  }

 private:
  template <class S>
  void gather(S& value, std::string id, std::string what) {
    Gather inner(all_, std::move(id), std::move(what));
    describe(inner, value);
  }
  void imagers(std::string_view key, std::vector<HousingImager>& imagers, const Field& field) {
    const std::string housing = all_[at_].id;
    Json::List slots;
    for (const HousingImager& imager : imagers)
      slots.push_back(Json(static_cast<double>(imager.slot)));
    add({key, Json(std::move(slots)), true, valueTree(imagers, nullptr, field)});
    for (HousingImager& imager : imagers)
      gather(imager, fmt::format("{}.{}", housing, imager.slot), std::string(key));
  }
  void add(Said said) { all_[at_].said.push_back(std::move(said)); }

  std::vector<Spoken>& all_;
  std::size_t at_;
};

std::vector<Spoken> spoken(const Design& design) {
  std::vector<Spoken> all;
  Gather gather(all, "", "design");
  describe(gather, const_cast<Design&>(design));  // `describe` takes what a reader fills
  return all;
}

struct Differ {
  Difference& difference;

  void edit(const std::string& id, const std::string& key, const Json& value) {
    difference.alternative.edits.push_back({{id}, key, printJsonLine(value)});
  }
  void unsaid(std::string sentence) { difference.unsaid.push_back(std::move(sentence)); }

  // One key's value; objects within are gone into, unless a key of theirs is taken away.
  void value(const std::string& id, const std::string& key, const Json& before, const Json& after) {
    if (before == after) return;
    if (id.empty()) return unsaid(fmt::format("{} changes, and belongs to no object", key));
    if (after.isNull()) return unsaid(fmt::format("{} loses its {}", id, key));
    const Json::Object* old = before.object();
    const Json::Object* members = after.object();
    const bool inside = old && members && std::ranges::all_of(*old, [&](const JsonMember& m) {
      return after.find(m.key) != nullptr;
    });
    if (!inside) return edit(id, key, after);
    for (const JsonMember& m : *members) {
      const Json* was = before.find(m.key);
      value(id, key + "/" + m.key, was ? *was : Json(), m.value);
    }
  }
};

// Of the names in a list, those that are in the other design too: their order is what is left to
// say, since what came and went is said of the objects.
std::vector<Json> kept(const Json& names, const std::map<std::string, const Spoken*>& there) {
  std::vector<Json> both;
  for (const Json& name : *names.list())
    if (!name.text() || there.contains(*name.text())) both.push_back(name);
  return both;
}

}  // namespace

Design applied(const Design& base, const Alternative& alternative) {
  Json tree = treeOf(base, nullptr);
  std::vector<Problem> problems;
  const auto fail = [&](std::size_t index, std::string what) {
    problems.push_back({"alternative_edit", fmt::format("/edits/{}", index), std::move(what), ""});
  };
  for (std::size_t i = 0; i < alternative.edits.size(); ++i) {
    const Edit& edit = alternative.edits[i];
    std::vector<Problem> bad;
    Json value = parseJson(edit.value, bad);
    Json* object = namedBy(tree, edit.id.text);
    if (!object) fail(i, fmt::format("there is no \"{}\"", shown(edit.id.text)));
    else if (!bad.empty()) fail(i, "its value is no JSON");
    else if (edit.key == "id") fail(i, "an id is not changed by an alternative");
    else if (!put(*object, edit.key, std::move(value)))
      fail(i, fmt::format("\"{}\" has no \"{}\"", shown(edit.id.text), shown(edit.key)));
  }
  if (!problems.empty()) throw InputError(std::move(problems));
  Design design;
  ReadLog log;
  FieldReader reader(log, "", *tree.object());
  describe(reader, design);
  reader.finish();
  design.library = base.library;
  checkReferences(design, log);
  checkSite(design, log);
  checkBrief(design, log);
  checkModels(design.catalogue.models, "/catalogue/models", log);
  checkHousings(design, log);
  checkServices(design, log);
  if (!log.clean()) throw InputError(log.take(tree));
  return design;
}

Difference differenceAs(const Design& base, const Design& changed, const std::string& name) {
  Difference difference;
  difference.alternative.name = name;
  Differ differ{difference};
  const std::vector<Spoken> before = spoken(base), after = spoken(changed);
  std::map<std::string, const Spoken*> was, is;
  // Objects without an id go by what they are: "site", "services".
  const auto nameOf = [](const Spoken& s) { return s.id.empty() ? "/" + s.what : s.id; };
  for (const Spoken& s : before) was.emplace(nameOf(s), &s);
  for (const Spoken& s : after) is.emplace(nameOf(s), &s);
  // Housings with other imagers than before: their list is one edit.
  std::set<std::string> relisted;
  const auto inRelisted = [&](const Spoken& s) {
    return s.what == "imagers" && relisted.contains(s.id.substr(0, s.id.rfind('.')));
  };
  for (const Spoken& s : after)
    if (const auto found = was.find(nameOf(s)); found != was.end())
      for (std::size_t i = 0; i < std::min(s.said.size(), found->second->said.size()); ++i)
        if (s.said[i].whole.list() && s.said[i].value != found->second->said[i].value)
          relisted.insert(s.id);
  for (const Spoken& s : before)
    if (!is.contains(nameOf(s)) && !inRelisted(s))
      differ.unsaid(fmt::format("{} (of {}) is not there any more", s.id, s.what));
  for (const Spoken& s : after) {
    if (inRelisted(s)) continue;
    const auto found = was.find(nameOf(s));
    if (found == was.end() || found->second->said.size() != s.said.size()) {
      differ.unsaid(fmt::format("{} (of {}) is new", s.id, s.what));
      continue;
    }
    for (std::size_t i = 0; i < s.said.size(); ++i) {
      const Said &old = found->second->said[i], &now = s.said[i];
      const std::string key(now.key);
      if (old.names != now.names || !now.names) differ.value(s.id, key, old.value, now.value);
      else if (relisted.contains(s.id) && now.whole.list()) differ.edit(s.id, key, now.whole);
      else if (kept(old.value, is) != kept(now.value, was))
        differ.unsaid(fmt::format("the order of {} changes", key));
    }
  }
  return difference;
}

}  // namespace belvedere::design
