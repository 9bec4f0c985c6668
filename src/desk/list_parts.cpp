// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/list_parts.h"

#include "desk/alternatives_list.h"
#include "desk/drawer.h"
#include "desk/findings_list.h"
#include "desk/light_page.h"
#include "desk/main_window.h"
#include "desk/objects_list.h"
#include "desk/service_parts.h"
#include "desk/sun_page.h"

namespace belvedere::desk {

void makeListParts(MainWindow& window) {
  auto* drawer = new Drawer(window);
  drawer->addPage("lists.objects", Drawer::tr("List of ob&jects"), Drawer::tr("Objects"),
                  QKeySequence(Qt::Key_F2),
                  new ObjectsList(window.workspace(), window.evaluator(), window.sheet()));
  drawer->addPage("lists.findings", Drawer::tr("List of &findings"), Drawer::tr("Findings"),
                  QKeySequence(Qt::Key_F3),
                  new FindingsList(window.workspace(), window.evaluator(), window.sheet()));
  drawer->addPage("lists.alternatives", Drawer::tr("&Alternatives"), Drawer::tr("Alternatives"),
                  QKeySequence(Qt::Key_F4), new AlternativesList(window.workspace()));
  drawer->addPage("lists.light", Drawer::tr("Light of the situa&tion"), Drawer::tr("Light"),
                  QKeySequence(Qt::CTRL | Qt::Key_F8), new LightPage(window.workspace()));
  drawer->addPage("lists.sun", Drawer::tr("S&un of the imager"), Drawer::tr("Sun"),
                  QKeySequence(Qt::SHIFT | Qt::Key_F8), new SunPage(window.workspace()));
  makeServiceParts(window, *drawer);
}

}  // namespace belvedere::desk
