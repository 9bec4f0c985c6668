// SPDX-License-Identifier: GPL-3.0-or-later
//
// The catalogue beside the plan: models that the design can use, filtered by words or by any stated
// property ("capacity/ports>=8"); those selected stand side by side below. A double click selects the
// housings and devices that are of that model; a housing's model dragged onto the plan is put up there.
#pragma once

#include <QWidget>

#include <vector>

#include "design/catalogue_table.h"
#include "desk/workspace.h"

class QLabel;
class QLineEdit;
class QTableWidget;

namespace belvedere::desk {

class CataloguePage : public QWidget {
  Q_OBJECT

 public:
  explicit CataloguePage(Workspace& workspace);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  struct Listed {
    const design::Model* model = nullptr;  // of the design that models_of_ keeps
    design::Properties properties;
  };
  void take();
  void list();
  void compare();
  void selectUsers(int row);

  Workspace& workspace_;
  std::shared_ptr<const design::Design> models_of_;
  std::vector<Listed> models_;
  std::vector<std::size_t> rows_;          // of the table: into models_
  QLineEdit* filter_ = nullptr;
  QLabel* says_ = nullptr;
  QTableWidget *table_ = nullptr, *compared_ = nullptr;
};

}  // namespace belvedere::desk
