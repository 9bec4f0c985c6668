// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/service_parts.h"

#include "desk/catalogue_page.h"
#include "desk/drawer.h"
#include "desk/main_window.h"
#include "desk/model_drop.h"
#include "desk/services_page.h"

namespace belvedere::desk {

void makeServiceParts(MainWindow& window, Drawer& drawer) {
  auto* services = new ServicesPage(window.workspace(), window.sheet());
  drawer.addPage("lists.services", Drawer::tr("&Services"), Drawer::tr("Services"),
                 QKeySequence(Qt::Key_F9), services);
  drawer.addPage("lists.catalogue", Drawer::tr("&Catalogue"), Drawer::tr("Catalogue"),
                 QKeySequence(Qt::SHIFT | Qt::Key_F9), new CataloguePage(window.workspace()));
  new ModelDrop(window.sheet());
  window.addCommand(QObject::tr("&Draw"), "draw.bend_way", QObject::tr("B&end the found way of a cable"), {},
                    [services] { services->bendWay(); });
  window.addCommand(QObject::tr("&Draw"), "draw.find_way", QObject::tr("Let a cable &find its way again"), {},
                    [services] { services->findWay(); });
  // The stage offers its tables, and takes back what it offered.
  QObject::connect(&window.workspace(), &Workspace::stageChanged, &drawer, [&window, &drawer, services] {
    if (window.workspace().stage() == Stage::services) drawer.open(services);
    else if (drawer.page() == services) drawer.putAway();
  });
}

}  // namespace belvedere::desk
