// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/edit_commands.h"

#include <QAction>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QSpinBox>

#include <algorithm>
#include <set>

#include "base/problem.h"
#include "desk/draw_values.h"
#include "desk/edit_tools.h"
#include "desk/main_window.h"
#include "desk/pointer_tool.h"
#include "edit/erase.h"
#include "edit/measure.h"
#include "edit/paste.h"
#include "edit/transform.h"

namespace belvedere::desk {
namespace {

constexpr double kBesideM = 0.5;  // a copy lies beside its original

struct Clipboard {
  std::shared_ptr<const design::Design> design;
  edit::Selection selection;
  design::StoreyId storey;  // that was shown
};
Clipboard& clipboard() {
  static Clipboard the_clipboard;
  return the_clipboard;
}

class EditCommands : public QObject {
 public:
  explicit EditCommands(MainWindow& window)
      : QObject(&window), window_(window), workspace_(window.workspace()) {
    connect(&window.sheet(), &SheetView::pointed, this, [this](Vec2 at) { pointer_m_ = at; });
  }

  void erase() {
    if (auto* pointer = dynamic_cast<PointerTool*>(&window_.sheet().tool());
        pointer && pointer->eraseVertex())
      return;
    eraseSelection(tr("Erase"));
  }
  void eraseSelection(const QString& name) {
    const edit::Selection selection = some();
    edit::Erased erased = edit::erased(workspace_.design(), selection);
    workspace_.apply(name, std::move(erased.design));
    if (!erased.also.empty()) {
      QStringList also;
      for (const std::string& sentence : erased.also) also.push_back(words(sentence));
      workspace_.tell(tr("Erased; also: %1").arg(also.join(tr("; "))));
    }
  }
  void copy() {
    clipboard() = {workspace_.shareDesign(), some(), workspace_.storey()};
    workspace_.tell(tr("Copied: %n things", nullptr, static_cast<int>(some().size())));
  }
  void cut() {
    copy();
    eraseSelection(tr("Cut"));
  }
  void paste(bool in_place) {
    const Clipboard& from = clipboard();
    if (!from.design) refuse(tr("nothing was copied yet"));
    Vec2 by;
    if (!in_place && from.storey == workspace_.storey()) {
      by = pointer_m_ ? *pointer_m_ - edit::middleOf(*from.design, from.selection)
                      : Vec2{kBesideM, -kBesideM};
      by = {edit::tidyLength(by.x), edit::tidyLength(by.y)};
    }
    take(tr("Paste"), edit::pasted(workspace_.design(), workspace_.storey(), *from.design,
                                   from.selection, by));
  }
  void duplicate() {
    take(tr("Duplicate"),
         edit::copied(workspace_.design(), some(), {kBesideM, -kBesideM}));
  }
  void selectWhere(const std::function<bool(const edit::ObjectRef&)>& wanted) {
    edit::Selection next;
    for (const edit::ObjectLine& line : edit::objectsOf(workspace_.design(), workspace_.storey()))
      if (line.ref.slot == 0 && line.ref.kind != edit::ObjectKind::building &&
          line.ref.kind != edit::ObjectKind::storey &&
          line.ref.kind != edit::ObjectKind::underlay && wanted(line.ref))
        next.push_back(line.ref);
    // What goes with its wall is not picked twice.
    std::set<std::string> inside;
    for (const edit::ObjectRef& ref : next)
      if (ref.kind == edit::ObjectKind::wall)
        if (const design::Storey* storey = workspace_.shownStorey())
          for (const design::Wall& wall : storey->walls)
            if (wall.id.text == ref.id)
              for (const design::Opening& opening : wall.openings) inside.insert(opening.id.text);
    std::erase_if(next, [&](const edit::ObjectRef& ref) { return inside.contains(ref.id); });
    workspace_.select(std::move(next));
  }
  bool isSelected(const edit::ObjectRef& ref) const {
    return std::any_of(workspace_.selection().begin(), workspace_.selection().end(),
                       [&](const edit::ObjectRef& s) {
                         return s.kind == ref.kind && s.id == ref.id;
                       });
  }
  void selectSameKind() {
    std::set<edit::ObjectKind> kinds;
    std::set<design::SolidKind> solids;
    for (const edit::ObjectRef& ref : some()) {
      kinds.insert(ref.kind);
      if (const auto* solid = design::findSolid(workspace_.design(), design::SolidId{ref.id}))
        solids.insert(solid->kind);
    }
    selectWhere([&](const edit::ObjectRef& ref) {
      const auto* solid = design::findSolid(workspace_.design(), design::SolidId{ref.id});
      return kinds.contains(ref.kind) && (!solid || solids.contains(solid->kind));
    });
  }
  void array() {
    some();
    auto* dialog = new ArrayDialog(workspace_, &window_);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
  }
  template <class Make>
  void tool(Make make) {
    some();
    window_.sheet().setTool(make(window_.sheet()));
    window_.sheet().setFocus();
  }
  void handle(int step) {
    if (auto* pointer = dynamic_cast<PointerTool*>(&window_.sheet().tool()))
      pointer->stepHandle(step);
  }
  // Runs an edit and says what is wrong with it.
  void run(const std::function<void()>& edit) {
    try {
      edit();
    } catch (const InputError& error) {
      workspace_.complain(sentenceOf(error));
    }
  }

 private:
  const edit::Selection& some() const {
    if (workspace_.selection().empty()) refuse(tr("nothing is selected"));
    return workspace_.selection();
  }
  void take(const QString& name, edit::Copied copied) {
    workspace_.apply(name, std::move(copied.design));
    workspace_.select(std::move(copied.copies));
  }

  MainWindow& window_;
  Workspace& workspace_;
  std::optional<Vec2> pointer_m_;
};

}  // namespace

void makeEditCommands(MainWindow& window) {
  auto* commands = new EditCommands(window);
  const QString menu = QObject::tr("&Edit");
  const auto add = [&](const QString& name, const QString& text, const QKeySequence& key,
                       std::function<void()> edit) {
    window.addCommand(menu, name, text, key,
                      [commands, edit = std::move(edit)] { commands->run(edit); });
  };
  using C = EditCommands;
  C* c = commands;
  window.menuOf(menu)->addSeparator();
  add("edit.cut", QObject::tr("Cu&t"), QKeySequence::Cut, [c] { c->cut(); });
  add("edit.copy", QObject::tr("&Copy"), QKeySequence::Copy, [c] { c->copy(); });
  add("edit.paste", QObject::tr("&Paste"), QKeySequence::Paste, [c] { c->paste(false); });
  add("edit.paste_in_place", QObject::tr("Paste in p&lace"), QKeySequence("Ctrl+Shift+V"),
      [c] { c->paste(true); });
  add("edit.duplicate", QObject::tr("&Duplicate"), QKeySequence("Ctrl+D"),
      [c] { c->duplicate(); });
  add("edit.delete", QObject::tr("&Erase"), QKeySequence::Delete, [c] { c->erase(); });
  window.menuOf(menu)->addSeparator();
  add("edit.move_by", QObject::tr("&Move by ..."), QKeySequence("Ctrl+M"), [c] {
    c->tool([](SheetView& sheet) { return std::make_unique<MoveTool>(sheet, false); });
  });
  add("edit.copy_by", QObject::tr("Cop&y by ..."), QKeySequence("Ctrl+Shift+M"), [c] {
    c->tool([](SheetView& sheet) { return std::make_unique<MoveTool>(sheet, true); });
  });
  add("edit.turn", QObject::tr("T&urn ..."), QKeySequence("Ctrl+T"), [c] {
    c->tool([](SheetView& sheet) { return std::make_unique<TurnTool>(sheet); });
  });
  add("edit.mirror", QObject::tr("M&irror ..."), QKeySequence("Ctrl+I"), [c] {
    c->tool([](SheetView& sheet) { return std::make_unique<MirrorTool>(sheet); });
  });
  add("edit.array", QObject::tr("&Rows and columns ..."), QKeySequence("Ctrl+Shift+D"),
      [c] { c->array(); });
  add("edit.copy_along", QObject::tr("Copies along a li&ne ..."), QKeySequence("Ctrl+Shift+L"),
      [c] {
        c->tool([](SheetView& sheet) { return std::make_unique<CopyAlongTool>(sheet); });
      });
  window.menuOf(menu)->addSeparator();
  add("edit.select_all", QObject::tr("Select &all"), QKeySequence::SelectAll,
      [c] { c->selectWhere([](const edit::ObjectRef&) { return true; }); });
  add("edit.select_inverse", QObject::tr("Select the re&st"), QKeySequence("Ctrl+Shift+I"),
      [c] { c->selectWhere([c](const edit::ObjectRef& ref) { return !c->isSelected(ref); }); });
  add("edit.select_kind", QObject::tr("Select the same &kind"), QKeySequence("Ctrl+Shift+A"),
      [c] { c->selectSameKind(); });
  add("edit.next_handle", QObject::tr("Next &handle"), QKeySequence("Ctrl+."),
      [c] { c->handle(1); });
  add("edit.previous_handle", QObject::tr("Pre&vious handle"), QKeySequence("Ctrl+,"),
      [c] { c->handle(-1); });
}

// ---- rows and columns ---------------------------------------------------------------------------

ArrayDialog::ArrayDialog(Workspace& workspace, QWidget* parent)
    : QDialog(parent), workspace_(workspace) {
  setObjectName("array");
  setWindowTitle(tr("Rows and columns"));
  auto* form = new QFormLayout(this);
  const auto count = [&](const QString& name, const QString& label, int value) {
    auto* box = new QSpinBox;
    box->setObjectName(name);
    box->setRange(1, edit::kMostCopies);
    box->setValue(value);
    form->addRow(label, box);
    return box;
  };
  const auto pitch = [&](const QString& name, const QString& label, double value_m) {
    auto* line = new QLineEdit(words(edit::lengthText(value_m, shownUnits())));
    line->setObjectName(name);
    form->addRow(label, line);
    return line;
  };
  columns_ = count("array.columns", tr("&columns"), 3);
  column_pitch_ = pitch("array.column_pitch", tr("from column to column, &east"), 2);
  rows_ = count("array.rows", tr("&rows"), 1);
  row_pitch_ = pitch("array.row_pitch", tr("from row to row, &north"), 2);
  error_ = new QLabel;
  error_->setObjectName("array.error");
  error_->setForegroundRole(QPalette::Link);
  error_->setWordWrap(true);
  form->addRow(error_);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Ok | QDialogButtonBox::Cancel);
  form->addRow(buttons);
  connect(buttons, &QDialogButtonBox::accepted, this, &ArrayDialog::accept);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
}

void ArrayDialog::accept() {
  try {
    const double across_m =
        edit::lengthFrom(column_pitch_->text().toStdString(), shownUnits());
    const double up_m = edit::lengthFrom(row_pitch_->text().toStdString(), shownUnits());
    edit::Copied copied =
        edit::arrayed(workspace_.design(), workspace_.selection(), columns_->value(),
                      rows_->value(), {across_m, 0}, {0, up_m});
    workspace_.apply(tr("Rows and columns"), std::move(copied.design));
    workspace_.select(std::move(copied.copies));
    QDialog::accept();
  } catch (const InputError& error) {
    error_->setText(sentenceOf(error));
    layout()->activate();
    resize(width(), std::max(height(), layout()->totalHeightForWidth(width())));
  }
}

}  // namespace belvedere::desk
