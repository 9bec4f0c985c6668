// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/requirement_fields.h"

#include <QAction>
#include <QCheckBox>
#include <QComboBox>
#include <QFormLayout>
#include <QInputDialog>
#include <QLabel>
#include <QLineEdit>
#include <QRegularExpression>
#include <QVBoxLayout>

#include <algorithm>

#include "base/problem.h"
#include "desk/draw_tool.h"
#include "desk/main_window.h"
#include "desk/page_window.h"
#include "desk/requirement_words.h"
#include "desk/shown_units.h"
#include "design/task_table.h"
#include "edit/brief.h"
#include "edit/erase.h"
#include "edit/shapes.h"

namespace belvedere::desk {
namespace {

double numberOf(const QString& text) {
  QString plain = text.trimmed();
  plain.remove(QRegularExpression("\\s*(%|px/m)$"));
  bool good = false;
  const double value = plain.replace(',', '.').toDouble(&good);
  if (!good) refuse(QObject::tr("\"%1\" is no number").arg(text.trimmed()));
  return value;
}

QString shortText(double value) { return QString::number(value, 'g', 6); }

template <class E>
E enumOf(const QString& text) {
  return static_cast<E>(text.toInt());
}

const design::Requirement* selectedOf(const Workspace& workspace) {
  return design::findRequirement(workspace.design(), workspace.requirement());
}

}  // namespace

RequirementFields::RequirementFields(MainWindow& window) : workspace_(window.workspace()) {
  setObjectName("requirement_fields");
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(14, 8, 14, 8);
  title_ = new QLabel;
  QFont bold = title_->font();
  bold.setBold(true);
  title_->setFont(bold);
  column->addWidget(title_);
  form_ = new QFormLayout;
  form_->setVerticalSpacing(3);
  column->addLayout(form_);
  using R = design::Requirement;

  typed("purpose", tr("purpose"), [](const R& r) { return words(r.purpose); },
        [](R& r, const QString& text) { r.purpose = text.trimmed().toStdString(); });
  chosen("zone", tr("zone"),
         [](const design::Design& design) {
           Choices all;
           for (const design::Zone& zone : design.site.zones)
             all.emplace_back(words(zone.id.text),
                              words(zone.title.empty() ? zone.id.text : zone.title));
           return all;
         },
         [](const R& r) { return words(r.zone.text); },
         [](R& r, const QString& id) { r.zone.text = id.toStdString(); });
  chosen("kind", tr("must"),
         [](const design::Design&) {
           return Choices{
               {QString::number(static_cast<int>(design::RequirementKind::see)), tr("be seen")},
               {QString::number(static_cast<int>(design::RequirementKind::withhold)),
                tr("not be seen")}};
         },
         [](const R& r) { return QString::number(static_cast<int>(r.kind)); },
         [](R& r, const QString& value) { r.kind = enumOf<design::RequirementKind>(value); });
  chosen("task", tr("task"),
         [](const design::Design& design) {
           Choices all = taskChoices(design);
           all.emplace_back(QString(), tr("a density of its own"));
           return all;
         },
         [](const R& r) { return r.px_per_m ? QString() : words(r.task); },
         [this](R& r, const QString& task) {
           if (task.isEmpty()) {
             if (!r.px_per_m) r.px_per_m = design::statedDensity(workspace_.design(), r);
             r.task.clear();
           } else {
             r.task = task.toStdString();
             r.px_per_m.reset();
           }
         });
  typed("px_per_m", tr("density, px/m"),
        [this](const R& r) {
          const auto stated = design::statedDensity(workspace_.design(), r);
          return stated ? shortText(*stated) : QString();
        },
        [](R& r, const QString& text) {
          r.px_per_m = numberOf(text);
          r.task.clear();
        });
  typed("share", tr("share, %"), [](const R& r) { return shortText(100 * r.share); },
        [](R& r, const QString& text) { r.share = numberOf(text) / 100; });
  typed("imagers", tr("imagers at once"),
        [](const R& r) { return QString::number(r.imagers); },
        [](R& r, const QString& text) {
          const double count = numberOf(text);
          if (count != static_cast<int>(count)) refuse(tr("imagers are counted"));
          r.imagers = static_cast<int>(count);
        });
  chosen("judged_on", tr("judged on"),
         [](const design::Design&) { return judgedOnChoices(); },
         [](const R& r) { return QString::number(static_cast<int>(r.judged_on)); },
         [](R& r, const QString& value) { r.judged_on = enumOf<design::JudgedOn>(value); });
  chosen("target", tr("whom or what"),
         [](const design::Design&) {
           Choices all = targetChoices();
           all.emplace_back(QString::number(static_cast<int>(design::TargetKind::custom)),
                            targetWord(design::TargetKind::custom));
           return all;
         },
         [](const R& r) { return QString::number(static_cast<int>(r.target.kind)); },
         [](R& r, const QString& value) {
           const design::Range band = design::bandOf(r.target);
           r.target.kind = enumOf<design::TargetKind>(value);
           if (r.target.kind == design::TargetKind::custom)
             r.target.band_m = band;
           else
             r.target.band_m.reset();
         });
  typed("band", tr("band of heights"),
        [](const R& r) {
          const design::Range band = design::bandOf(r.target);
          return tr("%1 to %2").arg(words(edit::lengthText(band[0], shownUnits())),
                                    words(edit::lengthText(band[1], shownUnits())));
        },
        [](R& r, const QString& text) {
          if (text.trimmed().isEmpty()) {
            r.target.band_m.reset();
            return;
          }
          const QStringList ends = text.split(tr(" to "));
          if (ends.size() != 2) refuse(tr("a band reads 1.4 to 1.8"));
          r.target.band_m = {edit::lengthFrom(ends[0].toStdString(), shownUnits()),
                             edit::lengthFrom(ends[1].toStdString(), shownUnits())};
        });
  typed("facings", tr("facing, bearings"),
        [](const R& r) {
          QStringList all;
          for (const design::Facing& facing : r.facings)
            all.push_back(words(edit::angleText(facing.bearing_deg)));
          return all.join("; ");
        },
        [](R& r, const QString& text) {
          std::vector<design::Facing> facings;
          for (const QString& each : text.split(';', Qt::SkipEmptyParts)) {
            if (each.trimmed().isEmpty()) continue;
            design::Facing facing;
            if (facings.size() < r.facings.size()) facing = r.facings[facings.size()];
            facing.bearing_deg = edit::angleFrom(each.trimmed().toStdString());
            facings.push_back(facing);
          }
          r.facings = std::move(facings);
        });
  chosen("facing_rule", tr("of the facings"),
         [](const design::Design&) {
           return Choices{
               {QString::number(static_cast<int>(design::FacingRule::any)), tr("any will do")},
               {QString::number(static_cast<int>(design::FacingRule::each)), tr("each must do")}};
         },
         [](const R& r) { return QString::number(static_cast<int>(r.facing_rule)); },
         [](R& r, const QString& value) { r.facing_rule = enumOf<design::FacingRule>(value); });
  situations_ = new QWidget;
  situations_column_ = new QVBoxLayout(situations_);
  situations_column_->setContentsMargins(0, 0, 0, 0);
  situations_column_->setSpacing(2);
  form_->addRow(tr("holds in"), situations_);

  addCommands(window);
  connect(&workspace_, &Workspace::requirementChanged, this, &RequirementFields::take);
  connect(&workspace_, &Workspace::stageChanged, this, &RequirementFields::take);
  connect(&workspace_, &Workspace::designChanged, this, &RequirementFields::take);
  take();
}

void RequirementFields::typed(const QString& object, const QString& label, Read read,
                              Write write) {
  auto* line = new QLineEdit;
  line->setFrame(false);
  line->setObjectName("requirement." + object);
  line->setAccessibleName(label);
  form_->addRow(label, line);
  connect(line, &QLineEdit::editingFinished, this, [this, line, label, write, read] {
    const design::Requirement* requirement = selectedOf(workspace_);
    if (!requirement || !line->isModified() || line->text() == read(*requirement)) return;
    line->setModified(false);
    change(label, [&](design::Requirement& r) { write(r, line->text()); });
  });
  fields_.push_back({label, line, nullptr, {}, std::move(read)});
}

void RequirementFields::chosen(const QString& object, const QString& label,
                               std::function<Choices(const design::Design&)> choices, Read read,
                               Write write) {
  auto* box = new QComboBox;
  box->setFrame(false);
  box->setObjectName("requirement." + object);
  box->setAccessibleName(label);
  form_->addRow(label, box);
  connect(box, &QComboBox::activated, this, [this, box, label, write] {
    const QString value = box->currentData().toString();
    change(label, [&](design::Requirement& r) { write(r, value); });
  });
  fields_.push_back({label, nullptr, box, std::move(choices), std::move(read)});
}

void RequirementFields::change(const QString& what,
                               const std::function<void(design::Requirement&)>& edit) {
  const design::Requirement* selected = selectedOf(workspace_);
  if (!selected) return;
  try {
    design::Requirement changed = *selected;
    edit(changed);
    workspace_.apply(tr("Change %1 of %2").arg(what, words(changed.id.text)),
                     edit::withRequirementAs(workspace_.design(), changed));
  } catch (const InputError& error) {
    workspace_.complain(sentenceOf(error));
  }
  take();
}

void RequirementFields::take() {
  const design::Requirement* requirement = selectedOf(workspace_);
  setVisible(requirement && workspace_.stage() == Stage::brief);
  if (!requirement || workspace_.stage() != Stage::brief || workspace_.isDragging()) return;
  title_->setText(tr("%1 asks").arg(words(requirement->id.text)));
  for (const Field& field : fields_) {
    const QString now = field.read(*requirement);
    if (field.line) {
      if (!field.line->isModified() || !field.line->hasFocus()) field.line->setText(now);
      continue;
    }
    const Choices choices = field.choices(workspace_.design());
    bool same = field.box->count() == static_cast<int>(choices.size());
    for (int i = 0; same && i < field.box->count(); ++i)
      same = field.box->itemData(i).toString() == choices[static_cast<std::size_t>(i)].first &&
             field.box->itemText(i) == choices[static_cast<std::size_t>(i)].second;
    if (!same) {
      field.box->clear();
      for (const auto& [value, says] : choices) field.box->addItem(says, value);
    }
    field.box->setCurrentIndex(field.box->findData(now));
  }
  takeSituations(*requirement);
}

// None ticked is every one, as the file has it; all are then shown ticked.
void RequirementFields::takeSituations(const design::Requirement& requirement) {
  const std::vector<design::Situation> all = design::situationsOf(workspace_.design());
  bool same = boxes_.size() == all.size();
  for (std::size_t i = 0; same && i < all.size(); ++i)
    same = boxes_[i].first == all[i].id && boxes_[i].second->text() == words(all[i].title.empty()
                                                                               ? all[i].id.text
                                                                               : all[i].title);
  if (!same) {
    for (auto& [id, box] : boxes_) box->deleteLater();
    boxes_.clear();
    for (const design::Situation& situation : all) {
      auto* box =
          new QCheckBox(words(situation.title.empty() ? situation.id.text : situation.title));
      box->setObjectName("requirement.situation." + words(situation.id.text));
      situations_column_->addWidget(box);
      boxes_.emplace_back(situation.id, box);
      connect(box, &QCheckBox::clicked, this, [this] {
        change(tr("situations"), [&](design::Requirement& r) {
          r.situations.clear();
          for (const auto& [id, each] : boxes_)
            if (each->isChecked()) r.situations.push_back(id);
          if (r.situations.empty()) refuse(tr("a requirement holds in one situation at least"));
          if (r.situations.size() == boxes_.size()) r.situations.clear();
        });
      });
    }
  }
  for (auto& [id, box] : boxes_)
    box->setChecked(requirement.situations.empty() ||
                    std::find(requirement.situations.begin(), requirement.situations.end(), id) !=
                        requirement.situations.end());
}

void RequirementFields::addCommands(MainWindow& window) {
  const QString menu = tr("&Brief");
  const auto run = [this](const std::function<void()>& edit) {
    try {
      edit();
    } catch (const InputError& error) {
      workspace_.complain(sentenceOf(error));
    }
  };
  window.addCommand(menu, "brief.add_requirement", tr("&Another requirement"),
                    QKeySequence("Ctrl+R"), [this, run] {
    run([this] {
      // Of the zone that is selected, or asked about now, or the storey's first.
      design::ZoneId zone;
      for (const edit::ObjectRef& ref : workspace_.selection())
        if (ref.kind == edit::ObjectKind::zone && zone.empty()) zone.text = ref.id;
      if (const design::Requirement* now = selectedOf(workspace_); now && zone.empty())
        zone = now->zone;
      for (const design::Zone& each : workspace_.design().site.zones)
        if (zone.empty() && each.storey == workspace_.storey()) zone = each.id;
      if (zone.empty()) refuse(tr("draw a zone first, with Z"));
      const auto scale = design::taskScale(workspace_.design().task_table);
      if (!scale || scale->lines.empty()) refuse(tr("the design's task table has no tasks"));
      edit::AddedRequirement added =
          edit::withRequirement(workspace_.design(), zone,
                                scale->lines[scale->lines.size() / 2].task,
                                design::TargetKind::person);
      workspace_.apply(tr("Another requirement"), std::move(added.design));
      workspace_.selectRequirement(added.id);
      workspace_.setStage(Stage::brief);
    });
  });
  window.addCommand(menu, "brief.erase_requirement", tr("&Erase the requirement"), {}, [this, run] {
    run([this] {
      const design::Requirement* now = selectedOf(workspace_);
      if (!now) refuse(tr("no requirement is selected"));
      edit::Erased erased = edit::erasedRequirement(workspace_.design(), now->id);
      workspace_.apply(tr("Erase %1").arg(words(now->id.text)), std::move(erased.design));
      if (!erased.also.empty()) {
        QStringList also;
        for (const std::string& sentence : erased.also) also.push_back(words(sentence));
        workspace_.tell(tr("Erased; also: %1").arg(also.join(tr("; "))));
      }
    });
  });
  window.addCommand(menu, "brief.pictures", tr("&Faces, plates and charts"), {}, [this, &window] {
    const design::Requirement* now = selectedOf(workspace_);
    const bool seen = now && (now->kind == design::RequirementKind::see ||
                              now->kind == design::RequirementKind::withhold);
    if (!seen) {
      workspace_.complain(tr("Select a requirement about what is seen: its worst and its best spot are "
                             "photographed."));
      return;
    }
    (new PageWindow(workspace_, now->id, &window))->show();
  });
  const auto ask = [&window](const QString& title, const QString& text) {
    bool good = false;
    const QString typed = QInputDialog::getText(&window, title, tr("What it is called:"),
                                                QLineEdit::Normal, text, &good);
    return good ? typed.trimmed() : QString();
  };
  window.addCommand(menu, "brief.add_situation", tr("Another &situation ..."), {}, [this, ask] {
    const QString title = ask(tr("Another situation"), {});
    if (title.isEmpty()) return;
    edit::AddedSituation added = edit::withSituation(workspace_.design(), title.toStdString());
    workspace_.apply(tr("Another situation"), std::move(added.design));
    workspace_.setSituation(added.id);
  });
  window.addCommand(menu, "brief.rename_situation", tr("&Rename the situation ..."), {},
                    [this, ask] {
    const QString title =
        ask(tr("Rename the situation"), words(workspace_.shownSituation().title));
    if (title.isEmpty()) return;
    workspace_.apply(tr("Rename a situation"),
                     edit::withSituationTitle(workspace_.design(), workspace_.situation(),
                                              title.toStdString()));
  });
}

}  // namespace belvedere::desk
