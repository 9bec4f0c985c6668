// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sentences of the rooms about light, sharpness, sun and typed numbers, for room_sentences.cpp.
#include <QtGlobal>

#include "desk/room_sentences.h"

namespace belvedere::desk {
namespace {

constexpr const char* kKnown[] = {
    // lamps
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): %3 stands %4 m off in its beam and in the picture of %5, and throws its light "
                      "back; move or turn the lamp or the housing."),
    QT_TRANSLATE_NOOP("sentences", "%1 (%2): sees %3 mirrored in %4, at %5, %6 px."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): sees %3 mirrored in its own cover, at %4, %5 px: the cover has a radius of %6 "
                      "mm, the lens is %7 mm and the lamp %8 mm off its centre, and the ray is thrown back %9"),
    QT_TRANSLATE_NOOP("sentences", "turned %1 deg to the right it does not."),
    QT_TRANSLATE_NOOP("sentences", "turned %1 deg to the left it does not."),
    QT_TRANSLATE_NOOP("sentences", "tilted %1 deg farther down it does not."),
    QT_TRANSLATE_NOOP("sentences", "tilted %1 deg up it does not."),
    QT_TRANSLATE_NOOP("sentences",
                      "no turn within its limits keeps it out, so switch the lamp off and light from one "
                      "that stands apart."),
    QT_TRANSLATE_NOOP("sentences", "at a bearing of %1 deg, %2"),
    QT_TRANSLATE_NOOP("sentences", "%1 deg down"),
    QT_TRANSLATE_NOOP("sentences", "%1 deg up"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): looks through %3 %4 m ahead with a lamp of its own on: the pane lights up, and "
                      "%5 % of the infrared is left there and back."),
    QT_TRANSLATE_NOOP("sentences", "an infrared lamp of %1 m range, %2 deg wide, %3 nm"),
    QT_TRANSLATE_NOOP("sentences", "a white lamp of %1 m range, %2 deg wide"),
    // exposure
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): an exposure of %3 leaves %4 % of the ripple of lamps on the mains at %5 Hz; %6 "
                      "leaves none."),
    QT_TRANSLATE_NOOP("sentences", "%1: set it to mono for good"),
    QT_TRANSLATE_NOOP("sentences", "%1: keep it in colour for good"),
    QT_TRANSLATE_NOOP("sentences", "%1: let it switch to mono by the light"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: open it up from f/%2 to f/%3; it then gets %4 times the light, and is sharp over "
                      "less depth"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: open it up from f/%2 to f/%3, as wide as its lens opens; it then gets %4 times the "
                      "light, and is sharp over less depth"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: is set to f/%2, but at its zoom its lens opens to f/%3 at most: that is what "
                      "counts."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: at %2 a point's image is %3 um wide, more than two of its pixels: it resolves less "
                      "than its pixels say."),
    QT_TRANSLATE_NOOP("sentences", "%1 (%2): the data sheet of %3 has %4, so that %5."),
    QT_TRANSLATE_NOOP("sentences", "no least illumination"),
    QT_TRANSLATE_NOOP("sentences", "a least illumination without its F-number"),
    QT_TRANSLATE_NOOP("sentences", "a least illumination without its exposure time"),
    QT_TRANSLATE_NOOP("sentences", "light is judged by the ranges of lamps alone"),
    QT_TRANSLATE_NOOP("sentences", "nobody can tell whether %1 lx are enough: it is taken to see"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): who stands at about %3 % of the spots that %4 serves has the light behind: at "
                      "%5 lx fall on the side to the lens and %6 lx on the far side, where %7 times is still "
                      "marginal. Bright enough to be served, they may stand dark before a bright ground: light "
                      "them from the camera's side, or look from the light's."),
    // sun
    QT_TRANSLATE_NOOP("sentences",
                      "The time zone \"%1\" is not known here: hours of the sun are those of UTC%2, as the "
                      "longitude suggests. Write it as the IANA database does, such as Europe/Berlin."),
    // where things hang
    QT_TRANSLATE_NOOP("sentences",
                      "%1 is said to hang on %2, and its fixing point (%3) is %4 m away from that."),
    QT_TRANSLATE_NOOP("sentences", "%1: its lens, at (%2) on the site, is inside %3."),
    QT_TRANSLATE_NOOP("sentences", "the slab of %1"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): nothing is left of its zone once what stands on the floor is taken off, so "
                      "that nothing was judged."),
    QT_TRANSLATE_NOOP("sentences", "%1: its zone %2 is there in none of its situations, so that it was never judged."),
    // typed numbers
    QT_TRANSLATE_NOOP("sentences", "at character %1 of \"%2\": %3"),
    QT_TRANSLATE_NOOP("sentences", "a number is missing"),
    QT_TRANSLATE_NOOP("sentences", "a number is missing before \"%1\""),
    QT_TRANSLATE_NOOP("sentences", "\"%1\" is not understood here"),
    QT_TRANSLATE_NOOP("sentences", "the number is too large"),
    QT_TRANSLATE_NOOP("sentences", "\"%1\" is no unit of length"),
    QT_TRANSLATE_NOOP("sentences", "\"%1\" is no exposure time"),
    QT_TRANSLATE_NOOP("sentences", "\"%1\" is no aperture"),
    QT_TRANSLATE_NOOP("sentences", "1/25, 0.04 or 40 ms"),
    QT_TRANSLATE_NOOP("sentences", "f/4 or 4"),
};

}  // namespace

std::span<const char* const> lightSentences() { return kKnown; }

}  // namespace belvedere::desk
