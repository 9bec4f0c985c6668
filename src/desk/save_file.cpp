// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/save_file.h"

#include <QFileDialog>
#include <QRegularExpression>

namespace belvedere::desk {
namespace {

// "pdf" of "PDF (*.pdf)"
QString endingOf(const QString& kind) {
  return QRegularExpression(QStringLiteral("\\*\\.(\\w+)")).match(kind).captured(1);
}

}  // namespace

std::filesystem::path askWhereToWrite(QWidget* parent, const QString& title,
                                      const std::filesystem::path& suggested, const QString& kinds) {
  QFileDialog dialog(parent, title, {}, kinds);
  dialog.setAcceptMode(QFileDialog::AcceptSave);
  dialog.setDefaultSuffix(endingOf(kinds));
  QObject::connect(&dialog, &QFileDialog::filterSelected, &dialog,
                   [&dialog](const QString& kind) { dialog.setDefaultSuffix(endingOf(kind)); });
  dialog.selectFile(QString::fromStdString(suggested.string()));
  if (dialog.exec() != QDialog::Accepted) return {};
  return dialog.selectedFiles().front().toStdString();
}

}  // namespace belvedere::desk
