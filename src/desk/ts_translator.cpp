// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/ts_translator.h"

#include <QCoreApplication>
#include <QFile>
#include <QLibraryInfo>
#include <QLocale>
#include <QXmlStreamReader>

#include "desk/resources.h"

namespace belvedere::desk {
namespace {

QString keyOf(const QString& context, const QString& source) { return context + '\n' + source; }

}  // namespace

bool TsTranslator::read(const QString& path) {
  known_.clear();
  QFile file(path);
  if (!file.open(QIODevice::ReadOnly)) return false;
  QXmlStreamReader xml(&file);
  QString context, source;
  QStringList forms;
  bool finished = false;
  while (!xml.atEnd()) {
    xml.readNext();
    if (xml.isStartElement()) {
      if (xml.name() == u"name") context = xml.readElementText();
      else if (xml.name() == u"message") source.clear(), forms.clear(), finished = false;
      else if (xml.name() == u"source") source = xml.readElementText();
      else if (xml.name() == u"translation") {
        finished = xml.attributes().value("type") != u"unfinished";
        QString text;
        while (!(xml.readNext() == QXmlStreamReader::EndElement && xml.name() == u"translation") &&
               !xml.atEnd()) {
          if (xml.isStartElement() && xml.name() == u"numerusform") forms << xml.readElementText();
          else if (xml.isCharacters()) text += xml.text();
        }
        if (forms.isEmpty()) forms << text;
      }
    } else if (xml.isEndElement() && xml.name() == u"message" && finished && !forms.front().isEmpty()) {
      known_.insert(keyOf(context, source), forms);
      // What one part of the window says another says alike, unless it has its own.
      if (!known_.contains(keyOf({}, source))) known_.insert(keyOf({}, source), forms);
    }
  }
  if (xml.hasError()) known_.clear();
  return !known_.isEmpty();
}

QString TsTranslator::translate(const char* context, const char* source, const char*, int n) const {
  const QString text = QString::fromUtf8(source);
  auto found = known_.constFind(keyOf(QString::fromUtf8(context), text));
  if (found == known_.constEnd()) found = known_.constFind(keyOf({}, text));
  if (found == known_.constEnd()) return {};
  return n == 1 ? found->front() : found->back();
}

void installTranslation(const QString& language) {
  QString word = language.isEmpty() ? QLocale().name().section('_', 0, 0) : language;
  if (word == "C") word = "en";
  loadResources();
  // What the toolkit's own dialogs say, where its words are installed.
  auto* dialogs = new QTranslator(QCoreApplication::instance());
  if (word != "en" && dialogs->load(QLocale(word), "qtbase", "_",
                                    QLibraryInfo::path(QLibraryInfo::TranslationsPath)))
    QCoreApplication::installTranslator(dialogs);
  auto* translator = new TsTranslator(QCoreApplication::instance());
  if (translator->read(":/words/belvedere_" + word + ".ts")) {
    QCoreApplication::installTranslator(translator);
  } else {
    delete translator;
  }
}

}  // namespace belvedere::desk
