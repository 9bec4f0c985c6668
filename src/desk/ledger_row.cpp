// SPDX-License-Identifier: GPL-3.0-or-later
//
// One row of the ledger: painted by itself; what it opens to are widgets.
#include <QKeyEvent>
#include <QLabel>
#include <QMouseEvent>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

#include "desk/colours.h"
#include "desk/ledger_rank.h"
#include "desk/ledger_view.h"
#include "desk/requirement_words.h"
#include "desk/room_sentences.h"
#include "desk/room_words.h"
#include "desk/sentence_button.h"
#include "desk/shown_units.h"
#include "drawing/sheet_parts.h"

namespace belvedere::desk {
namespace {

constexpr int kTop = 8, kPad = 14, kMark = 12, kIndent = 36, kBarHigh = 7, kGap = 4;
constexpr int kWrapped = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;
constexpr double kTellingShare = 0.0005;  // reasons below that are not listed

QString percent(double share) { return QString::number(100 * share, 'f', 1); }

bool alike(const LedgerRow& a, const LedgerRow& b) {
  return a.known == b.known && a.version == b.version && a.proof.verdict == b.proof.verdict &&
         a.proof.share == b.proof.share && a.proof.densest_px_per_m == b.proof.densest_px_per_m;
}

// Whether nothing that a row shows is different.
bool shownAlike(const LedgerRow& a, const LedgerRow& b) {
  const proof::RequirementProof &p = a.proof, &q = b.proof;
  const auto sameReason = [](const proof::ReasonShare& r, const proof::ReasonShare& s) {
    return r.reason == s.reason && r.share == s.share;
  };
  const auto samePart = [](const proof::Contribution& c, const proof::Contribution& d) {
    return c.imager == d.imager && c.serves == d.serves;
  };
  return alike(a, b) && p.situation == q.situation && p.without == q.without &&
         p.kind == q.kind && p.asked == q.asked && p.needed_px_per_m == q.needed_px_per_m &&
         p.undecided_because == q.undecided_because && p.worst.has_value() == q.worst.has_value() &&
         (!p.worst || (p.worst->at == q.worst->at && p.worst->reason == q.worst->reason)) &&
         std::equal(p.reasons.begin(), p.reasons.end(), q.reasons.begin(), q.reasons.end(),
                    sameReason) &&
         std::equal(p.imagers.begin(), p.imagers.end(), q.imagers.begin(), q.imagers.end(),
                    samePart);
}

// Rules and money have no share of a zone.
bool hasShare(const design::Requirement& requirement) {
  return requirement.kind == design::RequirementKind::see ||
         requirement.kind == design::RequirementKind::withhold;
}
bool sameDemands(const std::vector<requirements::Demand>& a,
                 const std::vector<requirements::Demand>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const requirements::Demand& x, const requirements::Demand& y) {
                      return x.verdict == y.verdict && x.sentence == y.sentence;
                    });
}

}  // namespace

LedgerRowView::LedgerRowView(Workspace& workspace, design::RequirementId requirement,
                             QWidget* parent)
    : QWidget(parent), workspace_(workspace), requirement_(std::move(requirement)) {
  setFocusPolicy(Qt::StrongFocus);
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

bool LedgerRowView::isSelected() const { return workspace_.requirement() == requirement_; }

QString LedgerRowView::words(const LedgerRow& row) const {
  if (row.known == Known::nothing)
    return row.proof.kind == design::RequirementKind::see ? tr("being looked at")
                                                          : tr("not proven yet");
  if (row.version != version_) return tr("changed since: being looked at");
  if (row.known == Known::preview)
    return tr("preview: %1 % of %2")
        .arg(percent(row.proof.share.low), QString::number(100 * row.proof.asked, 'g', 4));
  return QString::fromStdString(drawing::verdictWords(row.proof, shownUnit()));
}

QStringList LedgerRowView::demandLines() const {
  QStringList lines;
  // A row keeps its lines while a hand drags: nothing below it jumps.
  const bool before = demands_version_ != version_;
  for (const requirements::Demand& demand : demands_)
    lines += before ? tr("was %1").arg(demandWords(demand)) : demandWords(demand);
  const design::Requirement* requirement =
      design::findRequirement(workspace_.design(), requirement_);
  if (lines.empty() && requirement && !hasShare(*requirement)) lines += tr("not proven yet");
  return lines;
}

void LedgerRowView::setRows(std::vector<LedgerRow> rows, std::vector<requirements::Demand> demands,
                            quint64 demands_version, quint64 version) {
  const bool same = version_ == version && demands_version_ == demands_version && sameDemands(demands, demands_) &&
                    rows_.size() == rows.size() &&
                    std::equal(rows.begin(), rows.end(), rows_.begin(), shownAlike);
  const bool details_stand = !open_ || workspace_.isDragging() || details_version_ == version;
  if (same && !rows_.empty() && details_stand) return;
  rows_ = std::move(rows);
  demands_ = std::move(demands);
  demands_version_ = demands_version;
  version_ = version;
  if (open_ && !workspace_.isDragging()) fillDetails();
  layOut();
  update();
}

void LedgerRowView::setOpen(bool open) {
  open_ = open;
  if (!open) {
    dropDetails();
  } else {
    fillDetails();
  }
  layOut();
  update();
}

void LedgerRowView::setRemedies(const proof::SpotExplanation& spot, quint64 version) {
  remedies_ = spot;
  remedies_version_ = version;
  if (open_) fillDetails();
  layOut();
}

QString LedgerRowView::titleWords() const {
  const design::Design& design = workspace_.design();
  const design::Requirement* requirement = design::findRequirement(design, requirement_);
  if (!requirement) return {};
  const design::Zone* zone = design::findZone(design, requirement->zone);
  QString title = QString::fromStdString(requirement_.text) + "  ";
  if (zone) title += QString::fromStdString(zone->title.empty() ? zone->id.text : zone->title) + ", ";
  if (!requirement->task.empty() && (hasShare(*requirement) || requirement->purpose.empty()))
    return title + roomWord(requirement->task);
  return title + QString::fromStdString(!hasShare(*requirement) && !requirement->purpose.empty()
                                            ? requirement->purpose
                                            : drawing::asksFor(design, *requirement, shownUnit()));
}

QString LedgerRowView::wordsUnder(const Bar& bar) const {
  return words(*bar.row) + (bar.title.isEmpty() ? QString() : ", " + bar.title);
}

void LedgerRowView::layOut() {
  bars_.clear();
  std::vector<const LedgerRow*> standing;
  for (const LedgerRow& row : rows_)
    if (row.proof.without.empty()) standing.push_back(&row);
  const bool all_alike =
      std::all_of(standing.begin(), standing.end(),
                  [&](const LedgerRow* row) { return alike(*row, *standing.front()); });
  const int wide = std::max(60, width() - kIndent - kPad);
  // Where the words stand, so many lines as they take.
  const auto placed = [&](const QFont& face, const QString& words, int top) {
    const QFontMetrics metrics(face);
    // Mostly, and quickly found; what just fits may be broken all the same when it is painted.
    const bool on_one = metrics.horizontalAdvance(words) + 2 <= wide;
    return QRect(kIndent, top, wide,
                 on_one ? metrics.height()
                        : metrics.boundingRect(QRect(0, 0, wide, 10'000), kWrapped, words).height());
  };
  QFont bold = font();
  bold.setBold(isSelected());
  title_ = placed(bold, titleWords(), kTop);
  int y = title_.bottom() + 1 + kGap;
  const auto add = [&](const LedgerRow& row, const QString& title) {
    Bar bar{&row, title, QRect(kIndent, y, wide, kBarHigh), {}};
    bar.words = placed(font(), wordsUnder(bar), bar.area.bottom() + 1 + kGap);
    y = bar.words.bottom() + 1 + kGap;
    bars_.push_back(std::move(bar));
  };
  if (!standing.empty() && all_alike) {
    // Which situations they are need not be said of what is asked for in all of them.
    QStringList titles;
    if (standing.size() < design::situationsOf(workspace_.design()).size())
      for (const LedgerRow* row : standing)
        titles << situationTitle(workspace_.design(), row->proof.situation);
    add(*standing.front(), titles.join(", "));
  } else {
    for (const LedgerRow* row : standing)
      add(*row, situationTitle(workspace_.design(), row->proof.situation));
  }
  if (open_)
    for (const LedgerRow& row : rows_)
      if (!row.proof.without.empty())
        add(row, tr("without %1").arg(QString::fromStdString(row.proof.without)));
  demand_lines_.clear();
  const QStringList lines = demandLines();
  for (qsizetype i = 0; i < lines.size(); ++i) {
    QRect where = placed(font(), lines[i], y);
    // As high as the longer of what it says and what it will say once a hand drags.
    if (i < static_cast<qsizetype>(demands_.size()))
      where = where.united(placed(
          font(), tr("was %1").arg(demandWords(demands_[static_cast<std::size_t>(i)])), y));
    demand_lines_.emplace_back(lines[i], where);
    y = where.bottom() + 1 + kGap;
  }
  if (details_) {
    details_->setGeometry(kIndent, y, wide, details_->heightForWidth(wide));
    y += details_->height() + kGap;
  }
  if (minimumHeight() != y + 4) setFixedHeight(y + 4);
  QString spoken;
  if (const design::Requirement* requirement =
          design::findRequirement(workspace_.design(), requirement_))
    spoken = QString::fromStdString(requirement_.text + ": " +
                                    drawing::asksFor(workspace_.design(), *requirement,
                                                     shownUnit()));
  for (const Bar& bar : bars_) spoken += "; " + wordsUnder(bar);
  for (const auto& [line, where] : demand_lines_) spoken += "; " + line;
  setAccessibleName(spoken);
  setToolTip(spoken);
}

// A button in it may be the one that was just pressed.
void LedgerRowView::dropDetails() {
  if (!details_) return;
  details_->hide();
  details_->deleteLater();
  details_ = nullptr;
}

void LedgerRowView::fillDetails() {
  dropDetails();
  details_version_ = version_;
  details_ = new QWidget(this);
  auto* column = new QVBoxLayout(details_);
  column->setContentsMargins(0, 2, 0, 4);
  column->setSpacing(3);
  const LedgerRow* shown = nullptr;
  for (const LedgerRow& row : rows_)
    if (row.proof.without.empty() &&
        (!shown || row.proof.situation == workspace_.situation()))
      shown = &row;
  const auto line = [&](const QString& words, bool quiet) {
    auto* label = new QLabel(words, details_);
    label->setWordWrap(true);
    if (quiet) label->setForegroundRole(QPalette::Dark);
    column->addWidget(label);
    return label;
  };
  if (shown) {
    for (const proof::ReasonShare& part : shown->proof.reasons)
      if (part.reason != proof::Reason::served && part.share >= kTellingShare)
        line(tr("%1  %2 %").arg(QString::fromStdString(drawing::phrase(part.reason)),
                                percent(part.share)),
             false);
    if (shown->proof.worst && rank(workspace_.design(), *shown) > 0) {
      const Vec2 at = shown->proof.worst->at.xy();
      auto* button = new SentenceButton(tr("Show the worst spot"), details_);
      connect(button, &QPushButton::clicked, this, [this, at] { Q_EMIT showSpot(at); });
      column->addWidget(button);
    }
    // Who serves it, the most first.
    std::vector<proof::Contribution> parts = shown->proof.imagers;
    std::stable_sort(parts.begin(), parts.end(),
                     [](const auto& a, const auto& b) { return a.serves > b.serves; });
    QStringList who;
    for (const proof::Contribution& part : parts)
      if (part.serves >= kTellingShare)
        who << tr("%1 %2 %").arg(QString::fromStdString(part.imager), percent(part.serves))
                   .replace(' ', QChar::Nbsp);
    if (!who.isEmpty()) line(tr("served by %1").arg(who.join(", ")), true);
  }
  if (remedies_ && remedies_version_ == version_ && remedies_->changes.empty())
    line(tr("No single change of aim, zoom, height, place or model mends the worst spot."), true);
  if (remedies_ && remedies_version_ == version_ && !remedies_->changes.empty()) {
    line(tr("Would mend the worst spot:"), true);
    for (const proof::Change& change : remedies_->changes) {
      auto* button = new SentenceButton(roomSentence(change.sentence), details_);
      connect(button, &QPushButton::clicked, this, [this, change] {
        workspace_.apply(roomSentence(change.sentence),
                         proof::withChange(workspace_.design(), change));
      });
      column->addWidget(button);
    }
  }
  details_->show();
}

void LedgerRowView::paintEvent(QPaintEvent*) {
  const drawing::Inks inks = inksOf(palette());
  if (!design::findRequirement(workspace_.design(), requirement_)) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QColor ink = colourOf(isSelected() ? inks.accent : inks.ink);
  if (hasFocus()) {
    painter.setPen(QPen(colourOf(inks.accent), 1, Qt::DotLine));
    painter.drawRect(rect().adjusted(2, 1, -3, -2));
  }

  int worst = 0;
  for (const Bar& bar : bars_) worst = std::max(worst, rank(workspace_.design(), *bar.row));
  const bool demands_known = !demands_.empty() && demands_version_ == version_;
  if (demands_known)
    for (const requirements::Demand& demand : demands_)
      worst = std::max(worst, badness(demand.verdict));
  const bool known = !bars_.empty() || demands_known;
  const QRectF mark(kPad, kTop + 0.5 * (QFontMetrics(font()).height() - kMark), kMark, kMark);
  painter.setPen(QPen(ink, 1.3));
  painter.setBrush(worst == 0 && known ? QBrush(ink) : QBrush(Qt::NoBrush));
  painter.drawEllipse(mark.adjusted(0.7, 0.7, -0.7, -0.7));
  if (worst == 1) {
    painter.setBrush(ink);
    painter.drawPie(mark.adjusted(0.7, 0.7, -0.7, -0.7), 90 * 16, 180 * 16);
  }

  QFont bold = font();
  bold.setBold(isSelected());
  painter.setFont(bold);
  painter.setPen(ink);
  painter.drawText(title_, kWrapped, titleWords());
  painter.setFont(font());
  for (const Bar& bar : bars_) paintBar(painter, bar);
  painter.setPen(colourOf(demands_known ? inks.ink : inks.quiet));
  for (const auto& [line, where] : demand_lines_) painter.drawText(where, kWrapped, line);
}

void LedgerRowView::paintBar(QPainter& painter, const Bar& bar) const {
  const drawing::Inks inks = inksOf(palette());
  const LedgerRow& row = *bar.row;
  double low = row.proof.share.low, high = row.proof.share.high, tick = row.proof.asked;
  if (row.proof.kind == design::RequirementKind::withhold) {
    const double full = 1.5 * row.proof.needed_px_per_m;  // the limit at two thirds of the bar
    const proof::Bounds densest = row.proof.densest_px_per_m.value_or(proof::Bounds{});
    low = full > 0 ? densest.low / full : 0;
    high = full > 0 ? densest.high / full : 0;
    tick = 1 / 1.5;
  }
  const auto x = [&](double share) {
    return bar.area.left() + bar.area.width() * std::clamp(share, 0.0, 1.0);
  };
  const QRectF area(bar.area);
  painter.fillRect(area, colourOf(inks.rules));
  const bool proven = row.known == Known::proven && row.version == version_;
  if (row.known != Known::nothing) {
    QColor served = colourOf(inks.wash[3]);
    if (!proven) served = colourOf(inks.wash[1]);  // a preview is pale, and says so
    painter.fillRect(QRectF(area.left(), area.top(), x(low) - area.left(), area.height()), served);
    if (high > low)
      painter.fillRect(QRectF(x(low), area.top(), x(high) - x(low), area.height()),
                       colourOf(inks.wash[1]));
  }
  painter.setPen(QPen(colourOf(inks.ink), 1.5));
  painter.drawLine(QPointF(x(tick), area.top() - 3), QPointF(x(tick), area.bottom() + 3));
  painter.setPen(colourOf(proven ? inks.ink : inks.quiet));
  painter.drawText(bar.words, kWrapped, wordsUnder(bar));
}

void LedgerRowView::mousePressEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton)
    workspace_.selectRequirement(isSelected() ? design::RequirementId{} : requirement_);
}

void LedgerRowView::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter ||
      event->key() == Qt::Key_Space) {
    workspace_.selectRequirement(isSelected() ? design::RequirementId{} : requirement_);
  } else if (event->key() == Qt::Key_Down) {
    focusNextChild();
  } else if (event->key() == Qt::Key_Up) {
    focusPreviousChild();
  } else {
    QWidget::keyPressEvent(event);
  }
}

void LedgerRowView::focusInEvent(QFocusEvent* event) {
  update();
  QWidget::focusInEvent(event);
}

void LedgerRowView::resizeEvent(QResizeEvent* event) {
  if (event->size().width() != event->oldSize().width()) layOut();
}

void LedgerRowView::changeEvent(QEvent* event) {
  if (event->type() == QEvent::FontChange) layOut();
  QWidget::changeEvent(event);
}

}  // namespace belvedere::desk
