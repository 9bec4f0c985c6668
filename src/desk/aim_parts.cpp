// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/aim_parts.h"

#include <QAction>
#include <QInputDialog>
#include <QVBoxLayout>

#include <algorithm>

#include "base/problem.h"
#include "desk/aim_fields.h"
#include "desk/aim_menu.h"
#include "desk/housing_prints.h"
#include "desk/main_window.h"
#include "desk/orbit_view.h"
#include "desk/outline_handles.h"
#include "desk/page_window.h"
#include "desk/prints.h"
#include "desk/room_sentences.h"
#include "desk/section_overlay.h"
#include "desk/shown_units.h"
#include "edit/lengths.h"

namespace belvedere::desk {
namespace {

// How tall somebody is who stands where a spot was marked in a print.
void askFigure(MainWindow& window, Prints& prints) {
  bool good = false;
  const QString typed = QInputDialog::getText(
      &window, MainWindow::tr("Who stands at a mark"), MainWindow::tr("Height, with its unit:"),
      QLineEdit::Normal, QString::fromStdString(edit::lengthText(prints.figureM(), shownUnits())), &good);
  if (!good) return;
  try {
    const double height_m = edit::lengthFrom(typed.toStdString(), shownUnits());
    const double stands_m = std::clamp(height_m, Prints::kLeastFigureM, Prints::kMostFigureM);
    prints.setFigureM(stands_m);
    window.workspace().tell(
        MainWindow::tr("Who stands at a mark is %1 tall. Click in a print to put somebody there.")
            .arg(QString::fromStdString(edit::lengthText(stands_m, shownUnits()))));
  } catch (const InputError& error) {
    window.workspace().complain(roomSentence(error.problems().front().what));
  }
}

// Overlays of the sheet, gone with it.
class AimParts : public QObject {
 public:
  explicit AimParts(MainWindow& window) : QObject(&window.sheet()), outline_(window.sheet()) {
    window.besideBrief()->addWidget(new AimFields(window.workspace()));
    const QString menu = tr("&Aim");
    auto* section = new SectionOverlay(window.sheet());
    section->setObjectName("section");
    QAction* shown = window.addCommand(menu, "aim.section", tr("&Folded section"),
                                       QKeySequence(Qt::Key_F6), [] {});
    shown->setCheckable(true);
    shown->setChecked(section->isShown());
    connect(shown, &QAction::toggled, section, &SectionOverlay::setShown);
    window.addCommand(menu, "aim.section_flip", tr("Section on the &other side"),
                      QKeySequence(Qt::Key_F), [section] { section->flip(); });
    auto* prints = new Prints(window.sheet(), *section);
    prints->setObjectName("prints");
    QAction* print = window.addCommand(menu, "aim.print", tr("&Print of what is selected"),
                                       QKeySequence(Qt::Key_F7), [] {});
    print->setCheckable(true);
    print->setChecked(prints->showsSelected());
    connect(print, &QAction::toggled, prints, &Prints::setShowsSelected);
    QAction* lit = window.addCommand(menu, "aim.lit_prints", tr("Prints by the situation's &light"),
                                     QKeySequence(Qt::CTRL | Qt::Key_L), [] {});
    lit->setCheckable(true);
    lit->setChecked(prints->isLit());
    connect(lit, &QAction::toggled, prints, &Prints::setLit);
    window.addCommand(menu, "aim.pin_print", tr("P&in its print, or let it go"),
                      QKeySequence(Qt::SHIFT | Qt::Key_F7), [prints] { prints->togglePinned(); });
    window.addCommand(menu, "aim.all_prints", tr("&All prints of the housing"),
                      QKeySequence(Qt::CTRL | Qt::Key_F7), [&window, prints] {
                        const design::Housing* housing = window.workspace().selectedHousing();
                        if (!housing) {
                          window.workspace().complain(tr(
                              "Select a housing first: its prints come in the order of its ring."));
                          return;
                        }
                        (new HousingPrints(window.sheet(), housing->id, prints->isLit(), &window))
                            ->show();
                      });
    window.addCommand(menu, "aim.unrolled", tr("The housing &unrolled"), {}, [&window] {
      const design::Housing* housing = window.workspace().selectedHousing();
      if (!housing) {
        window.workspace().complain(tr("Select a housing first: its imagers come as one picture."));
        return;
      }
      (new PageWindow(window.workspace(), housing->id, &window))->show();
    });
    window.addCommand(menu, "aim.figure", tr("Hei&ght of who stands at a mark ..."), {},
                      [&window, prints] { askFigure(window, *prints); });
    addAimMenu(window);
    window.addCommand(tr("&View"), "view.orbit", tr("From &outside (3-D)"),
                      QKeySequence(Qt::Key_F8), [this, &window] {
                        if (!orbit_) orbit_ = new OrbitView(window.sheet(), &window);
                        orbit_->show();
                        orbit_->raise();
                        orbit_->activateWindow();
                        orbit_->showAll();
                      });
  }

 private:
  OrbitView* orbit_ = nullptr;  // once asked for; a child of the window
  OutlineHandles outline_;
};

}  // namespace

void makeAimParts(MainWindow& window) { new AimParts(window); }

}  // namespace belvedere::desk
