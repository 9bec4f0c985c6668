// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/object_fields.h"

#include <QComboBox>
#include <QCoreApplication>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>
#include <map>

#include "base/problem.h"
#include "desk/draw_tool.h"
#include "desk/room_words.h"
#include "desk/shown_units.h"

namespace belvedere::desk {
namespace {

QString labelOf(const std::string& key) {
  static const std::map<std::string, const char*> labels{
      {"title", QT_TRANSLATE_NOOP("Fields", "name")},
      {"thickness_m", QT_TRANSLATE_NOOP("Fields", "thickness")},
      {"height_m", QT_TRANSLATE_NOOP("Fields", "height")},
      {"base_m", QT_TRANSLATE_NOOP("Fields", "base")},
      {"top_m", QT_TRANSLATE_NOOP("Fields", "top")},
      {"rise_m", QT_TRANSLATE_NOOP("Fields", "top rises by")},
      {"toward_deg", QT_TRANSLATE_NOOP("Fields", "towards")},
      {"material", QT_TRANSLATE_NOOP("Fields", "material")},
      {"from_m", QT_TRANSLATE_NOOP("Fields", "from the wall's start")},
      {"width_m", QT_TRANSLATE_NOOP("Fields", "width")},
      {"sill_m", QT_TRANSLATE_NOOP("Fields", "sill")},
      {"head_m", QT_TRANSLATE_NOOP("Fields", "head")},
      {"kind", QT_TRANSLATE_NOOP("Fields", "kind")},
      {"use", QT_TRANSLATE_NOOP("Fields", "what it is of")},
      {"on", QT_TRANSLATE_NOOP("Fields", "on a")},
      {"least_m", QT_TRANSLATE_NOOP("Fields", "height from")},
      {"most_m", QT_TRANSLATE_NOOP("Fields", "height to")},
      {"floor_m", QT_TRANSLATE_NOOP("Fields", "floor")},
      {"slack_m", QT_TRANSLATE_NOOP("Fields", "slack")},
      {"slab_m", QT_TRANSLATE_NOOP("Fields", "slab below")},
      {"roof_m", QT_TRANSLATE_NOOP("Fields", "roof above")},
      {"origin_x_m", QT_TRANSLATE_NOOP("Fields", "origin, east")},
      {"origin_y_m", QT_TRANSLATE_NOOP("Fields", "origin, north")},
      {"turn_deg", QT_TRANSLATE_NOOP("Fields", "turned")}};
  const auto found = labels.find(key);
  return found == labels.end() ? words(key)
                               : QCoreApplication::translate("Fields", found->second);
}

QString choiceWord(const std::string& key, const std::string& value) {
  if (!value.empty()) return roomWord(value).replace('_', ' ');
  return key == "use" ? QObject::tr("floor") : QObject::tr("none");
}

QString textOf(const edit::Property& property) {
  if (const auto* number = std::get_if<double>(&property.value))
    return words(property.kind == edit::PropertyKind::angle
                     ? edit::angleText(*number)
                     : edit::lengthText(*number, shownUnits()));
  if (const auto* text = std::get_if<std::string>(&property.value)) return words(*text);
  return {};
}

}  // namespace

ObjectFields::ObjectFields(Workspace& workspace, QWidget* parent)
    : QWidget(parent), workspace_(workspace) {
  setObjectName("object_fields");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 8, 14, 8);
  column->setSpacing(4);
  title_ = new QLabel;
  QFont bold = title_->font();
  bold.setBold(true);
  title_->setFont(bold);
  column->addWidget(title_);
  connect(&workspace_, &Workspace::selectionChanged, this, &ObjectFields::take);
  connect(&workspace_, &Workspace::designChanged, this, &ObjectFields::take);
  connect(&workspace_, &Workspace::draggingChanged, this, &ObjectFields::take);
  connect(&workspace_, &Workspace::stageChanged, this, &ObjectFields::take);
  connect(&workspace_, &Workspace::requirementChanged, this, &ObjectFields::take);
  take();
}

void ObjectFields::take() {
  if (workspace_.isDragging()) return;
  edit::Selection objects;
  for (const edit::ObjectRef& ref : workspace_.selection())
    if (ref.kind != edit::ObjectKind::housing && ref.kind != edit::ObjectKind::underlay)
      objects.push_back(ref);
  std::vector<edit::Property> now;
  for (std::size_t i = 0; i < objects.size(); ++i) {
    std::vector<edit::Property> of = edit::propertiesOf(workspace_.design(), objects[i]);
    if (i == 0) {
      now = std::move(of);
      continue;
    }
    std::erase_if(now, [&](edit::Property& kept) {
      const auto other = std::find_if(of.begin(), of.end(), [&](const edit::Property& p) {
        return p.key == kept.key && p.kind == kept.kind;
      });
      if (other == of.end()) return true;
      if (other->value != kept.value) kept.value = std::monostate();
      return false;
    });
  }
  // At the brief, what is asked stands here instead.
  const bool asked = workspace_.stage() == Stage::brief && !workspace_.requirement().empty();
  setVisible(!now.empty() && !asked);
  if (now.empty()) {
    shown_.clear();
    return;
  }
  title_->setText(objects.size() == 1
                      ? tr("%1 %2").arg(roomWord(edit::word(objects.front().kind)),
                                        words(objects.front().id))
                      : tr("%n things", nullptr, static_cast<int>(objects.size())));
  const bool same = shown_ == objects && properties_.size() == now.size() &&
                    std::equal(now.begin(), now.end(), properties_.begin(),
                               [](const edit::Property& a, const edit::Property& b) {
                                 return a.key == b.key && a.choices == b.choices;
                               });
  properties_ = std::move(now);
  shown_ = std::move(objects);
  if (!same) build();
  for (std::size_t i = 0; i < edits_.size(); ++i) {
    if (auto* box = qobject_cast<QComboBox*>(edits_[i])) {
      box->setCurrentIndex(box->findData(textOf(properties_[i])));
      if (std::holds_alternative<std::monostate>(properties_[i].value)) box->setCurrentIndex(-1);
    } else if (auto* line = qobject_cast<QLineEdit*>(edits_[i]); line && !line->isModified()) {
      line->setText(textOf(properties_[i]));
      if (!line->hasFocus()) line->setCursorPosition(0);  // a long name shows its beginning
    }
  }
}

void ObjectFields::build() {
  for (QWidget* edit : edits_) {  // on their way out
    edit->blockSignals(true);
    edit->setObjectName({});
  }
  if (body_) {
    body_->hide();
    body_->deleteLater();
  }
  edits_.clear();
  body_ = new QWidget;
  grid_ = new QGridLayout(body_);
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(10);
  grid_->setVerticalSpacing(3);
  for (std::size_t i = 0; i < properties_.size(); ++i) {
    const edit::Property& property = properties_[i];
    auto* label = new QLabel(labelOf(property.key));
    label->setForegroundRole(QPalette::Dark);
    QWidget* edit = nullptr;
    if (property.kind == edit::PropertyKind::choice) {
      auto* box = new QComboBox;
      box->setFrame(false);
      for (const std::string& each : property.choices)
        box->addItem(choiceWord(property.key, each), words(each));
      connect(box, &QComboBox::activated, this, [this, i] { write(i); });
      edit = box;
    } else {
      auto* line = new QLineEdit;
      line->setFrame(false);
      if (property.optional) line->setPlaceholderText(tr("as the storey"));
      connect(line, &QLineEdit::editingFinished, this, [this, i] { write(i); });
      edit = line;
    }
    edit->setObjectName("field." + words(property.key));
    edit->setAccessibleName(label->text());
    label->setBuddy(edit);
    const int row = static_cast<int>(i);
    grid_->addWidget(label, row, 0);
    grid_->addWidget(edit, row, 1);
    edits_.push_back(edit);
  }
  grid_->setColumnStretch(1, 1);
  layout()->addWidget(body_);
  body_->show();
}

void ObjectFields::write(std::size_t index) {
  if (index >= properties_.size()) return;
  const edit::Property property = properties_[index];
  edit::PropertyValue value;
  try {
    if (auto* box = qobject_cast<QComboBox*>(edits_[index])) {
      value = box->currentData().toString().toStdString();
    } else if (auto* line = qobject_cast<QLineEdit*>(edits_[index])) {
      if (!line->isModified() || line->text() == textOf(property)) return;
      const std::string text = line->text().trimmed().toStdString();
      line->setModified(false);
      switch (property.kind) {
        case edit::PropertyKind::length:
          if (!(text.empty() && property.optional)) value = edit::lengthFrom(text, shownUnits());
          break;
        case edit::PropertyKind::angle: value = edit::angleFrom(text); break;
        default: value = text;
      }
    }
    workspace_.apply(
        tr("Change %1 of %2").arg(labelOf(property.key), title_->text()),
        edit::withProperty(workspace_.design(), shown_, property.key, value));
  } catch (const InputError& error) {
    workspace_.complain(sentenceOf(error));
  }
  take();
}

}  // namespace belvedere::desk
