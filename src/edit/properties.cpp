// SPDX-License-Identifier: GPL-3.0-or-later
#include "edit/properties.h"

#include <algorithm>
#include <optional>
#include <set>

#include "base/problem.h"
#include "design/words.h"
#include "edit/find.h"
#include "edit/usable.h"

namespace belvedere::edit {
namespace {

using design::Design;

std::vector<std::string> materialsOf(const Design& design) {
  std::vector<std::string> ids{""};
  for (const design::Material& material : design.site.materials) ids.push_back(material.id.text);
  return ids;
}

// The keys of each kind, once for reading and for writing.
template <class V>
void describe(V& v, design::Wall& s, const Design& design) {
  v.text("title", s.title);
  v.length("thickness_m", s.thickness_m);
  v.length("height_m", s.height_m);
  v.length("base_m", s.base_m);
  v.choice("material", s.material.text, materialsOf(design));
}
template <class V>
void describe(V& v, design::Opening& s, const Design& design) {
  v.text("title", s.title);
  v.length("from_m", s.from_m);
  v.length("width_m", s.width_m);
  v.length("sill_m", s.sill_m);
  v.length("head_m", s.head_m);
  v.choice("material", s.material.text, materialsOf(design));
}
template <class V>
void describe(V& v, design::Solid& s, const Design& design) {
  v.text("title", s.title);
  if (!s.file) {
    v.kind("kind", s.kind);
    v.length("base_m", s.base_m);
    v.length("top_m", s.top_m);
    double toward_deg = s.slope ? s.slope->toward_deg : 0, rise_m = s.slope ? s.slope->rise_m : 0;
    v.length("rise_m", rise_m);
    if (rise_m != 0) v.angle("toward_deg", toward_deg);
    if (rise_m != 0)
      s.slope = design::Slope{toward_deg, rise_m};
    else
      s.slope.reset();
  } else {
    v.angle("turn_deg", s.turn_deg);
  }
  v.choice("material", s.material.text, materialsOf(design));
}
template <class V>
void describe(V& v, design::Zone& s, const Design&) {
  v.text("title", s.title);
  v.choice("use", s.use, {"", "counter_top", "window", "outside"});
  v.length("base_m", s.base_m);
}
template <class V>
void describe(V& v, design::Mounting& s, const Design&) {
  v.text("title", s.title);
  v.choice("on", s.on, {"ceiling", "wall", "pole", "beam", "column"});
  v.length("least_m", s.heights_m[0]);
  v.length("most_m", s.heights_m[1]);
}
template <class V>
void describe(V& v, design::Containment& s, const Design&) {
  v.text("title", s.title);
}
template <class V>
void describe(V& v, design::Light& s, const Design&) {
  v.text("title", s.title);
}
template <class V>
void describe(V& v, design::Device& s, const Design&) {
  v.text("title", s.title);
}
template <class V>
void describe(V& v, design::Link& s, const Design&) {
  v.length("slack_m", s.slack_m);
}
template <class V>
void describe(V& v, design::Storey& s, const Design&) {
  v.text("title", s.title);
  v.length("floor_m", s.floor_m);
  v.length("height_m", s.height_m);
  v.length("slab_m", s.slab_m);
  v.length("roof_m", s.roof_m);
}
template <class V>
void describe(V& v, design::Building& s, const Design&) {
  v.text("title", s.title);
  v.length("origin_x_m", s.origin_m.x);
  v.length("origin_y_m", s.origin_m.y);
  v.angle("turn_deg", s.turn_deg);
}

struct Reader {
  std::vector<Property> found = {};
  void text(const char* key, std::string& value) {
    found.push_back({key, PropertyKind::text, value, false, {}});
  }
  void length(const char* key, double& value) {
    found.push_back({key, PropertyKind::length, value, false, {}});
  }
  void length(const char* key, std::optional<double>& value) {
    found.push_back({key, PropertyKind::length,
                     value ? PropertyValue(*value) : PropertyValue(std::monostate()), true, {}});
  }
  void angle(const char* key, double& value) {
    found.push_back({key, PropertyKind::angle, value, false, {}});
  }
  void choice(const char* key, std::string& value, std::vector<std::string> choices) {
    found.push_back({key, PropertyKind::choice, value, false, std::move(choices)});
  }
  void kind(const char* key, design::SolidKind& value) {
    const auto& list = design::Words<design::SolidKind>::list;
    std::vector<std::string> choices;
    for (const std::string_view each : list)
      if (each != "mesh") choices.emplace_back(each);
    found.push_back({key, PropertyKind::choice,
                     std::string(list[static_cast<std::size_t>(value)]), false, choices});
  }
};

struct Writer {
  const std::string& key;
  const PropertyValue& value;
  bool done = false;
  template <class T>
  void set(const char* name, T& member) {
    if (key != name) return;
    if (const auto* given = std::get_if<T>(&value)) {
      member = *given;
      done = true;
    }
  }
  void text(const char* name, std::string& member) { set(name, member); }
  void length(const char* name, double& member) { set(name, member); }
  void angle(const char* name, double& member) { set(name, member); }
  void length(const char* name, std::optional<double>& member) {
    if (key != name) return;
    if (const auto* given = std::get_if<double>(&value))
      member = *given;
    else
      member.reset();
    done = true;
  }
  void choice(const char* name, std::string& member, const std::vector<std::string>&) {
    set(name, member);
  }
  void kind(const char* name, design::SolidKind& member) {
    if (key != name) return;
    const auto& list = design::Words<design::SolidKind>::list;
    if (const auto* given = std::get_if<std::string>(&value))
      for (std::size_t i = 0; i < list.size(); ++i)
        if (list[i] == *given) {
          member = static_cast<design::SolidKind>(i);
          done = true;
        }
  }
};

// Calls with the object, if it is there. `target` may be of another design than `design`, whose
// lists of choices are taken.
template <class V>
void visit(V& v, Design& target, const ObjectRef& ref, const Design& design) {
  const auto in = [&](auto& list) {
    if (auto* found = withId(list, ref.id)) describe(v, *found, design);
  };
  switch (ref.kind) {
    case ObjectKind::building: in(target.site.buildings); break;
    case ObjectKind::storey:
      if (const auto at = placeOfStorey(target, ref.id)) describe(v, storeyAt(target, *at), design);
      break;
    case ObjectKind::wall:
      if (const auto at = placeOfWall(target, ref.id)) describe(v, wallAt(target, *at), design);
      break;
    case ObjectKind::opening:
      if (const auto at = placeOfOpening(target, ref.id))
        describe(v, wallAt(target, *at).openings[at->opening], design);
      break;
    case ObjectKind::solid: in(target.site.solids); break;
    case ObjectKind::zone: in(target.site.zones); break;
    case ObjectKind::mounting: in(target.site.mounting); break;
    case ObjectKind::containment: in(target.site.containment); break;
    case ObjectKind::light: in(target.site.lights); break;
    case ObjectKind::device: in(target.services.devices); break;
    case ObjectKind::link: in(target.services.links); break;
    case ObjectKind::underlay:
    case ObjectKind::housing: break;
  }
}

}  // namespace

std::vector<Property> propertiesOf(const Design& design, const ObjectRef& ref) {
  Reader reader;
  Design copy = design;
  visit(reader, copy, ref, design);
  return std::move(reader.found);
}

Design withProperty(const Design& design, const Selection& selection, const std::string& key,
                    const PropertyValue& value) {
  Design after = design;
  std::set<std::string> changed;
  for (const ObjectRef& ref : selection) {
    Writer writer{key, value};
    visit(writer, after, ref, design);
    if (writer.done) changed.insert(ref.id);
  }
  if (!changed.empty()) requireUsable(after, changed);
  return after;
}

}  // namespace belvedere::edit
