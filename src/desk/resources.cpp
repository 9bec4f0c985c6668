// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/resources.h"

#include <QtGlobal>
#include <QDir>

// Outside of all namespaces, as the macro asks.
static void initialize() { Q_INIT_RESOURCE(desk_pages); }

namespace belvedere::desk {

void loadResources() {
  static const bool once = (initialize(), true);
  (void)once;
}

}  // namespace belvedere::desk
