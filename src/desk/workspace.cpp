// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/workspace.h"

#include <QCryptographicHash>
#include <QFile>

#include <algorithm>
#include <utility>

#include "desk/attachments.h"
#include "design/write.h"

namespace belvedere::desk {

using design::Design;

Workspace::Workspace(QObject* parent) : QObject(parent) { reset({}, true); }

std::filesystem::path Workspace::folder() const {
  if (!folder_.empty()) return folder_;
  return file_.path.empty() ? std::filesystem::path() : file_.path.parent_path();
}

void Workspace::reset(design::DesignFile file, bool saved) {
  file_ = std::move(file);
  history_ = edit::History(file_.design);
  if (!saved) history_.forgetSaved();
  ++version_;
  selection_.clear();
  requirement_ = {};
  storey_ = {};
  situation_ = {};
  keepLookAtWhatIsThere();
  Q_EMIT opened();
  Q_EMIT designChanged();
  Q_EMIT viewChanged();
  Q_EMIT requirementChanged();
  Q_EMIT selectionChanged();
  Q_EMIT savedChanged();
}

void Workspace::open(const std::filesystem::path& path) {
  open(design::readDesign(std::filesystem::absolute(path)));
}

void Workspace::open(design::DesignFile file) {
  folder_.clear();
  reset(std::move(file), true);
}

void Workspace::start(Design design, const std::filesystem::path& folder) {
  folder_ = folder;
  design::DesignFile file;
  file.design = std::move(design);
  reset(std::move(file), true);
}

void Workspace::recover(design::DesignFile file, const std::filesystem::path& folder) {
  folder_ = file.path.empty() ? folder : std::filesystem::path();
  reset(std::move(file), false);
}

void Workspace::save(const std::filesystem::path& path, const Runs& beside) {
  const std::filesystem::path whole = std::filesystem::absolute(path);
  const QString no_backup = keepBackup(whole);
  const std::shared_ptr<const Design> written = shareDesign();
  design::DesignFile file = file_;
  const auto write = [&file, &whole, from = folder(), written] {
    file.design = *written;
    bringAttachments(file.design, from, whole.parent_path());
    design::saveDesign(file, whole);
  };
  struct Saving {
    bool& now;
    ~Saving() { now = false; }
  } saving{saving_};
  saving_ = true;
  beside ? beside(write) : write();
  saving_ = false;
  file_ = std::move(file);
  folder_.clear();
  history_.markSaved(written);
  Q_EMIT savedChanged();
  tell(no_backup.isEmpty() ? tr("Saved.")
                           : tr("Saved, but no copy of the file as it was could be kept: %1")
                                 .arg(no_backup));
}

// What was there before the program first wrote to it; a later save of the session leaves it. Why
// it could not be kept, else nothing.
QString Workspace::keepBackup(const std::filesystem::path& path) {
  if (std::find(backed_up_.begin(), backed_up_.end(), path) != backed_up_.end()) return {};
  backed_up_.push_back(path);
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) return {};
  std::filesystem::copy_file(path, path.string() + "~",
                             std::filesystem::copy_options::overwrite_existing, error);
  return error ? QString::fromStdString(error.message()) : QString();
}

std::string Workspace::text() const {
  design::DesignFile file = file_;
  file.design = history_.now();
  return design::writeDesign(file);
}

namespace {

// Of the file's bytes; empty when there is none.
std::string hashOnDisk(const std::filesystem::path& path) {
  QFile file(QString::fromStdString(path.string()));
  if (path.empty() || !file.open(QIODevice::ReadOnly)) return {};
  QCryptographicHash hash(QCryptographicHash::Sha256);
  hash.addData(&file);
  return hash.result().toHex().toStdString();
}

}  // namespace

bool Workspace::changedOnDisk() const {
  if (saving_) return false;
  const std::string now = hashOnDisk(file_.path);
  return !now.empty() && now != file_.sha256;  // gone: saving will make it again
}

void Workspace::takeTheirs() {
  design::DesignFile theirs = design::readDesign(file_.path);
  const Design design = theirs.design;
  file_ = std::move(theirs);
  endGesture();
  apply(tr("Take what another program wrote"), design);
  history_.markSaved();
  Q_EMIT savedChanged();
}

void Workspace::keepMine() {
  file_.sha256 = hashOnDisk(file_.path);
  history_.forgetSaved();
  Q_EMIT savedChanged();
}

void Workspace::apply(const QString& name, Design next, const std::string& gesture) {
  const bool was_saved = isSaved();
  if (!history_.apply(name.toStdString(), std::move(next), gesture)) return;
  changed();
  if (was_saved != isSaved()) Q_EMIT savedChanged();
}

void Workspace::changed() {
  ++version_;
  keepLookAtWhatIsThere();
  Q_EMIT designChanged();
}

void Workspace::setDragging(bool dragging) {
  if (dragging_ == dragging) return;
  dragging_ = dragging;
  if (!dragging) endGesture();
  Q_EMIT draggingChanged();
}

void Workspace::undo() {
  if (!canUndo()) return;
  const QString name = undoName();
  history_.undo();
  changed();
  Q_EMIT savedChanged();
  tell(tr("Undone: %1").arg(name));
}

void Workspace::redo() {
  if (!canRedo()) return;
  const QString name = redoName();
  history_.redo();
  changed();
  Q_EMIT savedChanged();
  tell(tr("Done again: %1").arg(name));
}

void Workspace::setStage(Stage stage) {
  if (stage_ == stage) return;
  stage_ = stage;
  Q_EMIT stageChanged();
}

void Workspace::setStorey(const design::StoreyId& storey) {
  if (storey_ == storey || !design::findStorey(design(), storey)) return;
  storey_ = storey;
  Q_EMIT viewChanged();
}

void Workspace::setSituation(const design::SituationId& situation) {
  if (situation_ == situation) return;
  situation_ = situation;
  keepLookAtWhatIsThere();
  Q_EMIT viewChanged();
}

void Workspace::select(edit::Selection selection) {
  if (selection_ == selection) return;
  selection_ = std::move(selection);
  aim_ = 0;
  Q_EMIT selectionChanged();
}

std::size_t Workspace::aimCount() const {
  const design::Housing* housing = selectedHousing();
  const int slot = selectedSlot();
  if (!housing) return 0;
  for (const design::HousingImager& imager : housing->imagers)
    if (imager.slot == slot) return imager.aims.size();
  return 0;
}

std::size_t Workspace::selectedAim() const { return aim_ < aimCount() ? aim_ : 0; }

void Workspace::selectAim(std::size_t aim) {
  if (aim == selectedAim() || aim >= aimCount()) return;
  endGesture();
  aim_ = aim;
  Q_EMIT selectionChanged();
}

void Workspace::selectRequirement(const design::RequirementId& requirement) {
  if (requirement_ == requirement) return;
  requirement_ = requirement;
  Q_EMIT requirementChanged();
  const design::Requirement* found = design::findRequirement(design(), requirement);
  const design::Zone* zone = found ? design::findZone(design(), found->zone) : nullptr;
  if (zone) setStorey(zone->storey);
  if (found) {
    const std::vector<design::Situation> all = design::situationsOf(design(), *found);
    if (!all.empty() && std::none_of(all.begin(), all.end(), [&](const design::Situation& s) {
          return s.id == situation_;
        }))
      setSituation(all.front().id);
  }
}

const design::Housing* Workspace::selectedHousing() const {
  for (const edit::ObjectRef& ref : selection_)
    if (ref.kind == edit::ObjectKind::housing)
      return design::findHousing(design(), design::HousingId{ref.id});
  return nullptr;
}

// Of a housing with one imager that is selected alone it is plain which is meant.
int Workspace::selectedSlot() const {
  for (const edit::ObjectRef& ref : selection_) {
    if (ref.kind != edit::ObjectKind::housing) continue;
    const design::Housing* housing = design::findHousing(design(), design::HousingId{ref.id});
    const bool plain = ref.slot == 0 && selection_.size() == 1 && housing && housing->imagers.size() == 1;
    return plain ? housing->imagers.front().slot : ref.slot;
  }
  return 0;
}

std::string Workspace::selectedImager() const {
  const design::Housing* housing = selectedHousing();
  const int slot = selectedSlot();
  return housing && slot > 0 ? housing->id.text + "." + std::to_string(slot) : std::string();
}

const design::Storey* Workspace::shownStorey() const {
  return design::findStorey(design(), storey_);
}

design::Situation Workspace::shownSituation() const {
  const std::vector<design::Situation> all = design::situationsOf(design());
  for (const design::Situation& situation : all)
    if (situation.id == situation_) return situation;
  return all.front();
}

// After an edit, an undo or another file, what was looked at may be gone.
void Workspace::keepLookAtWhatIsThere() {
  if (!design::findStorey(design(), storey_)) {
    storey_ = {};
    for (const design::Building& building : design().site.buildings)
      if (!building.storeys.empty() && storey_.empty()) storey_ = building.storeys.front().id;
  }
  const std::vector<design::Situation> all = design::situationsOf(design());
  if (std::none_of(all.begin(), all.end(),
                   [&](const design::Situation& s) { return s.id == situation_; }))
    situation_ = all.front().id;
  if (!requirement_.empty() && !design::findRequirement(design(), requirement_)) {
    requirement_ = {};
    Q_EMIT requirementChanged();
  }
  if (selection_.empty()) return;
  const std::size_t held = selectedAim();
  if (held != std::exchange(aim_, held)) Q_EMIT selectionChanged();
  edit::Selection kept;
  for (const edit::ObjectRef& ref : selection_)
    if (edit::isThere(design(), ref)) kept.push_back(ref);
  if (kept != selection_) {
    selection_ = std::move(kept);
    Q_EMIT selectionChanged();
  }
}

}  // namespace belvedere::desk
