// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/objects_model.h"

#include <algorithm>
#include <set>

#include "base/problem.h"
#include "desk/room_words.h"
#include "desk/shown_units.h"
#include "drawing/sheet_parts.h"
#include "edit/rename.h"

namespace belvedere::desk {
namespace {

QString percent(double share) {
  return QString::fromStdString(drawing::shortNumber(100 * share)) + " %";
}

// "C1.2" of housing C1, slot 2; of points in a housing with several, "C1.p.2" and the like too.
bool isOf(const std::string& imager, const edit::ObjectRef& ref) {
  if (imager.size() <= ref.id.size() + 1 || imager.compare(0, ref.id.size(), ref.id) != 0 ||
      imager[ref.id.size()] != '.')
    return false;
  return ref.slot == 0 || imager.substr(imager.rfind('.') + 1) == std::to_string(ref.slot);
}

}  // namespace

ObjectsModel::ObjectsModel(Workspace& workspace, Evaluator& evaluator, QObject* parent)
    : QAbstractTableModel(parent), workspace_(workspace), evaluator_(evaluator) {
  connect(&workspace_, &QObject::destroyed, this, [this] { gone_ = true; });
  connect(&workspace_, &Workspace::designChanged, this, &ObjectsModel::take);
  connect(&workspace_, &Workspace::viewChanged, this, &ObjectsModel::takeResults);
  connect(&evaluator_, &Evaluator::evaluated, this, &ObjectsModel::takeResults);
}

void ObjectsModel::setFollowing(bool on) {
  following_ = on;
  if (on && stale_) take();
}

// Rows that are the same things are only told to have changed: the view keeps its place.
void ObjectsModel::take() {
  stale_ = !following_ || workspace_.isDragging();
  if (stale_) return;
  std::vector<edit::ObjectLine> next = edit::objectsOf(workspace_.design(), {});
  const bool same = next.size() == lines_.size() &&
                    std::equal(next.begin(), next.end(), lines_.begin(),
                               [](const auto& a, const auto& b) { return a.ref == b.ref; });
  if (same) {
    lines_ = std::move(next);
    if (!lines_.empty())
      Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, column_count - 1));
    return;
  }
  beginResetModel();
  lines_ = std::move(next);
  endResetModel();
}

void ObjectsModel::takeResults() {
  if (!following_ || workspace_.isDragging()) return;
  if (stale_) return take();
  if (!lines_.empty()) Q_EMIT dataChanged(index(0, result), index(rowCount() - 1, result));
}

int ObjectsModel::rowOf(const edit::ObjectRef& ref) const {
  for (std::size_t i = 0; i < lines_.size(); ++i)
    if (lines_[i].ref == ref) return static_cast<int>(i);
  return -1;
}

QString ObjectsModel::resultOf(const edit::ObjectRef& ref) const {
  const std::shared_ptr<const Evaluation> known = evaluator_.now();
  QStringList parts;
  for (const LedgerRow& row : known->rows) {
    const proof::RequirementProof& proof = row.proof;
    if (row.known == Known::nothing || proof.situation != workspace_.situation() ||
        !proof.without.empty())
      continue;
    const QString requirement = QString::fromStdString(proof.requirement.text);
    if (ref.kind == edit::ObjectKind::zone) {
      const design::Requirement* of = findRequirement(workspace_.design(), proof.requirement);
      if (!of || of->zone.text != ref.id) continue;
      parts << requirement + " " +
                   (row.known == Known::preview
                        ? tr("preview: %1").arg(percent(proof.share.low))
                        : QString::fromStdString(drawing::verdictWords(proof, shownUnit())));
    } else if (ref.kind == edit::ObjectKind::housing) {
      double most = 0, alone = 0;
      for (const proof::Contribution& part : proof.imagers)
        if (isOf(part.imager, ref)) {
          most = std::max(most, part.serves);
          alone = std::max(alone, part.alone);
        }
      if (most <= 0) continue;
      if (ref.slot == 0) {
        parts << requirement;
      } else {
        parts << (alone > 0 ? tr("%1 %2, alone %3").arg(requirement, percent(most), percent(alone))
                            : tr("%1 %2").arg(requirement, percent(most)));
      }
    }
  }
  if (ref.kind == edit::ObjectKind::housing && ref.slot == 0 && !parts.isEmpty())
    return tr("serves %1").arg(parts.join(", "));
  return parts.join("; ");
}

int ObjectsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(lines_.size());
}
int ObjectsModel::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(column_count);
}

QVariant ObjectsModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid()) return {};
  const edit::ObjectLine& line = lines_[static_cast<std::size_t>(index.row())];
  if (role == Qt::AccessibleTextRole || role == Qt::DisplayRole || role == Qt::EditRole ||
      role == Qt::ToolTipRole) {
    switch (index.column()) {
      case name: return QString::fromStdString(line.title);
      case id: {
        const QString whole = QString::fromStdString(line.ref.id);
        return line.ref.slot > 0 ? whole + "." + QString::number(line.ref.slot) : whole;
      }
      case kind: return roomWord(line.kind);
      case storey: {
        const design::Storey* of = design::findStorey(workspace_.design(), line.storey);
        return QString::fromStdString(!of ? line.storey.text : of->title.empty() ? of->id.text
                                                                                 : of->title);
      }
      case place: return QString::fromStdString(edit::placeText(line.at_m, shownUnits()));
      case result: return resultOf(line.ref);
      default: return {};
    }
  }
  return {};
}

QVariant ObjectsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  switch (section) {
    case name: return tr("Name");
    case id: return tr("Id");
    case kind: return tr("Kind");
    case storey: return tr("Storey");
    case place: return tr("Place");
    case result: return tr("Result");
    default: return {};
  }
}

Qt::ItemFlags ObjectsModel::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = QAbstractTableModel::flags(index);
  const bool can = index.isValid() && index.column() == name &&
                   edit::hasTitle(lines_[static_cast<std::size_t>(index.row())].ref);
  return can ? plain | Qt::ItemIsEditable : plain;
}

bool ObjectsModel::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (gone_ || role != Qt::EditRole || !index.isValid() || index.column() != name) return false;
  const edit::ObjectLine line = lines_[static_cast<std::size_t>(index.row())];
  const std::string title = value.toString().trimmed().toStdString();
  if (title == line.title) return false;
  try {
    workspace_.apply(tr("Rename %1").arg(QString::fromStdString(line.ref.id)),
                     edit::renamed(workspace_.design(), line.ref, title));
  } catch (const InputError& error) {
    workspace_.complain(QString::fromStdString(error.problems().front().what));
    return false;
  }
  return true;
}

}  // namespace belvedere::desk
