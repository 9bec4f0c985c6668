// SPDX-License-Identifier: GPL-3.0-or-later
//
// Translations as the translator writes them: a .ts file read at the program's start, without a
// step of compilation. Numbers of things take the first form for one and the last for others, as in
// German.
#pragma once

#include <QHash>
#include <QTranslator>

namespace belvedere::desk {

class TsTranslator : public QTranslator {
  Q_OBJECT

 public:
  using QTranslator::QTranslator;
  // False, and nothing is known, when it is no translation file.
  bool read(const QString& path);
  bool isEmpty() const override { return known_.isEmpty(); }
  qsizetype count() const { return known_.size(); }
  QString translate(const char* context, const char* source, const char* disambiguation,
                    int n) const override;

 private:
  QHash<QString, QStringList> known_;  // by the source text, with its context and by itself
};

// Installs the one for the system's language, or for `language` ("de"); of English it is one and many of
// what is counted.
void installTranslation(const QString& language = {});

}  // namespace belvedere::desk
