// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/schedules.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "base/problem.h"
#include "design/resolve.h"
#include "design/words.h"
#include "services/findings.h"
#include "services/place.h"
#include "services/stay.h"

namespace belvedere::services {

using design::Model;
using design::ModelKind;

namespace {

constexpr int kText = -1;

ScheduleCell text(const std::string& s) {
  return s.empty() ? ScheduleCell() : ScheduleCell(s);
}
ScheduleCell maybe(const std::optional<double>& value) {
  return value ? ScheduleCell(*value) : ScheduleCell();
}
std::string joined(const std::vector<std::string>& parts) {
  return fmt::format("{}", fmt::join(parts, "; "));
}
std::string titleOf(const design::Storey* storey) {
  return !storey ? "" : storey->title.empty() ? storey->id.text : storey->title;
}

std::string streamText(const design::Stream& stream) {
  std::string out = fmt::format("{} {}x{}", stream.id.text, stream.size_px[0], stream.size_px[1]);
  if (stream.frames_per_s) out += fmt::format(" {:g}/s", *stream.frames_per_s);
  if (!stream.codec.empty()) out += " " + stream.codec;
  return out;
}

Schedule camerasOf(const design::Design& design, const Sizes& sizes) {
  Schedule out{"cameras",
               {{"imager", kText},           {"camera", kText},      {"title", kText},
                {"model", kText},            {"maker", kText},       {"state", kText},
                {"storey", kText},           {"x m", 2},             {"y m", 2},
                {"fixing above floor m", 2}, {"lens above floor m", 2}, {"mount", kText},
                {"base bearing deg", 1},     {"pan deg", 1},         {"tilt deg", 1},
                {"roll deg", 1},             {"pan in housing deg", 1}, {"tilt in housing deg", 1},
                {"field across deg", 1},     {"field upright deg", 1}, {"focus m", 2},
                {"streams", kText},          {"card", kText},        {"fed by", kText},
                {"fed from", kText},         {"most W", 1}},
               {}};
  for (const design::PosedImager& posed : design::posedImagers(design, design::JudgedOn::captured)) {
    const design::Housing* housing = design::findHousing(design, posed.housing);
    if (!housing) continue;
    const Model* model = findModel(design, housing->model);
    const design::Storey* storey = storeyAt(design, housing->storey, housing->mount.fixing_m);
    const auto above = [&](double z) -> ScheduleCell {
      return storey ? ScheduleCell(z - storey->floor_m) : ScheduleCell();
    };
    const auto imager = std::ranges::find(housing->imagers, posed.slot, &design::HousingImager::slot);
    const design::Aim aim = imager != housing->imagers.end() && posed.aim < imager->aims.size()
                                ? imager->aims[posed.aim]
                                : design::Aim{};
    std::vector<std::string> streams;
    for (const design::Stream& stream : housing->streams)
      if (std::ranges::find(stream.from, posed.slot) != stream.from.end())
        streams.push_back(streamText(stream));
    const auto fed = std::ranges::find(sizes.power.feedings, housing->id, &Feeding::housing);
    const bool is_fed = fed != sizes.power.feedings.end() && fed->by != FedBy::nothing;
    const std::optional<Watts> draw = model ? drawOf(*model) : std::nullopt;
    out.rows.push_back(
        {posed.name, housing->id.text, text(housing->title), housing->model.text,
         text(model ? model->maker : ""), std::string(design::word(housing->life)),
         text(titleOf(storey)), housing->mount.fixing_m.x, housing->mount.fixing_m.y,
         above(housing->mount.fixing_m.z), above(posed.lens_m.z), text(housing->mount.model.text),
         housing->mount.base_bearing_deg, aim.pan_deg, aim.tilt_deg, aim.roll_deg,
         posed.housing_pan_deg, posed.housing_tilt_deg, posed.hfov_deg, posed.vfov_deg,
         maybe(posed.focused_at_m), text(joined(streams)), text(housing->card.text),
         text(is_fed ? fed->feed : ""), text(is_fed ? fed->source.text : ""),
         draw ? ScheduleCell(*std::ranges::max_element(*draw)) : ScheduleCell()});
  }
  return out;
}

Schedule cablesOf(const design::Design& design, const Sizes& sizes) {
  Schedule out{"cables",
               {{"cable", kText}, {"from", kText}, {"from storey", kText}, {"to", kText},
                {"to storey", kText}, {"type", kText}, {"media", kText}, {"length m", 1},
                {"of it slack m", 1}, {"of it in containment m", 1}, {"of it drops m", 1},
                {"may be m", 1}, {"along", kText}, {"at C", 0}, {"Mbit/s", 1},
                {"cameras cut off if it fails", 0}},
               {}};
  const auto storey = [&](const design::AnyId& id) {
    design::StoreyId named;
    if (const design::Housing* housing = design::findHousing(design, {id.text}))
      named = housing->storey;
    const auto at = design::placeOf(design, id);
    return at ? titleOf(storeyAt(design, named, *at)) : std::string();
  };
  for (std::size_t i = 0; i < sizes.network.cables.size(); ++i) {
    const Cable& c = sizes.network.cables[i];
    const bool known = c.placed && c.way;
    std::vector<std::string> along;
    if (c.way && c.drawn) along.push_back("as drawn");
    if (c.way)
      for (const design::ContainmentId& id : c.way->along) along.push_back(id.text);
    out.rows.push_back(
        {c.link.text, c.from.text, text(storey(c.from)), c.to.text, text(storey(c.to)),
         text(c.model ? c.model->id.text : ""), std::string(word(c.media)),
         known ? ScheduleCell(c.length_m) : ScheduleCell(), design.services.links[i].slack_m,
         known ? ScheduleCell(c.way->contained_m) : ScheduleCell(),
         known ? ScheduleCell(c.way->drop_m) : ScheduleCell(), maybe(c.longest_m),
         text(joined(along)), c.temperature_c, c.load_mbps,
         static_cast<double>(c.cut_off.size())});
  }
  return out;
}

bool hasAddress(ModelKind kind) {
  return kind == ModelKind::switch_ || kind == ModelKind::recorder || kind == ModelKind::viewer;
}

std::string dotted(std::uint32_t a) {
  return fmt::format("{}.{}.{}.{}", a >> 24, (a >> 16) & 255, (a >> 8) & 255, a & 255);
}

std::optional<std::uint32_t> addressOf(std::string_view words) {
  std::uint32_t out = 0;
  for (int part = 0; part < 4; ++part) {
    const std::size_t end = part == 3 ? words.size() : words.find('.');
    if (end == std::string_view::npos || end == 0 || end > 3) return {};
    unsigned value = 0;
    const auto [rest, error] = std::from_chars(words.data(), words.data() + end, value);
    if (error != std::errc{} || rest != words.data() + end || value > 255) return {};
    out = out << 8 | value;
    words.remove_prefix(std::min(end + 1, words.size()));
  }
  return out;
}

// The switch (or what else) at the other end of a part's first link that carries data.
std::pair<std::string, std::string> portOf(const std::string& id, const Sizes& sizes) {
  for (const Cable& cable : sizes.network.cables) {
    if (cable.media == Media::power) continue;
    if (cable.from.text == id) return {cable.to.text, cable.link.text};
    if (cable.to.text == id) return {cable.from.text, cable.link.text};
  }
  return {};
}

Schedule addressPlan(const design::Design& design, const Sizes& sizes,
                     const std::optional<AddressRule>& rule) {
  Schedule out{"addresses",
               {{"part", kText}, {"title", kText}, {"kind", kText}, {"model", kText},
                {"address", kText}, {"prefix", 0}, {"given by", kText}, {"linked to", kText},
                {"cable", kText}},
               {}};
  for (const Address& address : addressesOf(design, rule)) {
    std::string title, model;
    if (const design::Housing* housing = design::findHousing(design, {address.id})) {
      title = housing->title;
      model = housing->model.text;
    }
    for (const design::Device& device : design.services.devices)
      if (device.id.text == address.id) {
        title = device.title;
        model = device.model.text;
      }
    const Model* of = findModel(design, {model});
    const std::string kind = !of || of->kind == ModelKind::housing
                                 ? "camera"
                                 : std::string(design::word(of->kind));
    const auto [port, link] = portOf(address.id, sizes);
    const bool by_rule = !address.text.empty() && !address.stated;
    out.rows.push_back({address.id, text(title), kind, text(model), text(address.text),
                        by_rule ? ScheduleCell(static_cast<double>(rule->length)) : ScheduleCell(),
                        text(address.text.empty() ? "" : address.stated ? "the design" : "the rule"),
                        text(port), text(link)});
  }
  return out;
}

Schedule billTable(const Sizes& sizes) {
  const std::string& money = sizes.bill.money;
  Schedule out{"bill",
               {{"part", kText}, {"model", kText}, {"title", kText}, {"maker", kText},
                {"quantity", 0}, {"unit", kText}, {"laid m", 1},
                {"price" + (money.empty() ? "" : " " + money), 2},
                {"amount" + (money.empty() ? "" : " " + money), 2}, {"for", kText}},
               {}};
  for (const BillLine& line : sizes.bill.lines)
    out.rows.push_back({line.part, text(line.model.text), text(line.title), text(line.maker),
                        line.quantity, std::string(line.metres ? "m" : "pieces"),
                        line.metres ? ScheduleCell(line.laid_m) : ScheduleCell(), maybe(line.price),
                        maybe(line.amount), text(joined(line.of))});
  out.rows.push_back({std::string("total"), {}, text(totalText(sizes.bill)), {}, {}, {}, {}, {},
                      sizes.bill.total, {}});
  return out;
}

}  // namespace

std::optional<AddressRule> addressRuleOf(std::string_view words) {
  const std::size_t slash = words.find('/');
  if (slash == std::string_view::npos) return {};
  const auto network = addressOf(words.substr(0, slash));
  const std::string_view length = words.substr(slash + 1);
  AddressRule rule;
  const auto [rest, error] =
      std::from_chars(length.data(), length.data() + length.size(), rule.length);
  if (!network || error != std::errc{} || rest != length.data() + length.size() ||
      rule.length < 8 || rule.length > 30)
    return {};
  rule.network = *network;
  if (rule.network & ((std::uint32_t{1} << (32 - rule.length)) - 1)) return {};
  return rule;
}

std::vector<Address> addressesOf(const design::Design& design,
                                 const std::optional<AddressRule>& rule) {
  std::vector<Address> out;
  std::set<std::string> taken;
  for (const design::Device& device : design.services.devices) {
    const Model* model = findModel(design, device.model);
    if (!model || !hasAddress(model->kind)) continue;
    Address address{device.id.text, "", false};
    for (const design::Setting& setting : device.settings)
      if (setting.key == "address" && !setting.value.empty()) {
        address.text = setting.value;
        address.stated = true;
        taken.insert(setting.value);
      }
    out.push_back(std::move(address));
  }
  for (const design::Housing* housing : stayingHousings(design))
    out.push_back({housing->id.text, "", false});
  if (!rule) return out;
  const std::uint32_t hosts = (std::uint32_t{1} << (32 - rule->length)) - 2;
  std::uint32_t next = 2;
  for (Address& address : out) {
    if (address.stated) continue;
    while (next <= hosts && taken.contains(dotted(rule->network + next))) ++next;
    if (next > hosts)
      throw InputError({{"network_too_small", "",
                         fmt::format("{}/{} has {} addresses for parts, and {} need one",
                                     dotted(rule->network), rule->length, hosts - 1, out.size()),
                         "give a shorter prefix with --network"}});
    address.text = dotted(rule->network + next++);
  }
  return out;
}

std::vector<Schedule> schedulesOf(const design::Design& design, const Sizes& sizes,
                                  const std::optional<AddressRule>& rule) {
  return {camerasOf(design, sizes), cablesOf(design, sizes), addressPlan(design, sizes, rule),
          billTable(sizes)};
}

}  // namespace belvedere::services
