// SPDX-License-Identifier: GPL-3.0-or-later
//
// `belvedere-desk [DESIGN]`: the window.
#include <QApplication>
#include <QCommandLineParser>

#include "desk/main_window.h"
#include "desk/safety_parts.h"
#include "desk/theme.h"
#include "desk/ts_translator.h"

int main(int argc, char** argv) {
  QApplication app(argc, argv);
  QApplication::setOrganizationName("Belvedere");  // names the file of settings
  QApplication::setApplicationName("belvedere-desk");
  QApplication::setApplicationDisplayName("Belvedere");
  QApplication::setApplicationVersion(BELVEDERE_VERSION);
  QCommandLineParser parser;
  parser.setApplicationDescription(
      QObject::tr("The window in which a video surveillance design is made and proven."));
  parser.addHelpOption();
  parser.addVersionOption();
  parser.addPositionalArgument("DESIGN", QObject::tr("the design file to open"), "[DESIGN]");
  const QCommandLineOption theme("theme", QObject::tr("light or dark; as the system is unless said"),
                                 "THEME");
  parser.addOption(theme);
  const QCommandLineOption language(
      "language", QObject::tr("en or de; as the system is unless said"), "LANGUAGE");
  parser.addOption(language);
  parser.process(app);

  belvedere::desk::installTranslation(parser.value(language));
  belvedere::desk::startTheme(parser.value(theme));

  belvedere::desk::MainWindow window;
  window.show();
  if (!parser.positionalArguments().isEmpty())
    window.openFile(parser.positionalArguments().front().toStdString());
  belvedere::desk::offerLeftWork(window);
  return QApplication::exec();
}
