// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages of photographs in a window of their own, which can be saved as PNG: what a requirement's worst
// and best spot give of a face, a plate and a chart, at true pixels; a whole housing unrolled, as wide as
// the window. Made
// beside the window by the shown situation's light; follows the design and the situation.
#pragma once

#include <QImage>
#include <QWidget>

#include <filesystem>
#include <memory>
#include <variant>

#include "desk/wish_thread.h"
#include "desk/workspace.h"
#include "drawing/picture_page.h"
#include "picture/develop.h"

class QLabel;
class QProgressBar;
class QPushButton;
class QScrollArea;

namespace belvedere::desk {

// What a page shows: a requirement's spots, or a housing unrolled.
using PageOf = std::variant<design::RequirementId, design::HousingId>;

class PageWindow : public QWidget {
  Q_OBJECT

 public:
  PageWindow(Workspace& workspace, PageOf of, QWidget* parent);
  // The page of the design as it is; null: it is being made, or cannot be.
  std::shared_ptr<const picture::Developed> page() const;
  // What stands below the page: that it is being made, or why there is none.
  QString state() const;
  // Tells of it, or complains.
  void writeTo(const std::filesystem::path& path);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  struct Wish {
    std::shared_ptr<const design::Design> design;
    std::filesystem::path folder;
    quint64 version = 0;
    design::Situation situation;
    PageOf of;
  };
  struct Made {
    quint64 version = 0;
    design::SituationId situation;
    picture::Developed page;      // of no pixels: there is none, and `says` why
    QString says;
    drawing::PngTexts texts;
  };
  void wish();
  void make(const Wish& wish);
  void makePage(const Wish& wish, Made& made);
  void take();
  void showImage();
  bool isAtTruePixels() const { return std::holds_alternative<design::RequirementId>(of_); }
  void askFile();
  bool isCurrent() const;

  Workspace& workspace_;
  const PageOf of_;
  std::shared_ptr<const Made> made_;
  quint64 wished_version_ = 0;
  design::SituationId wished_situation_;
  QImage image_;                  // of the last page that there was
  QScrollArea* scroll_ = nullptr;
  QLabel *picture_ = nullptr, *state_ = nullptr;
  QProgressBar* progress_ = nullptr;
  QPushButton* file_ = nullptr;
  WishThread<Wish> thread_;
};

}  // namespace belvedere::desk
