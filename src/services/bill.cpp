// SPDX-License-Identifier: GPL-3.0-or-later
#include "services/bill.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "design/words.h"

namespace belvedere::services {

using design::Model;
using design::ModelKind;

namespace {

// The order of the parts in the bill.
constexpr std::array kParts{ModelKind::housing, ModelKind::mount,    ModelKind::card,
                            ModelKind::lamp,    ModelKind::cable,    ModelKind::switch_,
                            ModelKind::injector, ModelKind::supply,  ModelKind::recorder,
                            ModelKind::disk,    ModelKind::viewer};

std::string partWord(ModelKind kind) {
  return kind == ModelKind::housing ? "camera" : std::string(design::word(kind));
}

class Counter {
 public:
  explicit Counter(const design::Design& design) : design_(design) {}

  void add(ModelKind kind, const design::ModelId& id, const std::string& of, double quantity) {
    BillLine& line = lineOf(kind, id);
    line.quantity += quantity;
    line.of.push_back(of);
  }
  void addCable(const Cable& cable) {
    BillLine& line = lineOf(ModelKind::cable, cable.model ? cable.model->id : design::ModelId{});
    if (line.title.empty()) line.title = word(cable.media);
    line.metres = true;
    line.of.push_back(cable.link.text);
    if (cable.placed && cable.way) line.laid_m += cable.length_m;
    else ++line.lengths_unknown;
  }

  Bill bill() {
    Bill bill;
    bill.money = design_.money;
    for (const ModelKind kind : kParts)
      for (BillLine& line : lines_[kind]) {
        // A hair of rounding in the lengths does not buy a metre.
        if (line.metres) line.quantity = std::ceil(line.laid_m * (1 + kCableWaste) - 1e-6);
        if (line.price) line.amount = *line.price * line.quantity;
        bill.total += line.amount.value_or(0);
        bill.unpriced += !line.price;
        bill.lengths_unknown += line.lengths_unknown;
        bill.lines.push_back(std::move(line));
      }
    return bill;
  }

 private:
  BillLine& lineOf(ModelKind kind, const design::ModelId& id) {
    std::vector<BillLine>& lines = lines_[kind];
    const auto [at, is_new] = index_.try_emplace({kind, id.text}, lines.size());
    if (is_new) {
      BillLine line;
      line.part = partWord(kind);
      line.model = id;
      if (const Model* model = id.empty() ? nullptr : findModel(design_, id)) {
        line.title = model->title;
        line.maker = model->maker;
        line.price = model->price;
      }
      lines.push_back(std::move(line));
    }
    return lines[at->second];
  }

  const design::Design& design_;
  std::map<ModelKind, std::vector<BillLine>> lines_;
  std::map<std::pair<ModelKind, std::string>, std::size_t> index_;
};

}  // namespace

Bill billOf(const design::Design& design, const Network& network) {
  Counter counter(design);
  int already_there = 0;
  for (const design::Housing& housing : design.housings) {
    already_there += housing.life == design::Life::existing;
    if (housing.life != design::Life::new_) continue;
    const Model* model = findModel(design, housing.model);
    counter.add(model ? model->kind : ModelKind::housing, housing.model, housing.id.text, 1);
    if (!housing.mount.model.empty())
      counter.add(ModelKind::mount, housing.mount.model, housing.id.text, 1);
    if (!housing.card.empty()) counter.add(ModelKind::card, housing.card, housing.id.text, 1);
  }
  for (const Cable& cable : network.cables) counter.addCable(cable);
  for (const design::Device& device : design.services.devices) {
    if (const Model* model = findModel(design, device.model))
      counter.add(model->kind, device.model, device.id.text, 1);
    if (device.disks)
      counter.add(ModelKind::disk, device.disks->model, device.id.text, device.disks->count);
  }
  Bill bill = counter.bill();
  bill.already_there = already_there;
  return bill;
}

std::vector<MoneyCheck> moneyChecks(const design::Design& design, const Bill& bill) {
  std::vector<MoneyCheck> checks;
  for (const design::Requirement& r : design.brief) {
    if (r.kind != design::RequirementKind::money || !r.amount_most) continue;
    MoneyCheck check{r.id, *r.amount_most, {}};
    if (bill.total > check.most + 1e-6) check.met = false;
    else if (bill.complete()) check.met = true;
    checks.push_back(check);
  }
  return checks;
}

Energy energyOf(const design::Design& design, const Power& power) {
  constexpr double kHoursHalf = 8760.0 / 2;
  constexpr auto at = [](Load load) { return static_cast<std::size_t>(load); };
  Energy energy;
  const auto add = [&](double day_w, double night_w, double cold_w) {
    energy.low_kwh += (day_w + night_w) * kHoursHalf / 1000;
    energy.high_kwh += (day_w + cold_w) * kHoursHalf / 1000;
  };
  for (const Source& source : power.sources)
    add(source.load_w[at(Load::day)], source.load_w[at(Load::night)],
        source.load_w[at(Load::cold_night)]);
  // What no source of the design feeds takes its power all the same.
  for (const Feeding& feeding : power.feedings)
    if (feeding.by == FedBy::nothing && feeding.draw_w)
      add((*feeding.draw_w)[at(Load::day)], (*feeding.draw_w)[at(Load::night)],
          (*feeding.draw_w)[at(Load::cold_night)]);
  for (const design::Device& device : design.services.devices) {
    const Model* model = findModel(design, device.model);
    if (!model) continue;
    if (!model->power || !model->power->idle_w) {
      energy.unstated.push_back(device.id);
      continue;
    }
    add(*model->power->idle_w, *model->power->idle_w, *model->power->idle_w);
  }
  return energy;
}

}  // namespace belvedere::services
