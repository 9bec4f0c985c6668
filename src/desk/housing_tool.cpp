// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "base/problem.h"
#include "desk/draw_values.h"
#include "desk/sheet_view.h"
#include "desk/site_tools.h"
#include "edit/mount_drag.h"

namespace belvedere::desk {
namespace {

constexpr double kMountPx = 24;
constexpr double kFreeHeightM = 3;  // of a fixing in free air; practice, no source

std::vector<const design::Model*> housingModels(const design::Design& design) {
  std::vector<const design::Model*> models;
  for (const std::vector<design::Model>* list : {&design.catalogue.models, &design.library})
    for (const design::Model& model : *list)
      if (model.kind == design::ModelKind::housing && !model.imagers.empty())
        models.push_back(&model);
  return models;
}

const design::Model* chosen(const design::Design& design) {
  const std::vector<const design::Model*> models = housingModels(design);
  for (const design::Model* model : models)
    if (model->id.text == drawValues().model) return model;
  return models.empty() ? nullptr : models.front();
}

}  // namespace

QString HousingTool::hint() const {
  if (!chosen(view().workspace().design()))
    return QObject::tr("The catalogue of this design has no housings yet: take some by File, Models "
                       "from a catalogue.");
  return QObject::tr("Housing: click where it is fixed; near a mounting line or a wall it takes "
                     "hold of it.");
}

std::vector<ToolField> HousingTool::fields() {
  DrawValues& values = drawValues();
  const design::Design& design = view().workspace().design();
  ToolField model{"housing_model", QObject::tr("model"),
                  [&values] { return words(values.model); },
                  [&values](const QString& id) { values.model = id.toStdString(); },
                  {}};
  for (const design::Model* each : housingModels(design)) {
    const QString title = words(each->title.empty() ? each->id.text : each->title);
    model.choices.emplace_back(
        words(each->id.text),
        each->maker.empty() ? title : QObject::tr("%1, %2").arg(title, words(each->maker)));
  }
  if (model.choices.empty()) return {};
  ToolField height{"housing_height", QObject::tr("height"),
                   [&values] {
                     return values.housing_height_m
                                ? words(edit::lengthText(*values.housing_height_m, shownUnits()))
                                : QObject::tr("as held");
                   },
                   [&values](const QString& text) {
                     if (text.trimmed().isEmpty() || text == QObject::tr("as held"))
                       values.housing_height_m.reset();
                     else
                       values.housing_height_m =
                           edit::lengthFrom(text.toStdString(), shownUnits());
                   },
                   {}};
  return {model, height};
}

// Height: the one typed, as far as the line or wall allows; else the most that a mounting line
// allows, and what is usual on a wall and in free air.
HousingTool::Place HousingTool::placeAt(Vec2 at, double reach_m, Vec2 free_m) const {
  const Workspace& workspace = view().workspace();
  const design::Storey* storey = workspace.shownStorey();
  const double floor_m = storey ? storey->floor_m : 0;
  const auto fixing = edit::nearestFixing(workspace.design(), workspace.storey(), at, reach_m);
  double z_m = floor_m + drawValues().housing_height_m.value_or(
                             storey ? std::min(kFreeHeightM, storey->height_m) : kFreeHeightM);
  Place place;
  Vec2 plan_m = free_m;
  if (fixing) {
    plan_m = fixing->at_m;
    place.mount.on = fixing->on;
    if (fixing->outward_deg) place.mount.base_bearing_deg = *fixing->outward_deg;
    if (fixing->z_m) {
      const bool line = !fixing->outward_deg && !drawValues().housing_height_m;
      z_m = line ? (*fixing->z_m)[1] : std::clamp(z_m, (*fixing->z_m)[0], (*fixing->z_m)[1]);
    }
    place.says = QObject::tr("on %1, %2").arg(
        words(fixing->on.text), words(edit::lengthText(z_m - floor_m, shownUnits())));
  } else {
    place.says = words(edit::lengthText(z_m - floor_m, shownUnits()));
  }
  place.mount.fixing_m = {plan_m.x, plan_m.y, z_m};
  return place;
}

void HousingTool::put(const Place& place) {
  const design::Model* model = chosen(view().workspace().design());
  if (!model) refuse(QObject::tr("the catalogue of this design has no housings yet"));
  edit::NewHousing housing;
  housing.model = model->id;
  housing.mount = place.mount;
  housing.storey = view().workspace().storey();
  edit::Added added = edit::withHousing(view().workspace().design(), housing);
  view().workspace().apply(QObject::tr("Put up a housing"), std::move(added.design));
  view().workspace().select({added.ref});
}

void HousingTool::press(const Pointer& pointer) {
  if (pointer.button != Qt::LeftButton || pointer.doubled) return;
  attempt([&] {
    put(placeAt(pointer.at_m, view().metres(kMountPx), view().snap(pointer).at_m));
  });
  changed();
}

void HousingTool::move(const Pointer& pointer) {
  place_ = placeAt(pointer.at_m, view().metres(kMountPx), view().snap(pointer).at_m);
  view().refreshLive();
}

void HousingTool::leave() {
  place_.reset();
  view().refreshLive();
}

bool HousingTool::typed(const QString& text) {
  const Vec2 at = edit::placeFrom(text.toStdString(), shownUnits(), std::nullopt);
  put(placeAt(at, 0.01, at));
  return true;
}

void HousingTool::paint(drawing::Canvas& canvas, const drawing::ToPaper& to_paper,
                        const drawing::Inks& inks) {
  if (!place_) return;
  const double mm = view().mmPerPx();
  const Vec2 at = to_paper(place_->mount.fixing_m.xy());
  canvas.ring(at, drawing::kDialRadiusMm, {inks.accent, 0.3});
  canvas.disc(at, 2 * mm, inks.accent);
  paintWords(canvas, at + Vec2{18 * mm, -10 * mm}, place_->says.toStdString(), inks);
}

}  // namespace belvedere::desk
