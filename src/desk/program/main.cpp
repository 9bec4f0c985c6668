// SPDX-License-Identifier: GPL-3.0-or-later
//
// `belvedere-desk [DESIGN]`: the window.
#include <QApplication>
#include <QCommandLineParser>

#include <algorithm>
#include <string_view>

#include "desk/habit_parts.h"
#include "desk/main_window.h"
#include "desk/safety_parts.h"
#include "desk/theme.h"
#include "desk/ts_translator.h"

namespace {

// What is asked of the command line; --help and --version are answered here.
void parse(QCommandLineParser& parser, QCoreApplication& app) {
  QCoreApplication::setApplicationVersion(BELVEDERE_VERSION);
  parser.setApplicationDescription(
      QObject::tr("The window in which a video surveillance design is made and proven."));
  parser.addHelpOption();
  parser.addVersionOption();
  parser.addPositionalArgument("DESIGN", QObject::tr("the design file to open"), "[DESIGN]");
  parser.addOption({"theme", QObject::tr("light or dark; as the system is unless said"), "THEME"});
  parser.addOption(
      {"language", QObject::tr("en or de; as the system is unless said"), "LANGUAGE"});
  parser.process(app);
}

// Answers that need no screen, nor have one where they are asked from a script.
bool asksForWordsAlone(int argc, char** argv) {
  return std::any_of(argv + 1, argv + argc, [](std::string_view word) {
    return word == "--help" || word == "-h" || word == "--version" || word == "-v";
  });
}

}  // namespace

int main(int argc, char** argv) {
  if (asksForWordsAlone(argc, argv)) {
    QCoreApplication app(argc, argv);
    QCommandLineParser parser;
    parse(parser, app);
    return 0;
  }
  QApplication app(argc, argv);
  QApplication::setOrganizationName("Belvedere");  // names the file of settings
  QApplication::setApplicationName("belvedere-desk");
  QApplication::setApplicationDisplayName("Belvedere");
  QCommandLineParser parser;
  parse(parser, app);

  belvedere::desk::installTranslation(parser.value("language"));
  belvedere::desk::startTheme(parser.value("theme"));

  belvedere::desk::MainWindow window;
  belvedere::desk::showWindow(window);
  if (!parser.positionalArguments().isEmpty())
    window.openFile(parser.positionalArguments().front().toStdString());
  belvedere::desk::offerLeftWork(window);
  return QApplication::exec();
}
