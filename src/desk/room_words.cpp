// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/room_words.h"

#include <QCoreApplication>

#include <algorithm>
#include <iterator>

namespace belvedere::desk {
namespace {

// What translators are to know of: edit::word, design::word, the kinds of edit::objectsOf, the tasks
// of design::taskScale.
constexpr const char* kKnown[] = {
    QT_TRANSLATE_NOOP("rooms", "building"),
    QT_TRANSLATE_NOOP("rooms", "storey"),
    QT_TRANSLATE_NOOP("rooms", "wall"),
    QT_TRANSLATE_NOOP("rooms", "opening"),
    QT_TRANSLATE_NOOP("rooms", "solid"),
    QT_TRANSLATE_NOOP("rooms", "zone"),
    QT_TRANSLATE_NOOP("rooms", "mounting line"),
    QT_TRANSLATE_NOOP("rooms", "containment"),
    QT_TRANSLATE_NOOP("rooms", "drawing"),
    QT_TRANSLATE_NOOP("rooms", "light"),
    QT_TRANSLATE_NOOP("rooms", "housing"),
    QT_TRANSLATE_NOOP("rooms", "imager"),
    QT_TRANSLATE_NOOP("rooms", "device"),
    QT_TRANSLATE_NOOP("rooms", "stock"),
    QT_TRANSLATE_NOOP("rooms", "column"),
    QT_TRANSLATE_NOOP("rooms", "counter"),
    QT_TRANSLATE_NOOP("rooms", "furniture"),
    QT_TRANSLATE_NOOP("rooms", "ramp"),
    QT_TRANSLATE_NOOP("rooms", "stair"),
    QT_TRANSLATE_NOOP("rooms", "beam"),
    QT_TRANSLATE_NOOP("rooms", "canopy"),
    QT_TRANSLATE_NOOP("rooms", "vehicle"),
    QT_TRANSLATE_NOOP("rooms", "foliage"),
    QT_TRANSLATE_NOOP("rooms", "sign"),
    QT_TRANSLATE_NOOP("rooms", "mesh"),
    QT_TRANSLATE_NOOP("rooms", "other"),
    QT_TRANSLATE_NOOP("rooms", "mount"),
    QT_TRANSLATE_NOOP("rooms", "lamp"),
    QT_TRANSLATE_NOOP("rooms", "camera"),
    QT_TRANSLATE_NOOP("rooms", "switch"),
    QT_TRANSLATE_NOOP("rooms", "injector"),
    QT_TRANSLATE_NOOP("rooms", "supply"),
    QT_TRANSLATE_NOOP("rooms", "cable"),
    QT_TRANSLATE_NOOP("rooms", "recorder"),
    QT_TRANSLATE_NOOP("rooms", "disk"),
    QT_TRANSLATE_NOOP("rooms", "card"),
    QT_TRANSLATE_NOOP("rooms", "viewer"),
    QT_TRANSLATE_NOOP("rooms", "face"),
    QT_TRANSLATE_NOOP("rooms", "face_child"),
    QT_TRANSLATE_NOOP("rooms", "face_seated"),
    QT_TRANSLATE_NOOP("rooms", "person"),
    QT_TRANSLATE_NOOP("rooms", "plate"),
    QT_TRANSLATE_NOOP("rooms", "floor"),
    QT_TRANSLATE_NOOP("rooms", "custom"),
    QT_TRANSLATE_NOOP("rooms", "end of"),
    QT_TRANSLATE_NOOP("rooms", "crossing of"),
    QT_TRANSLATE_NOOP("rooms", "middle of"),
    QT_TRANSLATE_NOOP("rooms", "square to"),
    QT_TRANSLATE_NOOP("rooms", "on"),
    QT_TRANSLATE_NOOP("rooms", "on the face of"),
    QT_TRANSLATE_NOOP("rooms", "right angle"),
    QT_TRANSLATE_NOOP("rooms", "in line with"),
    QT_TRANSLATE_NOOP("rooms", "grid"),
    QT_TRANSLATE_NOOP("rooms", "twisted pair"),
    QT_TRANSLATE_NOOP("rooms", "fibre"),
    QT_TRANSLATE_NOOP("rooms", "power"),
    QT_TRANSLATE_NOOP("rooms", "day"),
    QT_TRANSLATE_NOOP("rooms", "night"),
    QT_TRANSLATE_NOOP("rooms", "cold night"),
    QT_TRANSLATE_NOOP("rooms", "start"),
    QT_TRANSLATE_NOOP("rooms", "estimated"),
    QT_TRANSLATE_NOOP("rooms", "capped"),
    QT_TRANSLATE_NOOP("rooms", "stated"),
    QT_TRANSLATE_NOOP("rooms", "measured"),
    QT_TRANSLATE_NOOP("rooms", "monitor"),
    QT_TRANSLATE_NOOP("rooms", "detect"),
    QT_TRANSLATE_NOOP("rooms", "observe"),
    QT_TRANSLATE_NOOP("rooms", "recognise"),
    QT_TRANSLATE_NOOP("rooms", "identify"),
    QT_TRANSLATE_NOOP("rooms", "inspect"),
    QT_TRANSLATE_NOOP("rooms", "overview"),
    QT_TRANSLATE_NOOP("rooms", "outline"),
    QT_TRANSLATE_NOOP("rooms", "discern"),
    QT_TRANSLATE_NOOP("rooms", "perceive"),
    QT_TRANSLATE_NOOP("rooms", "characterise"),
    QT_TRANSLATE_NOOP("rooms", "validate"),
    QT_TRANSLATE_NOOP("rooms", "scrutinise"),
};

}  // namespace

QString roomWord(std::string_view english) {
  const auto known = std::find(std::begin(kKnown), std::end(kKnown), english);
  if (known == std::end(kKnown))
    return QString::fromUtf8(english.data(), static_cast<qsizetype>(english.size()));
  return QCoreApplication::translate("rooms", *known);
}

QString snapWords(const edit::Snap& snap) {
  const std::string_view word = edit::word(snap.kind), says = snap.says;
  if (word.empty() || !says.starts_with(word)) return QString::fromStdString(snap.says);
  return roomWord(word) + QString::fromStdString(std::string(says.substr(word.size())));
}

}  // namespace belvedere::desk
