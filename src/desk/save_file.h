// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where something is to be written to: a name without an ending gets that of the chosen kind.
#pragma once

#include <QString>

#include <filesystem>

class QWidget;

namespace belvedere::desk {

// Empty: nowhere.
//   suggested  name, with or without a folder
//   kinds      "PDF (*.pdf);;SVG (*.svg)"
std::filesystem::path askWhereToWrite(QWidget* parent, const QString& title,
                                      const std::filesystem::path& suggested, const QString& kinds);

}  // namespace belvedere::desk
