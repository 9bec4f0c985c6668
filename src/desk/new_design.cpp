// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/new_design.h"

#include <QAction>
#include <QFileDialog>
#include <QMenu>

#include <string_view>

#include "base/problem.h"
#include "desk/main_window.h"
#include "design/read.h"

namespace belvedere::desk {
namespace {

// Invented: no maker of that name is known to us, and the figures are ordinary.
constexpr std::string_view kDemoCatalogue = R"json({
  "format": "belvedere.catalogue",
  "version": 1,
  "models": [
    {
      "id": "demo-dome",
      "title": "Dome, one imager, 105 to 31 degrees",
      "maker": "Quillmere",
      "kind": "housing",
      "power": {"idle_w": 9, "feeds": [{"kind": "poe", "poe_class": 3}]},
      "imagers": [
        {
          "slot": 1,
          "pixels": [3840, 2160],
          "lens": {"family": "rectilinear", "hfov_deg": [105, 31], "f_number": [1.6]},
          "least_light": {"lux": 0.05, "f_number": 1.6, "exposure_s": 0.04, "contrast": 0.3},
          "pan_deg": [-180, 180],
          "tilt_deg": [0, 90],
          "roll_deg": [-180, 180]
        }
      ]
    },
    {
      "id": "demo-fixed",
      "title": "Fixed, one imager, 60 degrees",
      "maker": "Quillmere",
      "kind": "housing",
      "power": {"idle_w": 7, "feeds": [{"kind": "poe", "poe_class": 2}]},
      "imagers": [
        {
          "slot": 1,
          "pixels": [2560, 1440],
          "lens": {"family": "rectilinear", "hfov_deg": [60], "f_number": [1.8]},
          "least_light": {"lux": 0.1, "f_number": 1.8, "exposure_s": 0.04, "contrast": 0.3},
          "pan_deg": [-180, 180],
          "tilt_deg": [-30, 90],
          "roll_deg": [-90, 90]
        }
      ]
    },
    {
      "id": "demo-ring",
      "title": "Ring, four imagers, each 95 to 31 degrees",
      "maker": "Quillmere",
      "kind": "housing",
      "power": {"idle_w": 22, "feeds": [{"kind": "poe", "poe_class": 6}]},
      "imagers": [
        {"slot": 1, "pixels": [2592, 1944],
          "lens": {"family": "rectilinear", "hfov_deg": [95, 31], "f_number": [1.6]},
          "pan_deg": [-180, 180], "tilt_deg": [-15, 90], "roll_deg": [-180, 180]},
        {"slot": 2, "pixels": [2592, 1944],
          "lens": {"family": "rectilinear", "hfov_deg": [95, 31], "f_number": [1.6]},
          "pan_deg": [-180, 180], "tilt_deg": [-15, 90], "roll_deg": [-180, 180]},
        {"slot": 3, "pixels": [2592, 1944],
          "lens": {"family": "rectilinear", "hfov_deg": [95, 31], "f_number": [1.6]},
          "pan_deg": [-180, 180], "tilt_deg": [-15, 90], "roll_deg": [-180, 180]},
        {"slot": 4, "pixels": [2592, 1944],
          "lens": {"family": "rectilinear", "hfov_deg": [95, 31], "f_number": [1.6]},
          "pan_deg": [-180, 180], "tilt_deg": [-15, 90], "roll_deg": [-180, 180]}
      ],
      "shared": [{"what": "ring", "rule": "apart_deg", "value": 30}]
    }
  ]
}
)json";

}  // namespace

design::Design newDesign() {
  design::Design design;
  design.catalogue.models = design::readCatalogueText(kDemoCatalogue);
  return design;
}

void addNewDesign(MainWindow& window) {
  QAction* command =
      window.addCommand(QObject::tr("&File"), "file.new", QObject::tr("&New"), QKeySequence::New,
                        [&window] {
                          if (window.maySave()) window.workspace().start(newDesign());
                        });
  QAction* models = window.addCommand(
      QObject::tr("&File"), "file.models", QObject::tr("&Models from a catalogue ..."), {},
      [&window] {
        const QString path = QFileDialog::getOpenFileName(
            &window, QObject::tr("Models from a catalogue"), {},
            QObject::tr("Catalogues (*.json);;All files (*)"));
        if (!path.isEmpty()) takeModels(window, path.toStdString());
      });
  QMenu* menu = window.menuOf(QObject::tr("&File"));
  menu->removeAction(command);
  menu->insertAction(menu->actions().front(), command);
  menu->removeAction(models);
  menu->insertAction(window.command("file.quit"), models);
}

void takeModels(MainWindow& window, const std::filesystem::path& path) {
  Workspace& workspace = window.workspace();
  try {
    design::Design next = workspace.design();
    int taken = 0, there = 0;
    for (design::Model& model : design::readCatalogue(path)) {
      if (design::findModel(next, model.id)) {
        ++there;
        continue;
      }
      next.catalogue.models.push_back(std::move(model));
      ++taken;
    }
    const QString name = QString::fromStdString(path.filename().string());
    if (taken > 0) workspace.apply(QObject::tr("Take models from %1").arg(name), std::move(next));
    workspace.tell(
        QObject::tr("%n models taken from %1; %2 were there already.", nullptr, taken)
            .arg(name)
            .arg(there));
  } catch (const InputError& error) {
    window.showProblems(QObject::tr("No model was taken."), error);
  }
}

}  // namespace belvedere::desk
