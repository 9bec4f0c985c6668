// SPDX-License-Identifier: GPL-3.0-or-later
//
// How lists look: rows without a grid, words at the left, nothing that is not needed.
#pragma once

#include <QHeaderView>
#include <QTableView>

namespace belvedere::desk {

inline void setListLook(QTableView& table) {
  table.setSelectionBehavior(QAbstractItemView::SelectRows);
  table.setShowGrid(false);
  table.setFrameShape(QFrame::NoFrame);
  table.setTabKeyNavigation(false);
  table.setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
  table.verticalHeader()->hide();
  table.verticalHeader()->setDefaultSectionSize(table.fontMetrics().height() + 8);
  table.horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  table.horizontalHeader()->setHighlightSections(false);
  table.horizontalHeader()->setStretchLastSection(true);
}

}  // namespace belvedere::desk
