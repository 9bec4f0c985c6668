// SPDX-License-Identifier: GPL-3.0-or-later
//
// The numbers and words of what is selected on the site, below the brief: read and typed, with
// units. Of several objects those that all of them have, typed once for all; where they differ the
// field is empty. Hidden where nothing is selected, and for housings, which have their own.
#pragma once

#include <QWidget>

#include <vector>

#include "desk/workspace.h"
#include "edit/properties.h"

class QGridLayout;
class QLabel;

namespace belvedere::desk {

class ObjectFields : public QWidget {
  Q_OBJECT

 public:
  explicit ObjectFields(Workspace& workspace, QWidget* parent = nullptr);

 private:
  void take();
  void build();
  void write(std::size_t index);

  Workspace& workspace_;
  QLabel* title_ = nullptr;
  QGridLayout* grid_ = nullptr;
  QWidget* body_ = nullptr;
  edit::Selection shown_;                  // whose fields are built
  std::vector<edit::Property> properties_; // of all of them; absent values where they differ
  std::vector<QWidget*> edits_;
};

}  // namespace belvedere::desk
