// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the selected requirement asks, below the brief while one is at the brief: all of it read and
// changed here. With it the commands that add and erase requirements and situations.
#pragma once

#include <QWidget>

#include <functional>
#include <vector>

#include "desk/workspace.h"

class QCheckBox;
class QComboBox;
class QFormLayout;
class QLabel;
class QLineEdit;
class QVBoxLayout;

namespace belvedere::desk {

class MainWindow;

class RequirementFields : public QWidget {
  Q_OBJECT

 public:
  explicit RequirementFields(MainWindow& window);

 private:
  using Choices = std::vector<std::pair<QString, QString>>;
  using Read = std::function<QString(const design::Requirement&)>;
  using Write = std::function<void(design::Requirement&, const QString&)>;
  void typed(const QString& object, const QString& label, Read read, Write write);
  void chosen(const QString& object, const QString& label,
              std::function<Choices(const design::Design&)> choices, Read read, Write write);
  void take();
  void takeSituations(const design::Requirement& requirement);
  void change(const QString& what, const std::function<void(design::Requirement&)>& edit);
  void addCommands(MainWindow& window);

  struct Field {
    QString label;
    QLineEdit* line = nullptr;
    QComboBox* box = nullptr;
    std::function<Choices(const design::Design&)> choices;
    Read read;
  };
  Workspace& workspace_;
  QLabel* title_ = nullptr;
  QFormLayout* form_ = nullptr;
  QWidget* situations_ = nullptr;
  QVBoxLayout* situations_column_ = nullptr;
  std::vector<Field> fields_;
  std::vector<std::pair<design::SituationId, QCheckBox*>> boxes_;
};

}  // namespace belvedere::desk
