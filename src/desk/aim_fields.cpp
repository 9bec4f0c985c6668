// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/aim_fields.h"

#include <QGridLayout>
#include <QKeyEvent>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/problem.h"
#include "desk/room_sentences.h"
#include "desk/shown_units.h"
#include "edit/mount_drag.h"
#include "edit/pattern.h"

namespace belvedere::desk {
namespace {

constexpr double kLengthStepM = 0.05, kLengthStepImperialM = 0.0254, kFocalStepMm = 0.1;
constexpr double kFocusStepM = 0.1, kExposureStepS = 0.001, kApertureStep = 0.1;

QString text(const std::string& words) { return QString::fromStdString(words); }

// What is wrong with what was typed, and what would be understood.
QString complaintOf(const InputError& error) {
  const Problem& problem = error.problems().front();
  const QString what = roomSentence(problem.what);
  return problem.hint.empty() ? what : QObject::tr("%1; understood is %2").arg(what, roomSentence(problem.hint));
}

double numberOf(const std::string& typed) {
  bool good = false;
  QString words = QString::fromStdString(typed).trimmed();
  if (words.endsWith("mm")) words.chop(2);
  words.replace(',', '.');
  const double value = words.trimmed().toDouble(&good);
  if (!good || !(value > 0))
    throw InputError({{"bad_length", "",
                       QObject::tr("\"%1\" is not a focal length in mm.")
                           .arg(QString::fromStdString(typed))
                           .toStdString(),
                       ""}});
  return value;
}

}  // namespace

std::vector<edit::ImagerRef> selectedImagers(const Workspace& workspace) {
  std::vector<edit::ImagerRef> found;
  for (const edit::ObjectRef& ref : workspace.selection()) {
    if (ref.kind != edit::ObjectKind::housing) continue;
    const design::Housing* housing =
        design::findHousing(workspace.design(), design::HousingId{ref.id});
    if (!housing) continue;
    for (const design::HousingImager& imager : housing->imagers) {
      // Of an imager that is selected alone, the aim in hand.
      const bool alone = workspace.selection().size() == 1 && ref.slot == imager.slot;
      const edit::ImagerRef here{housing->id, imager.slot, alone ? workspace.selectedAim() : 0};
      if ((ref.slot == 0 || ref.slot == imager.slot) && !imager.aims.empty() &&
          std::find(found.begin(), found.end(), here) == found.end())
        found.push_back(here);
    }
  }
  return found;
}

std::vector<design::HousingId> selectedHousings(const Workspace& workspace) {
  std::vector<design::HousingId> found;
  for (const edit::ObjectRef& ref : workspace.selection()) {
    const design::HousingId id{ref.id};
    if (ref.kind == edit::ObjectKind::housing && design::findHousing(workspace.design(), id) &&
        std::find(found.begin(), found.end(), id) == found.end())
      found.push_back(id);
  }
  return found;
}

// ---- one field ----------------------------------------------------------------------------------

NumberField::NumberField(QWidget* parent) : QLineEdit(parent) { setFrame(false); }

void NumberField::show(const QString& words) {
  shown_ = words;
  if (hasFocus() && isModified()) return;
  setText(words);
  if (!hasFocus()) setCursorPosition(0);  // where it has no room, its beginning shows
}

void NumberField::keyPressEvent(QKeyEvent* event) {
  const double size = event->modifiers().testFlag(Qt::ShiftModifier)     ? 10
                      : event->modifiers().testFlag(Qt::ControlModifier) ? 0.1
                                                                         : 1;
  switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      setModified(false);
      if (text() != shown_) Q_EMIT typed(text());
      selectAll();
      return;
    case Qt::Key_Escape:
      if (!isModified()) break;
      setText(shown_);
      setModified(false);
      selectAll();
      return;
    case Qt::Key_Up: Q_EMIT stepped(size); return;
    case Qt::Key_Down: Q_EMIT stepped(-size); return;
    default: break;
  }
  QLineEdit::keyPressEvent(event);
}

// What was typed and not sent off is as good as not typed.
void NumberField::focusOutEvent(QFocusEvent* event) {
  setText(shown_);
  setCursorPosition(0);
  setModified(false);
  QLineEdit::focusOutEvent(event);
}

// ---- all of them --------------------------------------------------------------------------------

AimFields::AimFields(Workspace& workspace, QWidget* parent)
    : QWidget(parent), workspace_(workspace) {
  setObjectName("aim_fields");
  grid_ = new QGridLayout(this);
  grid_->setContentsMargins(14, 8, 14, 10);
  grid_->setHorizontalSpacing(8);
  grid_->setVerticalSpacing(3);
  grid_->setColumnStretch(1, 1);
  grid_->setColumnStretch(3, 1);
  title_ = new QLabel;
  QFont bold = title_->font();
  bold.setBold(true);
  title_->setFont(bold);
  grid_->addWidget(title_, 0, 0, 1, 4);

  using design::Design;
  using edit::ImagerRef;
  const auto angle = [](double deg) { return text(edit::angleText(deg)); };
  const auto length = [](double m) { return text(edit::lengthText(m, shownUnits())); };
  const auto angle_from = [](const std::string& typed) { return edit::angleFrom(typed); };
  const auto length_from = [](const std::string& typed) {
    return edit::lengthFrom(typed, shownUnits());
  };
  const auto of_aim = [](double design::Aim::*part) {
    return [part](const Design& design, const ImagerRef& imager) -> std::optional<double> {
      const auto parts = edit::partsOf(design, imager);
      return parts ? std::optional(parts->aim->*part) : std::nullopt;
    };
  };
  const auto housing = [](const Design& design, const ImagerRef& imager) {
    return design::findHousing(design, imager.housing);
  };
  const double step_m =
      shownUnits() == edit::Units::imperial ? kLengthStepImperialM : kLengthStepM;
  // Of what cannot be absent.
  const auto always = [](edit::Aimed (*set)(const Design&, const ImagerRef&, double)) {
    return [set](const Design& design, const ImagerRef& imager, std::optional<double> value) {
      return set(design, imager, value.value_or(0));
    };
  };
  add("aim.pan", tr("pan"), {.name = tr("Pan of %1"), .read = of_aim(&design::Aim::pan_deg),
       .write = always(edit::withPan), .parse = angle_from, .words = angle});
  add("aim.tilt", tr("tilt"), {.name = tr("Tilt of %1"), .read = of_aim(&design::Aim::tilt_deg),
       .write = always(edit::withTilt), .parse = angle_from, .words = angle});
  add("aim.roll", tr("roll"), {.name = tr("Roll of %1"), .read = of_aim(&design::Aim::roll_deg),
       .write = always(edit::withRoll), .parse = angle_from, .words = angle});
  add("aim.field", tr("field"), {.name = tr("Field of %1"),
       .read = [](const Design& design, const ImagerRef& imager) -> std::optional<double> {
         const auto posed = edit::posedOf(design, imager, design::JudgedOn::captured);
         return posed ? std::optional(posed->hfov_deg) : std::nullopt;
       },
       .write = always(edit::withHfov), .parse = angle_from, .words = angle});
  add("aim.focal", tr("focal"), {.name = tr("Focal length of %1"), .step = kFocalStepMm,
       .read = [](const Design& design, const ImagerRef& imager) -> std::optional<double> {
         const auto posed = edit::posedOf(design, imager, design::JudgedOn::captured);
         return posed ? posed->focal_mm : std::nullopt;
       },
       .write = always(edit::withFocal), .parse = numberOf,
       .words = [](double mm) { return tr("%1 mm").arg(mm, 0, 'f', 2); }});
  add("aim.height", tr("lens at"), {.name = tr("Height of %1"), .of_imager = false,
       .step = step_m,
       .read = [](const Design& design, const ImagerRef& imager) -> std::optional<double> {
         return edit::lensHeight(design, imager.housing);
       },
       .write = [](const Design& design, const ImagerRef& imager, std::optional<double> m) {
         return edit::withLensHeight(design, imager.housing, m.value_or(0));
       },
       .parse = length_from, .words = length});
  add("aim.base", tr("base"), {.name = tr("Base of %1"), .of_imager = false,
       .read = [housing](const Design& design, const ImagerRef& imager) -> std::optional<double> {
         const design::Housing* found = housing(design, imager);
         return found ? std::optional(found->mount.base_bearing_deg) : std::nullopt;
       },
       .write = [](const Design& design, const ImagerRef& imager, std::optional<double> deg) {
         return edit::withBaseBearing(design, imager.housing, deg.value_or(0), edit::Aims::stay);
       },
       .parse = angle_from, .words = angle});
  add("aim.focus", tr("focus"), {.name = tr("Focus of %1"), .step = kFocusStepM,
       .read = [](const Design& design, const ImagerRef& imager) {
         const auto parts = edit::partsOf(design, imager);
         return parts ? parts->aim->focus_m : std::nullopt;
       },
       .write = edit::withFocus, .parse = length_from, .words = length,
       .when_absent = tr("on its zone")});
  add("aim.exposure", tr("exposure"), {.name = tr("Exposure of %1"), .step = kExposureStepS,
       .read = [](const Design& design, const ImagerRef& imager) {
         const auto parts = edit::partsOf(design, imager);
         return parts ? parts->written->exposure_s : std::nullopt;
       },
       .write = edit::withExposure, .parse = edit::exposureFrom,
       .words = [](double exposure_s) { return text(edit::exposureText(exposure_s)); },
       .when_absent = tr("as stated")});
  add("aim.aperture", tr("aperture"), {.name = tr("Aperture of %1"), .step = kApertureStep,
       .read = [](const Design& design, const ImagerRef& imager) {
         const auto parts = edit::partsOf(design, imager);
         return parts ? parts->written->f_number : std::nullopt;
       },
       .write = edit::withAperture, .parse = edit::apertureFrom,
       .words = [](double f_number) { return text(edit::apertureText(f_number)); },
       .when_absent = tr("wide open")});
  addChoices();
  connect(&workspace_, &Workspace::selectionChanged, this, &AimFields::take);
  connect(&workspace_, &Workspace::designChanged, this, &AimFields::take);
  take();
}

void AimFields::add(const QString& object, const QString& label, Field field) {
  field.edit = new NumberField(this);
  field.edit->setObjectName(object);
  field.edit->setAccessibleName(label);
  field.label = new QLabel(label, this);
  field.label->setForegroundRole(QPalette::PlaceholderText);
  field.label->setBuddy(field.edit);
  fields_.push_back(std::move(field));
  const std::size_t at = fields_.size() - 1;
  connect(fields_[at].edit, &NumberField::typed, this, [this, at](const QString& typed) {
    try {
      std::optional<double> value;
      const bool clears = !fields_[at].when_absent.isEmpty() &&
                          (typed.trimmed().isEmpty() || typed == fields_[at].when_absent);
      if (!clears) value = fields_[at].parse(typed.toStdString());
      write(fields_[at], [value](std::optional<double>) { return value; }, {});
    } catch (const InputError& error) {
      workspace_.complain(complaintOf(error));
      fields_[at].edit->selectAll();
    }
  });
  connect(fields_[at].edit, &NumberField::stepped, this, [this, at](double steps) {
    const double by = steps * fields_[at].step;
    write(fields_[at],
          [by](std::optional<double> now) { return now ? std::optional(*now + by) : now; },
          "step " + fields_[at].edit->objectName().toStdString());
  });
}

void AimFields::addChoices() {
  const int row = 2 + static_cast<int>(fields_.size()) / 2;
  const auto labelled = [&](const QString& words, QWidget* widget, int at, int column, int span) {
    auto* label = new QLabel(words);
    label->setForegroundRole(QPalette::PlaceholderText);
    label->setBuddy(widget);
    widget->setAccessibleName(words);
    grid_->addWidget(label, at, column);
    grid_->addWidget(widget, at, column + 1, 1, span);
    return label;
  };
  place_ = new NumberField;
  place_->setObjectName("aim.place");
  labelled(tr("place"), place_, row, 0, 3);
  connect(place_, &NumberField::typed, this, &AimFields::writePlace);
  life_ = new QComboBox;
  life_->setObjectName("aim.life");
  life_->setFrame(false);
  life_->addItems({tr("existing"), tr("new"), tr("removed")});  // in the order of design::Life
  labelled(tr("life"), life_, row + 1, 0, 3);
  connect(life_, &QComboBox::activated, this, [this](int index) {
    const auto housings = selectedHousings(workspace_);
    workspace_.apply(tr("Mark as %1").arg(life_->itemText(index)),
                     edit::withLife(workspace_.design(), housings,
                                    static_cast<design::Life>(index)));
  });
  mode_ = new QComboBox;
  mode_->setObjectName("aim.mode");
  mode_->setFrame(false);
  mode_->addItems({tr("by light"), tr("colour"), tr("mono")});  // in the order of ImagerMode
  mode_label_ = labelled(tr("mode"), mode_, row + 2, 0, 3);
  for (QComboBox* box : {life_, mode_})  // no word is cut
    box->setMinimumWidth(box->sizeHint().width() + fontMetrics().horizontalAdvance('m'));
  connect(mode_, &QComboBox::activated, this, [this](int index) {
    design::Design next = workspace_.design();
    for (const edit::ImagerRef& ref : selectedImagers(workspace_))
      for (design::Housing& housing : next.housings)
        for (design::HousingImager& imager : housing.imagers)
          if (housing.id == ref.housing && imager.slot == ref.slot)
            imager.mode = static_cast<design::ImagerMode>(index);
    workspace_.apply(tr("Mode: %1").arg(mode_->itemText(index)), std::move(next));
  });
}

// Those that are there, two a row.
void AimFields::layOut() {
  int index = 0;
  for (const Field& field : fields_) {
    grid_->removeWidget(field.label);
    grid_->removeWidget(field.edit);
    if (field.edit->isHidden()) continue;
    grid_->addWidget(field.label, 1 + index / 2, 2 * (index % 2));
    grid_->addWidget(field.edit, 1 + index / 2, 2 * (index % 2) + 1);
    ++index;
  }
}

std::vector<edit::ImagerRef> AimFields::targetsOf(const Field& field) const {
  std::vector<edit::ImagerRef> all = selectedImagers(workspace_);
  if (field.of_imager) return all;
  std::vector<edit::ImagerRef> first;
  for (const design::HousingId& housing : selectedHousings(workspace_))
    first.push_back({housing, 1, 0});
  return first;
}

void AimFields::write(const Field& field, const NewValue& value, const std::string& gesture) {
  const std::vector<edit::ImagerRef> targets = targetsOf(field);
  if (targets.empty()) return;
  try {
    design::Design next = workspace_.design();
    QString stopped;
    for (const edit::ImagerRef& imager : targets) {
      const auto now = field.read(next, imager);
      if (!now && field.when_absent.isEmpty()) continue;
      const std::optional<double> then = value(now);
      if (then == now) continue;
      edit::Aimed aimed = field.write(next, imager, then);
      next = std::move(aimed.design);
      if (aimed.at_stop) stopped = text(aimed.stop);
    }
    const QString whose = targets.size() > 1 ? tr("%n", nullptr, static_cast<int>(targets.size()))
                          : field.of_imager  ? text(edit::nameOf(targets.front()))
                                             : text(targets.front().housing.text);
    workspace_.apply(field.name.arg(whose), std::move(next), gesture);
    if (!stopped.isEmpty()) workspace_.complain(stopped);
  } catch (const InputError& error) {
    workspace_.complain(complaintOf(error));
  }
  take();
}

void AimFields::writePlace(const QString& typed) {
  const auto housings = selectedHousings(workspace_);
  const design::Housing* housing =
      housings.size() == 1 ? design::findHousing(workspace_.design(), housings.front()) : nullptr;
  if (!housing) return;
  try {
    const Vec3 now = housing->mount.fixing_m;
    const Vec2 at = edit::placeFrom(typed.toStdString(), shownUnits(), now.xy());
    edit::Aimed moved = edit::withFixing(workspace_.design(), housing->id, withZ(at, now.z));
    const std::string stop = moved.at_stop ? moved.stop : "";
    workspace_.apply(tr("Place of %1").arg(text(housing->id.text)), std::move(moved.design));
    if (!stop.empty()) workspace_.complain(text(stop));
  } catch (const InputError& error) {
    workspace_.complain(complaintOf(error));
  }
  take();
}

void AimFields::take() {
  const std::vector<design::HousingId> housings = selectedHousings(workspace_);
  setVisible(!housings.empty());
  if (housings.empty()) return;
  const std::vector<edit::ImagerRef> imagers = selectedImagers(workspace_);
  const bool whole = workspace_.selectedSlot() == 0 && imagers.size() > 1;
  title_->setText(
      housings.size() > 1        ? tr("%n housings", nullptr, static_cast<int>(housings.size()))
      : whole || imagers.empty() ? text(housings.front().text)
      : imagers.size() > 1       ? tr("%1, %n imagers", nullptr, static_cast<int>(imagers.size()))
                                 .arg(text(housings.front().text))
      : workspace_.aimCount() > 1 ? tr("%1, stored aim %2 of %3")
                                        .arg(text(edit::nameOf(imagers.front())))
                                        .arg(workspace_.selectedAim() + 1)
                                        .arg(workspace_.aimCount())
                                  : text(edit::nameOf(imagers.front())));
  for (const Field& field : fields_) {
    const auto targets = targetsOf(field);
    QString words;
    bool any = false, same = true, first = true;
    for (const edit::ImagerRef& imager : targets) {
      const auto value = field.read(workspace_.design(), imager);
      if (!value && field.when_absent.isEmpty()) continue;
      const QString here = value ? field.words(*value) : field.when_absent;
      same = same && (first || here == words);
      words = here;
      any = true;
      first = false;
    }
    field.edit->show(any && same ? words : QString());
    field.edit->setPlaceholderText(any && !same ? tr("several") : QString());
    field.edit->setEnabled(any);
    field.edit->setVisible(any || !field.of_imager);
    field.label->setVisible(any || !field.of_imager);
  }
  layOut();
  const design::Housing* housing = design::findHousing(workspace_.design(), housings.front());
  place_->show(housings.size() == 1
                   ? text(edit::placeText(housing->mount.fixing_m.xy(), shownUnits()))
                   : QString());
  place_->setEnabled(housings.size() == 1);
  life_->setCurrentIndex(static_cast<int>(housing->life));
  mode_->setVisible(!imagers.empty());
  mode_label_->setVisible(!imagers.empty());
  for (const design::HousingImager& imager : housing->imagers)
    if (!imagers.empty() && imager.slot == imagers.front().slot)
      mode_->setCurrentIndex(static_cast<int>(imager.mode));
}

}  // namespace belvedere::desk
