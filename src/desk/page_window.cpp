// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/page_window.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <algorithm>
#include <system_error>
#include <utility>

#include "base/problem.h"
#include "desk/picture_maker.h"
#include "desk/requirement_words.h"
#include "desk/save_file.h"
#include "drawing/requirement_page.h"
#include "picture/unroll.h"

namespace belvedere::desk {
namespace {

QString text(const std::string& words) { return QString::fromStdString(words); }

const std::string& idOf(const PageOf& of) {
  const auto* requirement = std::get_if<design::RequirementId>(&of);
  return requirement ? requirement->text : std::get<design::HousingId>(of).text;
}

// Whether what a page is of is still there.
bool isThere(const design::Design& design, const PageOf& of) {
  const auto* requirement = std::get_if<design::RequirementId>(&of);
  return requirement ? design::findRequirement(design, *requirement) != nullptr
                     : design::findHousing(design, std::get<design::HousingId>(of)) != nullptr;
}

}  // namespace

PageWindow::PageWindow(Workspace& workspace, PageOf of, QWidget* parent)
    : QWidget(parent, Qt::Window), workspace_(workspace), of_(std::move(of)),
      thread_([this](const Wish& wish) { make(wish); }) {
  setAttribute(Qt::WA_DeleteOnClose);
  setObjectName("page");
  resize(1000, 640);
  setWindowTitle((isAtTruePixels() ? tr("Faces, plates and charts of %1") : tr("%1 unrolled")).arg(text(idOf(of_))));
  auto* column = new QVBoxLayout(this);
  picture_ = new QLabel;
  picture_->setObjectName("page.picture");
  picture_->setAccessibleName(windowTitle());
  picture_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  scroll_ = new QScrollArea;
  scroll_->setWidget(picture_);
  scroll_->setWidgetResizable(true);
  scroll_->setFrameShape(QFrame::NoFrame);
  column->addWidget(scroll_, 1);
  progress_ = new QProgressBar;
  progress_->setRange(0, 1000);
  progress_->setTextVisible(false);
  progress_->setFixedHeight(2);
  progress_->setAccessibleName(tr("Progress of the page"));
  column->addWidget(progress_);
  auto* row = new QHBoxLayout;
  state_ = new QLabel;
  state_->setObjectName("page.state");
  state_->setWordWrap(true);
  row->addWidget(state_, 1);
  file_ = new QPushButton(tr("&Save as PNG ..."));
  file_->setObjectName("page.file");
  row->addWidget(file_);
  column->addLayout(row);
  connect(file_, &QPushButton::clicked, this, &PageWindow::askFile);
  thread_.progress.report = [this](double share, std::string_view) {
    inWindowOf(this, [this, share] { progress_->setValue(static_cast<int>(1000 * share)); });
  };
  for (const auto signal : {&Workspace::designChanged, &Workspace::draggingChanged, &Workspace::viewChanged})
    connect(&workspace_, signal, this, &PageWindow::wish);
  connect(&workspace_, &Workspace::opened, this, &QWidget::close);
  wish();
}

void PageWindow::wish() {
  if (workspace_.isDragging()) return;
  if (!isThere(workspace_.design(), of_)) {
    close();
    return;
  }
  const design::Situation situation = workspace_.shownSituation();
  if (wished_version_ == workspace_.version() && wished_situation_ == situation.id) return;
  wished_version_ = workspace_.version();
  wished_situation_ = situation.id;
  progress_->setValue(0);
  thread_.wish({workspace_.shareDesign(), workspace_.folder(), workspace_.version(), situation, of_});
  take();
}

void PageWindow::make(const Wish& wish) {
  auto made = std::make_shared<Made>();
  made->version = wish.version;
  made->situation = wish.situation.id;
  try {
    makePage(wish, *made);
  } catch (const InputError& error) {
    made->says = text(error.problems().front().what);
  }
  inWindowOf(this, [this, made = std::shared_ptr<const Made>(std::move(made))] {
    made_ = made;
    take();
  });
}

void PageWindow::makePage(const Wish& wish, Made& made) {
  constexpr double kMostMegapixels = 200;  // of a panorama
  const std::shared_ptr<const LitScene> lit = litScene(wish.design, wish.situation, wish.folder);
  thread_.progress.throwIfCancelled();
  const auto options = [&](const design::PosedImager&) {
    picture::PhotoOptions of;
    of.lighting = lit->studio.lighting();
    return of;
  };
  made.texts = {{"Title", wish.design->title},
                {"Software", "Belvedere"},
                {"Situation", wish.situation.id.text},
                {"Note", tr("Computed picture. Geometry and pixels follow the design; tones of surfaces and "
                            "daylight are plausible, not measured. An aid: walk-test before sign-off.")
                             .toStdString()}};
  if (const auto* id = std::get_if<design::RequirementId>(&wish.of)) {
    const design::Requirement* requirement = design::findRequirement(lit->studio.design(), *id);
    const drawing::PicturePage page = drawing::requirementPage(
        {lit->studio, wish.folder, options, thread_.progress}, *requirement);
    if (page.rows.empty()) {
      made.says = tr("Nothing of the zone of %1 is left to stand on.").arg(text(id->text));
      return;
    }
    made.texts.emplace_back("Requirement", id->text);
    made.page = drawing::paintPage(page);
    return;
  }
  const design::HousingId& housing = std::get<design::HousingId>(wish.of);
  const std::vector<design::PosedImager> imagers =
      design::posedImagers(*wish.design, design::JudgedOn::captured);
  const auto ring = picture::ringOf(housing, imagers);
  if (ring.empty()) {
    made.says = tr("%1 has no imager that looks anywhere.").arg(text(housing.text));
    return;
  }
  const picture::Panorama panorama = picture::panoramaOf(ring);
  if (1e-6 * panorama.size()[0] * panorama.size()[1] > kMostMegapixels) {
    made.says = tr("%1 unrolled is too large a picture.").arg(text(housing.text));
    return;
  }
  made.texts.emplace_back("Camera, unrolled", housing.text);
  made.page = picture::shootUnrolled(lit->studio, panorama, ring, options, {}, thread_.progress);
}

bool PageWindow::isCurrent() const {
  return made_ && made_->version == workspace_.version() &&
         made_->situation == workspace_.shownSituation().id;
}

std::shared_ptr<const picture::Developed> PageWindow::page() const {
  if (!isCurrent() || made_->page.width == 0) return nullptr;
  return {made_, &made_->page};
}

QString PageWindow::state() const { return state_->text(); }

void PageWindow::take() {
  const bool current = isCurrent();
  if (current) {
    const picture::Developed& page = made_->page;
    if (page.width > 0) {
      // The page's own bytes stay with it: a copy.
      const QImage image(reinterpret_cast<const uchar*>(page.argb.data()), page.width, page.height,
                         page.width * static_cast<qsizetype>(sizeof(std::uint32_t)), QImage::Format_RGB32);
      image_ = image.copy();
    } else {
      image_ = {};
    }
    showImage();
    progress_->setValue(0);
  }
  const QString where = situationTitle(workspace_.design(), workspace_.shownSituation().id);
  state_->setText(!current                  ? tr("%1: being photographed.").arg(where)
                  : !made_->says.isEmpty()  ? made_->says
                  : !isAtTruePixels()       ? where
                                            : tr("%1. One pixel of the page is one of the screen.").arg(where));
  file_->setEnabled(page() != nullptr);
}

// One of its pixels is one of the screen's, or it is as wide as there is room.
void PageWindow::showImage() {
  if (image_.isNull()) {
    picture_->clear();
    return;
  }
  const double ratio = devicePixelRatioF();
  const int wide = static_cast<int>(scroll_->viewport()->width() * ratio);
  QPixmap pixmap = QPixmap::fromImage(
      isAtTruePixels() || wide >= image_.width() ? image_ : image_.scaledToWidth(std::max(wide, 1), Qt::SmoothTransformation));
  pixmap.setDevicePixelRatio(ratio);
  picture_->setPixmap(pixmap);
}

void PageWindow::resizeEvent(QResizeEvent* event) {
  QWidget::resizeEvent(event);
  if (!isAtTruePixels()) showImage();
}

void PageWindow::askFile() {
  std::filesystem::path beside = workspace_.path();
  const std::string name = "pictures-" + idOf(of_) + ".png";
  if (beside.empty()) beside = name;
  else beside.replace_filename(name);
  const std::filesystem::path path =
      askWhereToWrite(this, tr("Save the page"), beside, tr("Pictures (*.png)"));
  if (!path.empty()) writeTo(path);
}

void PageWindow::writeTo(const std::filesystem::path& path) {
  const auto shown = page();
  if (!shown) return;
  try {
    drawing::writePng(*shown, made_->texts, path);
    workspace_.tell(tr("Written: %1").arg(QString::fromStdString(path.string())));
    state_->setText(tr("Written: %1").arg(QString::fromStdString(path.string())));
  } catch (const std::system_error& error) {
    workspace_.complain(tr("Not written: %1").arg(QString::fromStdString(error.what())));
    state_->setText(tr("Not written: %1").arg(QString::fromStdString(error.what())));
  }
}

}  // namespace belvedere::desk
