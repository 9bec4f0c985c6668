// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/aim_menu.h"

#include <QDialog>
#include <QDialogButtonBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QInputDialog>
#include <QMenu>

#include <algorithm>

#include "base/problem.h"
#include "desk/aim_fields.h"
#include "desk/main_window.h"
#include "desk/outline_handles.h"
#include "desk/room_sentences.h"
#include "desk/swap_dialog.h"
#include "edit/aim_drag.h"
#include "edit/aim_group.h"
#include "edit/find.h"
#include "edit/pattern.h"
#include "scene/scene.h"

namespace belvedere::desk {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

QString joined(const std::vector<std::string>& says) {
  QStringList lines;
  for (const std::string& line : says) lines.push_back(roomSentence(line));
  return lines.join(" ");
}

// Runs an edit; what it cannot do is said.
template <class Edit>
void doing(Workspace& workspace, Edit edit) {
  try {
    edit();
  } catch (const InputError& error) {
    workspace.complain(text(error.problems().front().what));
  }
}

void applySpread(Workspace& workspace, const QString& name, edit::Spread spread) {
  workspace.apply(name, std::move(spread.design));
  if (!spread.says.empty()) workspace.complain(joined(spread.says));
}

QDoubleSpinBox* angleBox(const QString& name, double least, double most, double value) {
  auto* box = new QDoubleSpinBox;
  box->setObjectName(name);
  box->setRange(least, most);
  box->setDecimals(1);
  box->setSuffix(QStringLiteral("°"));
  box->setValue(value);
  return box;
}

void closeTheCircle(MainWindow& window) {
  Workspace& workspace = window.workspace();
  const design::Housing* housing = workspace.selectedHousing();
  if (!housing) {
    workspace.complain(QObject::tr("Select the housing whose circle is to be closed."));
    return;
  }
  QDialog dialog(&window);
  dialog.setObjectName("close_circle");
  dialog.setWindowTitle(QObject::tr("Close the circle of %1").arg(text(housing->id.text)));
  auto* rule = window.findChild<BearingRule*>();
  auto* depression =
      angleBox("depression", -89, 89, rule ? rule->depressionDeg() : 15);
  auto* overlap = angleBox("overlap", 0, 90, 5);
  auto* form = new QFormLayout(&dialog);
  form->addRow(QObject::tr("&Below the horizon"), depression);
  form->addRow(QObject::tr("&Overlap of neighbours"), overlap);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
  form->addRow(buttons);
  QObject::connect(buttons, &QDialogButtonBox::accepted, &dialog, &QDialog::accept);
  QObject::connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
  if (dialog.exec() != QDialog::Accepted) return;
  doing(workspace, [&] {
    applySpread(workspace,
                QObject::tr("Close the circle of %1").arg(text(housing->id.text)),
                edit::closeTheCircle(workspace.design(), housing->id, depression->value(),
                                     overlap->value()));
  });
}

// The selected zone, else that of the selected requirement; with a requirement that asks of it.
void lookAtZone(MainWindow& window) {
  Workspace& workspace = window.workspace();
  const design::Design& design = workspace.design();
  const std::vector<edit::ImagerRef> imagers = selectedImagers(workspace);
  const design::Requirement* requirement =
      design::findRequirement(design, workspace.requirement());
  design::ZoneId zone = requirement ? requirement->zone : design::ZoneId{};
  for (const edit::ObjectRef& ref : workspace.selection())
    if (ref.kind == edit::ObjectKind::zone) zone = design::ZoneId{ref.id};
  if (!requirement || requirement->zone != zone) {
    const auto found = std::find_if(
        design.brief.begin(), design.brief.end(), [&](const design::Requirement& r) {
          return r.zone == zone && r.kind == design::RequirementKind::see;
        });
    requirement = found == design.brief.end() ? nullptr : &*found;
  }
  if (imagers.empty() || zone.empty() || !requirement) {
    workspace.complain(QObject::tr(
        "Select the imagers, and the requirement in the brief (or its zone) they are to look at."));
    return;
  }
  doing(workspace, [&] {
    applySpread(workspace, QObject::tr("Look at %1").arg(text(zone.text)),
                edit::lookAtZone(design, imagers, zone, requirement->id));
  });
}

void followWall(MainWindow& window) {
  Workspace& workspace = window.workspace();
  const design::Design& design = workspace.design();
  const std::vector<edit::ImagerRef> imagers = selectedImagers(workspace);
  for (const edit::ObjectRef& ref : workspace.selection()) {
    if (ref.kind != edit::ObjectKind::wall || imagers.empty()) continue;
    const auto at = edit::placeOfWall(design, ref.id);
    if (!at) continue;
    const design::Building& building = design.site.buildings[at->building];
    const design::Storey& storey = edit::storeyAt(design, *at);
    std::vector<Vec2> path;
    for (const Vec2 p : edit::wallAt(design, *at).path)
      path.push_back(design::siteFromBuilding(building, p));
    const design::Requirement* requirement =
        design::findRequirement(design, workspace.requirement());
    const design::Range band =
        design::bandOf(requirement ? requirement->target : design::Target{});
    doing(workspace, [&] {
      applySpread(workspace, QObject::tr("Follow %1").arg(text(ref.id)),
                  edit::followWall(design, imagers, path, storey.floor_m + band[0],
                                   storey.floor_m + band[1]));
    });
    return;
  }
  workspace.complain(
      QObject::tr("Select the imagers, and with Shift the wall they are to follow."));
}

// The next click on the sheet is looked at.
class SpotTool : public Tool {
 public:
  using Tool::Tool;
  QString name() const override { return QObject::tr("Look at a spot"); }
  QString hint() const override {
    return QObject::tr(
        "Click the spot that the selected imagers are to look at; Escape leaves it.");
  }
  Qt::CursorShape cursor() const override { return Qt::CrossCursor; }
  void press(const Pointer& pointer) override { at_m_ = pointer.at_m; }
  void release(const Pointer&) override {
    if (!at_m_) return;
    Workspace& workspace = view().workspace();
    const Vec2 at = *at_m_;
    at_m_.reset();
    const design::Storey* storey = workspace.shownStorey();
    const design::Requirement* requirement =
        design::findRequirement(workspace.design(), workspace.requirement());
    const design::Zone* zone =
        requirement ? design::findZone(workspace.design(), requirement->zone) : nullptr;
    const design::Range band =
        design::bandOf(requirement ? requirement->target : design::Target{});
    const double floor_m = zone     ? scene::floorOf(workspace.design(), *zone).at(at)
                           : storey ? storey->floor_m
                                    : 0;
    const Vec3 point = withZ(at, floor_m + 0.5 * (band[0] + band[1]));
    doing(workspace, [&] {
      design::Design next = workspace.design();
      std::string stop;
      for (const edit::ImagerRef& imager : selectedImagers(workspace)) {
        edit::Aimed aimed = edit::looksAt(next, imager, point);
        next = std::move(aimed.design);
        if (aimed.at_stop) stop = aimed.stop;
      }
      workspace.apply(QObject::tr("Look at a spot"), std::move(next));
      if (!stop.empty()) workspace.complain(text(stop));
    });
    view().setTool(nullptr);  // and with it, this
  }

 private:
  std::optional<Vec2> at_m_;
};

void copyPattern(MainWindow& window) {
  Workspace& workspace = window.workspace();
  const std::vector<design::HousingId> housings = selectedHousings(workspace);
  if (housings.empty()) {
    workspace.complain(
        QObject::tr("Select the housing whose aims are to be copied, then those that get them."));
    return;
  }
  std::vector<design::HousingId> to(housings.begin() + 1, housings.end());
  if (to.empty()) {  // asked for
    QStringList others;
    for (const design::Housing& housing : workspace.design().housings)
      if (housing.id != housings.front()) others.push_back(text(housing.id.text));
    if (others.empty()) {
      workspace.complain(QObject::tr("There is no other housing that could get these aims."));
      return;
    }
    others.push_front(QObject::tr("all others of its model"));
    bool chosen = false;
    const QString answer = QInputDialog::getItem(
        &window, QObject::tr("Copy the aims of %1").arg(text(housings.front().text)),
        QObject::tr("to"), others, 0, false, &chosen);
    if (!chosen) return;
    const design::Housing* from = design::findHousing(workspace.design(), housings.front());
    for (const design::Housing& housing : workspace.design().housings)
      if (housing.id != from->id &&
          (answer == others.front() ? housing.model == from->model
                                    : text(housing.id.text) == answer))
        to.push_back(housing.id);
  }
  doing(workspace, [&] {
    edit::Changed changed = edit::copyPattern(workspace.design(), housings.front(), to);
    workspace.apply(QObject::tr("Copy the aims of %1").arg(text(housings.front().text)),
                    std::move(changed.design));
    if (!changed.says.empty()) workspace.complain(joined(changed.says));
  });
}

void turnBase(MainWindow& window, edit::Aims aims) {
  Workspace& workspace = window.workspace();
  const design::Housing* housing = workspace.selectedHousing();
  if (!housing) {
    workspace.complain(QObject::tr("Select the housing whose base is to be turned."));
    return;
  }
  bool good = false;
  const double bearing = QInputDialog::getDouble(
      &window, QObject::tr("Base of %1").arg(text(housing->id.text)),
      aims == edit::Aims::turn_along ? QObject::tr("Bearing; the imagers turn with it:")
                                     : QObject::tr("Bearing; the imagers look where they looked:"),
      housing->mount.base_bearing_deg, -360, 360, 2, &good);
  if (!good) return;
  doing(workspace, [&] {
    edit::Aimed aimed = edit::withBaseBearing(workspace.design(), housing->id, bearing, aims);
    const std::string stop = aimed.at_stop ? aimed.stop : std::string();
    workspace.apply(QObject::tr("Base of %1").arg(text(housing->id.text)),
                    std::move(aimed.design));
    if (!stop.empty()) workspace.complain(text(stop));
  });
}

// The stored aims of the selected imager.
void nextAim(Workspace& workspace) {
  const std::size_t count = workspace.aimCount();
  if (count == 0) {
    workspace.complain(QObject::tr("Select the imager whose aims are meant."));
  } else if (count == 1) {
    workspace.complain(QObject::tr("This imager has one aim. Store another to have several."));
  } else {
    workspace.selectAim((workspace.selectedAim() + 1) % count);
  }
}
void changeAims(Workspace& workspace, const QString& name, bool adds) {
  const auto imager = selectedRef(workspace);
  if (!imager) {
    workspace.complain(QObject::tr("Select the imager whose aims are meant."));
    return;
  }
  edit::Aimed aimed = adds ? edit::withAnotherAim(workspace.design(), *imager)
                           : edit::withoutAim(workspace.design(), *imager);
  if (aimed.at_stop) workspace.complain(text(aimed.stop));
  workspace.apply(name.arg(text(edit::nameOf(*imager))), std::move(aimed.design));
  if (adds) workspace.selectAim(imager->aim + 1);
}

void setLife(Workspace& workspace, design::Life life, const QString& name) {
  const std::vector<design::HousingId> housings = selectedHousings(workspace);
  if (housings.empty()) {
    workspace.complain(QObject::tr("Select the housings first."));
    return;
  }
  workspace.apply(name, edit::withLife(workspace.design(), housings, life));
}

}  // namespace

void addAimMenu(MainWindow& window) {
  const QString menu = QObject::tr("&Aim");
  MainWindow* const w = &window;
  const auto add = [&](const char* name, const QString& words, const QKeySequence& keys,
                       std::function<void()> run) {
    window.addCommand(menu, name, words, keys, std::move(run));
  };
  window.menuOf(menu)->addSeparator();
  add("aim.close_circle", QObject::tr("&Close the circle ..."), {}, [w] { closeTheCircle(*w); });
  add("aim.look_at_zone", QObject::tr("&Look at this zone"), {}, [w] { lookAtZone(*w); });
  add("aim.follow_wall", QObject::tr("Follow this &wall"), {}, [w] { followWall(*w); });
  add("aim.look_at_spot", QObject::tr("Look at a &spot"), {}, [w] {
    if (selectedImagers(w->workspace()).empty()) {
      w->workspace().complain(QObject::tr("Select the imagers that are to look at a spot."));
      return;
    }
    w->sheet().setTool(std::make_unique<SpotTool>(w->sheet()));
  });
  window.menuOf(menu)->addSeparator();
  add("aim.next_aim", QObject::tr("Ne&xt stored aim"), QKeySequence(Qt::Key_A),
      [w] { nextAim(w->workspace()); });
  add("aim.store_aim", QObject::tr("St&ore another aim"), {}, [w] {
    changeAims(w->workspace(), QObject::tr("Store another aim of %1"), true);
  });
  add("aim.drop_aim", QObject::tr("Take this stored aim a&way"), {}, [w] {
    changeAims(w->workspace(), QObject::tr("Take a stored aim of %1 away"), false);
  });
  window.menuOf(menu)->addSeparator();
  add("aim.copy_pattern", QObject::tr("Cop&y the aims to other housings"), {},
      [w] { copyPattern(*w); });
  add("aim.turn_base", QObject::tr("&Turn the base and its imagers ..."), {},
      [w] { turnBase(*w, edit::Aims::turn_along); });
  add("aim.turn_base_alone", QObject::tr("Turn the &base alone ..."), {},
      [w] { turnBase(*w, edit::Aims::stay); });
  window.menuOf(menu)->addSeparator();
  add("aim.swap_model", QObject::tr("S&wap the model ..."), {}, [w] {
    const design::Housing* housing = w->workspace().selectedHousing();
    if (!housing) {
      w->workspace().complain(QObject::tr("Select a housing whose model is to be swapped."));
      return;
    }
    auto* dialog = new SwapDialog(w->workspace(), w->evaluator(), housing->id, w);
    dialog->show();
  });
  add("aim.life_existing", QObject::tr("Mark as &existing"), {}, [w] {
    setLife(w->workspace(), design::Life::existing, QObject::tr("Mark as existing"));
  });
  add("aim.life_new", QObject::tr("Mark as &new"), {},
      [w] { setLife(w->workspace(), design::Life::new_, QObject::tr("Mark as new")); });
  add("aim.life_removed", QObject::tr("Mark as &removed"), {}, [w] {
    setLife(w->workspace(), design::Life::removed, QObject::tr("Mark as removed"));
  });
}

}  // namespace belvedere::desk
