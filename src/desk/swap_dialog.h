// SPDX-License-Identifier: GPL-3.0-or-later
//
// Another model for one housing, or everywhere its model is used: choose, read what could not stay,
// and after it is done see what it changes in the brief, requirement by requirement.
#pragma once

#include <QDialog>

#include <map>

#include "desk/evaluator.h"
#include "desk/workspace.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;

namespace belvedere::desk {

class SwapDialog : public QDialog {
  Q_OBJECT

 public:
  SwapDialog(Workspace& workspace, Evaluator& evaluator, design::HousingId housing,
             QWidget* parent);

 private:
  void foretell();
  void swap();
  void tellOfBrief();

  Workspace& workspace_;
  Evaluator& evaluator_;
  design::HousingId housing_;
  design::ModelId from_;
  QComboBox* models_ = nullptr;
  QCheckBox* everywhere_ = nullptr;
  QLabel *says_ = nullptr, *brief_ = nullptr;
  QPushButton* swap_ = nullptr;
  // Requirement and situation, with its share before.
  std::map<std::pair<std::string, std::string>, double> before_;
  std::map<std::pair<std::string, requirements::Asks>, QString> demands_before_;  // in words
  quint64 swapped_version_ = 0;  // 0: not yet
};

}  // namespace belvedere::desk
