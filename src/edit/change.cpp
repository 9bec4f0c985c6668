// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/change.h"

#include <algorithm>
#include <tuple>

namespace belvedere::edit {
namespace {

using design::Building;
using design::Design;
using design::Site;
using design::Storey;

// The stretch of a list that differs.
template <class T>
struct Stretch {
  std::size_t at = 0;
  std::vector<T> before, after;
  bool empty() const { return before.empty() && after.empty(); }
};

template <class T>
Stretch<T> stretchBetween(const std::vector<T>& before, const std::vector<T>& after) {
  std::size_t head = 0;
  const std::size_t least = std::min(before.size(), after.size());
  while (head < least && before[head] == after[head]) ++head;
  std::size_t tail = 0;
  while (tail < least - head &&
         before[before.size() - 1 - tail] == after[after.size() - 1 - tail])
    ++tail;
  using Offset = typename std::vector<T>::difference_type;
  const auto part = [&](const std::vector<T>& list) {
    return std::vector<T>(list.begin() + static_cast<Offset>(head),
                          list.end() - static_cast<Offset>(tail));
  };
  return {head, part(before), part(after)};
}

template <class T>
void replace(std::vector<T>& list, std::size_t at, const std::vector<T>& out,
             const std::vector<T>& in) {
  using Offset = typename std::vector<T>::difference_type;
  const auto from = list.begin() + static_cast<Offset>(at);
  if (out.size() == in.size()) {
    std::copy(in.begin(), in.end(), from);
    return;
  }
  const auto to = list.erase(from, from + static_cast<Offset>(out.size()));
  list.insert(to, in.begin(), in.end());
}

// The lists of a design, and what is no list: one place to name them all.
constexpr auto kLists = std::tuple{
    &Design::people,   &Design::revisions,  &Design::situations, &Design::brief,
    &Design::library,  &Design::housings,   &Design::tolerances, &Design::tests,
    &Design::evidence, &Design::accepted,   &Design::alternatives};
constexpr auto kSiteLists =
    std::tuple{&Site::solids,   &Site::materials, &Site::lights,   &Site::zones,
               &Site::mounting, &Site::containment, &Site::underlays};
constexpr auto kSingles = std::tuple{&Design::title, &Design::task_table, &Design::money,
                                     &Design::catalogue, &Design::services};
constexpr auto kSiteSingles = std::tuple{&Site::place, &Site::terrain, &Site::mains_hz};

template <class T>
struct Single {
  std::vector<T> before, after;  // one each, or none where nothing changed
};

template <class Owner, class... T>
std::tuple<Stretch<T>...> listsBetween(const std::tuple<std::vector<T> Owner::*...>& lists,
                                       const Owner& before, const Owner& after) {
  return std::apply(
      [&](auto... list) { return std::tuple{stretchBetween(before.*list, after.*list)...}; },
      lists);
}

template <class Owner, class... T>
std::tuple<Single<T>...> singlesBetween(const std::tuple<T Owner::*...>& members,
                                        const Owner& before, const Owner& after) {
  return std::apply(
      [&](auto... member) {
        return std::tuple{[&]<class S>(S Owner::* m) {
          return before.*m == after.*m ? Single<S>{} : Single<S>{{before.*m}, {after.*m}};
        }(member)...};
      },
      members);
}

struct WallsOf {
  std::size_t building = 0, storey = 0;
  Stretch<design::Wall> walls;
};

template <class Owner, class... T>
auto keptLists(const std::tuple<std::vector<T> Owner::*...>&) -> std::tuple<Stretch<T>...>;
template <class Owner, class... T>
auto keptSingles(const std::tuple<T Owner::*...>&) -> std::tuple<Single<T>...>;

// Everything of a storey but its walls, of a building but its storeys. The bindings name every
// member, so that a new one does not compile until it is seen to here.
auto butWalls(const Storey& storey) {
  const auto& [id, title, floor_m, slab_m, height_m, roof_m, outline, voids, walls, surroundings] =
      storey;
  return std::tie(id, title, floor_m, slab_m, height_m, roof_m, outline, voids, surroundings);
}
auto butStoreys(const Building& building) {
  const auto& [id, title, origin_m, turn_deg, storeys] = building;
  return std::tie(id, title, origin_m, turn_deg);
}

// Whether two buildings differ in their walls alone.
bool alikeButWalls(const Building& a, const Building& b) {
  return butStoreys(a) == butStoreys(b) &&
         std::equal(a.storeys.begin(), a.storeys.end(), b.storeys.begin(), b.storeys.end(),
                    [](const Storey& p, const Storey& q) { return butWalls(p) == butWalls(q); });
}

}  // namespace

struct DesignChange::Parts {
  decltype(keptLists(kLists)) lists;
  decltype(keptLists(kSiteLists)) site_lists;
  decltype(keptSingles(kSingles)) singles;
  decltype(keptSingles(kSiteSingles)) site_singles;
  Stretch<Building> buildings;
  std::vector<WallsOf> walls;  // where the buildings differ in walls alone
};

namespace {

template <std::size_t I = 0, class Lists, class Kept, class Owner>
void applyLists(const Lists& lists, const Kept& kept, Owner& owner, bool forwards) {
  if constexpr (I < std::tuple_size_v<Lists>) {
    const auto& stretch = std::get<I>(kept);
    auto& list = owner.*std::get<I>(lists);
    if (!stretch.empty())
      forwards ? replace(list, stretch.at, stretch.before, stretch.after)
               : replace(list, stretch.at, stretch.after, stretch.before);
    applyLists<I + 1>(lists, kept, owner, forwards);
  }
}

template <std::size_t I = 0, class Members, class Kept, class Owner>
void applySingles(const Members& members, const Kept& kept, Owner& owner, bool forwards) {
  if constexpr (I < std::tuple_size_v<Members>) {
    const auto& single = std::get<I>(kept);
    if (!single.before.empty())
      owner.*std::get<I>(members) = forwards ? single.after.front() : single.before.front();
    applySingles<I + 1>(members, kept, owner, forwards);
  }
}

template <class Kept>
bool allEmpty(const Kept& kept) {
  return std::apply([](const auto&... part) { return (part.before.empty() && ...); }, kept) &&
         std::apply([](const auto&... part) { return (part.after.empty() && ...); }, kept);
}

template <class Parts>
void applyParts(const Parts& parts, Design& design, bool forwards) {
  applyLists(kLists, parts.lists, design, forwards);
  applyLists(kSiteLists, parts.site_lists, design.site, forwards);
  applySingles(kSingles, parts.singles, design, forwards);
  applySingles(kSiteSingles, parts.site_singles, design.site, forwards);
  const auto swap = [&](auto& list, const auto& stretch) {
    if (stretch.empty()) return;
    forwards ? replace(list, stretch.at, stretch.before, stretch.after)
             : replace(list, stretch.at, stretch.after, stretch.before);
  };
  swap(design.site.buildings, parts.buildings);
  for (const WallsOf& change : parts.walls)
    swap(design.site.buildings[change.building].storeys[change.storey].walls, change.walls);
}

}  // namespace

DesignChange::DesignChange(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}
DesignChange::DesignChange(DesignChange&&) noexcept = default;
DesignChange& DesignChange::operator=(DesignChange&&) noexcept = default;
DesignChange::~DesignChange() = default;

DesignChange DesignChange::between(const Design& before, const Design& after) {
  auto parts = std::make_unique<Parts>();
  parts->lists = listsBetween(kLists, before, after);
  parts->site_lists = listsBetween(kSiteLists, before.site, after.site);
  parts->singles = singlesBetween(kSingles, before, after);
  parts->site_singles = singlesBetween(kSiteSingles, before.site, after.site);
  const std::vector<Building>&a = before.site.buildings, &b = after.site.buildings;
  if (std::equal(a.begin(), a.end(), b.begin(), b.end(), alikeButWalls)) {
    for (std::size_t i = 0; i < a.size(); ++i)
      for (std::size_t s = 0; s < a[i].storeys.size(); ++s) {
        WallsOf change{i, s, stretchBetween(a[i].storeys[s].walls, b[i].storeys[s].walls)};
        if (!change.walls.empty()) parts->walls.push_back(std::move(change));
      }
  } else {
    parts->buildings = stretchBetween(a, b);
  }
  return DesignChange(std::move(parts));
}

bool DesignChange::empty() const {
  return allEmpty(parts_->lists) && allEmpty(parts_->site_lists) && allEmpty(parts_->singles) &&
         allEmpty(parts_->site_singles) && parts_->buildings.empty() && parts_->walls.empty();
}
void DesignChange::redo(Design& before) const { applyParts(*parts_, before, true); }
void DesignChange::undo(Design& after) const { applyParts(*parts_, after, false); }

}  // namespace belvedere::edit
