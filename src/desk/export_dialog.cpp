// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/export_dialog.h"

#include <QAction>
#include <QComboBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include <array>

#include "base/problem.h"
#include "desk/main_window.h"
#include "desk/save_file.h"
#include "desk/shown_units.h"
#include "design/resolve.h"
#include "drawing/make_sheet.h"
#include "drawing/sheet_parts.h"
#include "proof/judge.h"
#include "requirements/prove.h"

namespace belvedere::desk {
namespace {

constexpr double kMmPerInch = 25.4;
constexpr std::array<double, 9> kScales{20, 25, 50, 100, 200, 250, 500, 1000, 2000};

QString scaleWords(double scale) {
  return "1:" + QString::fromStdString(drawing::shortNumber(scale));
}

void takeDemands(drawing::Sheet& sheet, const std::vector<requirements::Demand>& demands) {
  for (const requirements::Demand& demand : demands)
    sheet.demands.push_back({demand.requirement, demand.verdict, demand.sentence});
}

}  // namespace

ExportDialog::ExportDialog(MainWindow& window) : QDialog(&window), window_(window) {
  setObjectName("export");
  setWindowTitle(tr("The plan to scale"));
  setMinimumWidth(440);
  worker_.setMaxThreadCount(1);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(18, 16, 18, 14);
  auto* form = new QFormLayout;
  paper_ = new QComboBox;
  paper_->setObjectName("export.paper");
  for (const auto& [name, longer, shorter] : {std::tuple{"A4", 297, 210},
                                              {"A3", 420, 297},
                                              {"A2", 594, 420},
                                              {"A1", 841, 594}})
    paper_->addItem(tr("%1, %2 by %3 mm").arg(name).arg(longer).arg(shorter),
                    QSizeF(longer, shorter));
  paper_->setCurrentIndex(1);
  scale_ = new QComboBox;
  scale_->setObjectName("export.scale");
  scale_->addItem(QString(), 0.0);  // takeScale names it
  for (const double scale : kScales) scale_->addItem(scaleWords(scale), scale);
  what_ = new QComboBox;
  what_->setObjectName("export.what");
  what_->addItem(tr("the whole storey, each zone with its first requirement"), false);
  what_->addItem(tr("the selected requirement, close up"), true);
  form->addRow(tr("&Paper"), paper_);
  form->addRow(tr("&Scale"), scale_);
  form->addRow(tr("Sho&ws"), what_);
  column->addLayout(form);
  says_ = new QLabel;
  says_->setObjectName("export.says");
  says_->setWordWrap(true);
  says_->setForegroundRole(QPalette::Dark);
  column->addWidget(says_);
  progress_ = new QProgressBar;
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(2);
  progress_->setAccessibleName(tr("Progress of the drawing"));
  column->addWidget(progress_);
  column->addStretch();
  auto* row = new QHBoxLayout;
  file_ = new QPushButton(tr("To a &file ..."));
  file_->setObjectName("export.file");
  print_ = new QPushButton(tr("Pr&int ..."));
  print_->setObjectName("export.print");
  stop_ = new QPushButton(tr("S&top"));
  stop_->setObjectName("export.stop");
  auto* close = new QPushButton(tr("Close"));
  close->setObjectName("export.close");
  row->addWidget(file_);
  row->addWidget(print_);
  row->addWidget(stop_);
  row->addStretch();
  row->addWidget(close);
  column->addLayout(row);
  connect(paper_, &QComboBox::currentIndexChanged, this, &ExportDialog::takeScale);
  connect(scale_, &QComboBox::currentIndexChanged, this, &ExportDialog::takeScale);
  connect(what_, &QComboBox::currentIndexChanged, this, &ExportDialog::takeScale);
  connect(file_, &QPushButton::clicked, this, &ExportDialog::askFile);
  connect(print_, &QPushButton::clicked, this, &ExportDialog::askPrinter);
  connect(stop_, &QPushButton::clicked, this, [this] { work_.cancel = true; });
  connect(close, &QPushButton::clicked, this, &QDialog::close);
  work_.report = [this](double share, std::string_view what) {
    const QString words = QString::fromUtf8(what.data(), static_cast<qsizetype>(what.size()));
    QMetaObject::invokeMethod(this, [this, share, words] {
      progress_->setValue(static_cast<int>(1000 * share));
      if (working_) says_->setText(words);
    });
  };
  setWorking(false);
}

ExportDialog::~ExportDialog() {
  work_.cancel = true;
  worker_.waitForDone();
}

void ExportDialog::showEvent(QShowEvent* event) {
  const design::Requirement* selected = design::findRequirement(
      window_.workspace().design(), window_.workspace().requirement());
  const bool can = selected && selected->kind == design::RequirementKind::see;
  if (!can) what_->setCurrentIndex(0);
  what_->setEnabled(can);
  takeScale();
  QDialog::showEvent(event);
}

void ExportDialog::setWorking(bool on) {
  working_ = on;
  for (QWidget* widget : std::initializer_list<QWidget*>{file_, print_, paper_, scale_})
    widget->setEnabled(!on);
  stop_->setVisible(on);
  if (!on) progress_->setValue(0);
}

QSizeF ExportDialog::paperMm() const { return paper_->currentData().toSizeF(); }

bool ExportDialog::isProven() const {
  const auto known = window_.evaluator().now();
  return known->wholly_proven && known->version == window_.workspace().version();
}

drawing::Sheet ExportDialog::sheet() const {
  const Workspace& workspace = window_.workspace();
  drawing::Sheet sheet;
  sheet.design = workspace.shareDesign();
  sheet.storey = workspace.storey();
  sheet.situation = workspace.situation();
  sheet.unit = shownUnit();
  sheet.close_up = what_->currentData().toBool();
  if (sheet.close_up) sheet.selected_requirement = workspace.requirement();
  sheet.asked_scale = scale_->currentData().toDouble();
  if (workspace.isSaved()) sheet.design_sha256 = workspace.file().sha256;
  if (isProven()) {
    const auto known = window_.evaluator().now();
    for (const LedgerRow& row : known->rows) sheet.proof.requirements.push_back(row.proof);
    takeDemands(sheet, known->demands);
  }
  return sheet;
}

void ExportDialog::takeScale() {
  if (window_.workspace().storey().empty()) {
    says_->setText(tr("The design has no storey yet: there is nothing to draw to scale."));
    file_->setEnabled(false);
    print_->setEnabled(false);
    return;
  }
  if (working_) return;
  drawing::Sheet fitting = sheet();
  fitting.imagers = design::posedImagers(fitting.design, design::JudgedOn::captured);
  fitting.asked_scale = 0;
  const QSizeF paper = paperMm();
  const double largest = drawing::scaleOf(fitting, paper.width(), paper.height());
  scale_->setItemText(0, tr("%1, the largest at which all fits").arg(scaleWords(largest)));
  const double asked = scale_->currentData().toDouble();
  says_->setText(asked > 0 && asked < largest
                     ? tr("At %1 the plan is larger than the paper: its middle is drawn.")
                           .arg(scaleWords(asked))
                     : tr("Lengths on the paper are exact where the printer does not fit the page."));
  file_->setEnabled(true);
  print_->setEnabled(true);
}

void ExportDialog::askFile() {
  const Workspace& workspace = window_.workspace();
  std::filesystem::path beside = workspace.path();
  if (!beside.empty()) beside.replace_extension(".pdf");
  const std::filesystem::path path =
      askWhereToWrite(this, tr("The plan to a file"), beside.empty() ? "plan.pdf" : beside,
                      "PDF (*.pdf);;SVG (*.svg);;PNG (*.png)");
  if (!path.empty()) writeTo(path);
}

void ExportDialog::writeTo(const std::filesystem::path& path) {
  const QSizeF paper = paperMm();
  work(
      [path, paper](const drawing::Sheet& sheet) {
        if (path.extension() == ".png") {
          drawing::writePng(sheet, path, 150, paper.width(), paper.height());
        } else if (path.extension() == ".svg") {
          drawing::writeSvg(sheet, path, paper.width(), paper.height());
        } else {
          drawing::writePdf(sheet, path, paper.width(), paper.height());
        }
      },
      tr("Written: %1").arg(QString::fromStdString(path.string())));
}

void ExportDialog::askPrinter() {
  const QSizeF paper = paperMm();
  auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
  printer->setFullPage(true);
  printer->setPageSize(QPageSize(QSizeF(paper.height(), paper.width()), QPageSize::Millimeter, {},
                                 QPageSize::FuzzyMatch));
  printer->setPageOrientation(QPageLayout::Landscape);
  if (QPrintDialog(printer.get(), this).exec() != QDialog::Accepted) return;
  work(
      [printer, paper](const drawing::Sheet& asked) {
        drawing::Sheet sheet = asked;
        sheet.inks.paper = {255, 255, 255};  // the printer has paper of its own
        QPainter painter(printer.get());
        const double per_mm = printer->resolution() / kMmPerInch;
        painter.scale(per_mm, per_mm);
        drawing::paintSheet(painter, sheet, paper.width(), paper.height());
      },
      tr("Printed."));
}

void ExportDialog::work(std::function<void(const drawing::Sheet&)> paint, const QString& made) {
  if (working_ || window_.workspace().storey().empty()) return;
  work_.cancel = false;
  setWorking(true);
  worker_.start([this, paint = std::move(paint), made, sheet = sheet(), proven = isProven(),
                 paper = paperMm(), folder = window_.workspace().folder()]() mutable {
    QString failed;
    bool stopped = false;
    try {
      sheet.imagers = design::posedImagers(sheet.design, design::JudgedOn::captured);
      if (!proven) {
        proof::ProveOptions options;
        options.blind_zones = false;
        requirements::Answer answer =
            requirements::prove(sheet.design, folder, options, partOf(work_, 0, 0.7));
        sheet.proof = std::move(answer.proof);
        takeDemands(sheet, answer.demands);
      }
      const auto place = proof::makePlace(sheet.design, drawing::situationOf(sheet), folder);
      drawing::takeSpots(sheet, place, partOf(work_, proven ? 0 : 0.7, 1), paper.width(),
                         paper.height());
      paint(sheet);
    } catch (const Cancelled&) {
      stopped = true;
    } catch (const InputError& error) {
      failed = QString::fromStdString(error.problems().front().what);
    } catch (const std::exception& error) {  // the file cannot be written
      failed = QString::fromStdString(error.what());
    }
    QMetaObject::invokeMethod(this, [this, made, failed, stopped] {
      setWorking(false);
      takeScale();
      says_->setText(stopped ? tr("Stopped; nothing was written.")
                     : failed.isEmpty() ? made
                                        : tr("Not written: %1").arg(failed));
      Q_EMIT done(!stopped && failed.isEmpty());
    });
  });
}

void makeExportParts(MainWindow& window) {
  auto* dialog = new ExportDialog(window);
  const QString file = MainWindow::tr("&File");
  const auto open = [dialog] {
    dialog->show();
    dialog->raise();
    dialog->activateWindow();
  };
  QAction* plan = window.addCommand(file, "file.export", ExportDialog::tr("Plan to a fil&e ..."),
                                    QKeySequence(ExportDialog::tr("Ctrl+E")), open);
  QAction* print = window.addCommand(file, "file.print", ExportDialog::tr("&Print to scale ..."),
                                     QKeySequence::Print, open);
  QAction* quit = window.command("file.quit");
  for (QAction* action : {plan, print}) {
    window.menuOf(file)->removeAction(action);
    window.menuOf(file)->insertAction(quit, action);
  }
}

}  // namespace belvedere::desk
