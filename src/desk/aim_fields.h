// SPDX-License-Identifier: GPL-3.0-or-later
//
// The numbers of what is selected, below the brief: aim, zoom, height, base, focus, exposure,
// aperture, place, life and mode, to be read and typed. Enter applies, Escape restores, arrow keys
// step; with several imagers selected a number is given to each. Hidden where no housing is selected.
#pragma once

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QWidget>

#include <functional>
#include <optional>
#include <vector>

#include "desk/workspace.h"
#include "edit/aim.h"

class QGridLayout;

namespace belvedere::desk {

// The imagers that are selected, each once; a whole housing stands for all of its imagers.
std::vector<edit::ImagerRef> selectedImagers(const Workspace& workspace);
std::vector<design::HousingId> selectedHousings(const Workspace& workspace);

// One line to type a number in.
class NumberField : public QLineEdit {
  Q_OBJECT

 public:
  explicit NumberField(QWidget* parent = nullptr);
  void show(const QString& text);   // unless a hand is typing in it

 Q_SIGNALS:
  void typed(const QString& text);
  void stepped(double steps);       // one a press; ten with Shift, a tenth with Control

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  QString shown_;
};

class AimFields : public QWidget {
  Q_OBJECT

 public:
  explicit AimFields(Workspace& workspace, QWidget* parent = nullptr);

 private:
  // A number of an imager, or of a housing (of its first selected imager).
  struct Field {
    NumberField* edit = nullptr;
    QLabel* label = nullptr;
    QString name;                                  // of the step of undo: "Pan of %1"
    bool of_imager = true;
    double step = 1;
    std::function<std::optional<double>(const design::Design&, const edit::ImagerRef&)> read;
    // Nothing: cleared, where that means something (`when_absent`).
    std::function<edit::Aimed(const design::Design&, const edit::ImagerRef&,
                              std::optional<double>)>
        write;
    std::function<double(const std::string&)> parse;
    std::function<QString(double)> words;
    QString when_absent{};                         // what then holds: "by itself"; empty: always there
  };
  void add(const QString& object, const QString& label, Field field);
  void addChoices();
  void take();
  void layOut();
  // `value`: from what is set now.
  using NewValue = std::function<std::optional<double>(std::optional<double>)>;
  void write(const Field& field, const NewValue& value, const std::string& gesture);
  void writePlace(const QString& text);
  std::vector<edit::ImagerRef> targetsOf(const Field& field) const;

  Workspace& workspace_;
  QGridLayout* grid_ = nullptr;
  QLabel* title_ = nullptr;
  std::vector<Field> fields_;
  NumberField* place_ = nullptr;
  QComboBox *life_ = nullptr, *mode_ = nullptr;
  QLabel* mode_label_ = nullptr;
};

}  // namespace belvedere::desk
