// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/room_sentences.h"

#include <QCoreApplication>
#include <QRegularExpression>

#include <algorithm>
#include <iterator>
#include <vector>

namespace belvedere::desk {
namespace {

// As the rooms say them, with places for what is put in. Parts of a sentence that is put together from
// them (after "; ", or in the place of a value) stand by themselves.
constexpr const char* kKnown[] = {
    QT_TRANSLATE_NOOP("sentences", "%1: turn %2 deg to the right (pan %3)"),
    QT_TRANSLATE_NOOP("sentences", "%1: turn %2 deg to the left (pan %3)"),
    QT_TRANSLATE_NOOP("sentences", "%1: tilt %2 deg down (tilt %3)"),
    QT_TRANSLATE_NOOP("sentences", "%1: tilt %2 deg up (tilt %3)"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: turn %2 deg to the right (pan %3) and tilt %4 deg down (tilt %5)"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: turn %2 deg to the right (pan %3) and tilt %4 deg up (tilt %5)"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: turn %2 deg to the left (pan %3) and tilt %4 deg down (tilt %5)"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: turn %2 deg to the left (pan %3) and tilt %4 deg up (tilt %5)"),
    QT_TRANSLATE_NOOP("sentences", "%1: zoom from %2 to %3 mm"),
    QT_TRANSLATE_NOOP("sentences", "%1: zoom from %2 to %3 deg across"),
    QT_TRANSLATE_NOOP("sentences", "%1: fix it %2 m higher, at %3 m above the floor"),
    QT_TRANSLATE_NOOP("sentences", "%1: fix it %2 m lower, at %3 m above the floor"),
    QT_TRANSLATE_NOOP("sentences", "%1: move it %2 m along %3, to (%4, %5)"),
    QT_TRANSLATE_NOOP("sentences", "%1: take a %2 instead of a %3"),
    QT_TRANSLATE_NOOP("sentences", "%1: let lamp %2 burn with the group"),
    QT_TRANSLATE_NOOP("sentences", "%1: let lamp %2 follow %3"),
    QT_TRANSLATE_NOOP("sentences", "%1: expose for %2 at most instead of %3"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: expose for %2 at most instead of %3, which smears a target at %4 m/s over %5 px"),
    QT_TRANSLATE_NOOP("sentences", "%1: focus it at %2 m"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: stop it down from f/%2 to f/%3; it then asks for %4 times the light"),
    QT_TRANSLATE_NOOP("sentences", "%1: turn it to a bearing of %2 deg, %3 deg down"),
    QT_TRANSLATE_NOOP("sentences", "%1: add %2 where it hangs, at a bearing of %3 deg, %4 deg down"),
    QT_TRANSLATE_NOOP("sentences", "runs on %1"),
    QT_TRANSLATE_NOOP("sentences", "nothing serves it"),
    QT_TRANSLATE_NOOP("sentences", "no stream that serves it is recorded"),
    QT_TRANSLATE_NOOP("sentences", "nothing says what is recorded (services, recording)"),
    QT_TRANSLATE_NOOP("sentences", "no imager is left that can run it beside the other rules"),
    QT_TRANSLATE_NOOP("sentences", "the search for imagers to run it was given up"),
    QT_TRANSLATE_NOOP("sentences", "%1 imagers see it well enough to run it"),
    QT_TRANSLATE_NOOP("sentences", "%1 asked for"),
    QT_TRANSLATE_NOOP("sentences", "nearest: %1"),
    QT_TRANSLATE_NOOP("sentences", "the model of %1 does not say what it can run"),
    QT_TRANSLATE_NOOP("sentences",
                      "who walks through is in it for %1 s on average, %2 s are asked for"),
    QT_TRANSLATE_NOOP("sentences", "%1 days or more: %2"),
    QT_TRANSLATE_NOOP("sentences", "%1 days at the high end of the rates, %2 at the low end"),
    QT_TRANSLATE_NOOP("sentences", "%1 days at most of %2"),
    QT_TRANSLATE_NOOP("sentences", "what %1 can hold is not stated"),
    QT_TRANSLATE_NOOP("sentences", "%1 alone serves a part of it and is not recorded"),
    QT_TRANSLATE_NOOP("sentences", "%1 alone serve a part of it and are not recorded"),
    QT_TRANSLATE_NOOP("sentences", "%1 gives %2 frames a second, %3 are asked for"),
    QT_TRANSLATE_NOOP("sentences", "not every stream states its frame rate"),
    QT_TRANSLATE_NOOP("sentences", "%1 of material, of at most %2"),
    QT_TRANSLATE_NOOP("sentences", "its zone is judged in no situation"),
    QT_TRANSLATE_NOOP("sentences", "a gap of %1 m or more in %2, where %3 m may be"),
    QT_TRANSLATE_NOOP("sentences", "no gap: all of the zone is served"),
    QT_TRANSLATE_NOOP("sentences", "no gap is longer than %1 m, where %2 m may be"),
    QT_TRANSLATE_NOOP("sentences", "the longest gap, in %1, is of %2 to %3 m, where %4 m may be"),
    QT_TRANSLATE_NOOP("sentences", "a target that stands still is in view as long as it stands"),
    QT_TRANSLATE_NOOP("sentences",
                      "who walks through at %1 m/s is in view for %2 to %3 s on average in %4, %5 s are "
                      "asked for"),
    QT_TRANSLATE_NOOP("sentences", "no zone falls with any one of them"),
    QT_TRANSLATE_NOOP("sentences", "without %1 %2 zones fall (%3), where %4 may"),
    QT_TRANSLATE_NOOP("sentences", "without %1 1 zone falls (%2), where %3 may"),
    QT_TRANSLATE_NOOP("sentences", "without %1 %2 zones fall (%3), perhaps %4, where %5 may"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: faces are asked for without the direction in which they look; a camera behind "
                      "people's backs would count."),
    QT_TRANSLATE_NOOP("sentences", "%1 (%2): at most %3 % of the zone where %4 % is asked for."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2) without %3: at most %4 % of the zone where %5 % is asked for."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): between %3 and %4 % of the zone; %5 % is asked for and lies between."),
    QT_TRANSLATE_NOOP("sentences", "%1 (%2): %3 reaches %4 px/m where at most %5 is allowed."),
    QT_TRANSLATE_NOOP("sentences", "%1 serves no spot of any requirement."),
    QT_TRANSLATE_NOOP("sentences", "%1 serves nothing that others do not serve as well."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 has %2 aims: what only one of them serves is seen a share of the time."),
    QT_TRANSLATE_NOOP("sentences", "The brief asks for nothing, so that nothing is proven."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 imagers give no stream that is recorded or viewed as it asks, and are judged "
                      "on their captured pixels."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 x %3 of %4 x %5 captured pixels: enlarging adds nothing, and the captured "
                      "ones are judged."),
    QT_TRANSLATE_NOOP("sentences",
                      "The situations last %1 h together, a year has %2: of the rest nothing is proven."),
    QT_TRANSLATE_NOOP("sentences",
                      "The situations last %1 h together, a year has %2: some of them overlap, or their "
                      "hours are too many."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: its stated fields of view do not fit one lens; that used here misses one of "
                      "them by %2 deg."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): the data sheet of %3 has no least illumination, so that nobody can tell "
                      "whether %4 lx are enough: it is taken to see."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): the data sheet of %3 has no least illumination, so that light is judged by "
                      "the ranges of lamps alone."),
    QT_TRANSLATE_NOOP("sentences", "%1 (%2): is in mono, and no lamp of its housing follows it."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): %3 shines into its picture from %4 m, at %5, %6 px, with %7 times what "
                      "lights a target at the lamp's range, %8 deg off the lamp's axis"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): sees %3 lit from near by: it stands %4 m off %5 in its beam, and shows at "
                      "%6, %7 px, %8 m off the lamp, with %9 times what lights a target at the lamp's range"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): sees %3 mirrored in %4, at %5, %6 px: %7 m there and back, %8 % thrown "
                      "back, with %9 times what lights a target at the lamp's range"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): sees %3 mirrored in its own cover, at %4, %5 px: the cover has a radius of "
                      "%6 mm, the lens is %7 mm and the lamp %8 mm off its centre, and the ray is thrown "
                      "back %9"),
    QT_TRANSLATE_NOOP("sentences", "at a bearing of %1 deg, %2 deg down"),
    QT_TRANSLATE_NOOP("sentences", "at a bearing of %1 deg, %2 deg up"),
    QT_TRANSLATE_NOOP("sentences", "turned %1 deg to the right it does not."),
    QT_TRANSLATE_NOOP("sentences", "turned %1 deg to the left it does not."),
    QT_TRANSLATE_NOOP("sentences", "tilted %1 deg farther down it does not."),
    QT_TRANSLATE_NOOP("sentences", "tilted %1 deg up it does not."),
    QT_TRANSLATE_NOOP("sentences", "with aim %1 turned %2 deg to the right it does not."),
    QT_TRANSLATE_NOOP("sentences", "with aim %1 turned %2 deg to the left it does not."),
    QT_TRANSLATE_NOOP("sentences", "with aim %1 tilted %2 deg farther down it does not."),
    QT_TRANSLATE_NOOP("sentences", "with aim %1 tilted %2 deg up it does not."),
    QT_TRANSLATE_NOOP("sentences", "no turn that it may make keeps it out, so turn or screen the lamp."),
    QT_TRANSLATE_NOOP("sentences",
                      "no turn that it may make keeps it out, so move the housing or the lamp off it, or "
                      "switch the lamp off."),
    QT_TRANSLATE_NOOP("sentences",
                      "no turn that it may make keeps it out, so move it aside, or light the scene from "
                      "elsewhere."),
    QT_TRANSLATE_NOOP("sentences",
                      "no turn that it may make keeps it out, so switch the lamp off and light from one "
                      "that stands apart."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): looks through %3 %4 m ahead with a lamp of its own on: the pane lights up, "
                      "and %5 % of the infrared is left there and back. Hang it on the other side, or "
                      "switch its lamps off and light that side from there."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): its lens brings infrared to a focus %3 um behind that of light. Focused at "
                      "%4 m it is sharp %5 by light and %6 by infrared"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): its lens brings infrared to a focus %3 um before that of light. Focused at "
                      "%4 m it is sharp %5 by light and %6 by infrared"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): its lens brings infrared to a focus %3 um behind that of light. Focused at %4 m it is "
                      "sharp %5 by light and %6 by infrared. One focus serves both with a lens that is corrected for "
                      "infrared, or from about f/%7 on."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): its lens brings infrared to a focus %3 um before that of light. Focused at %4 m it is "
                      "sharp %5 by light and %6 by infrared. One focus serves both with a lens that is corrected for "
                      "infrared, or from about f/%7 on."),
    QT_TRANSLATE_NOOP("sentences", "from %1 to %2 m"),
    QT_TRANSLATE_NOOP("sentences", "from %1 m on"),
    QT_TRANSLATE_NOOP("sentences", "nowhere"),
    QT_TRANSLATE_NOOP("sentences",
                      "focused at %1 m it is sharpest there by infrared, and not by light. One focus serves "
                      "both with a lens that is corrected for infrared, or from about f/%2 on."),
    QT_TRANSLATE_NOOP("sentences",
                      "no focus makes it sharp there by infrared. One focus serves both with a lens that is "
                      "corrected for infrared, or from about f/%1 on."),
    QT_TRANSLATE_NOOP("sentences", "%1: focus it at %2 m by light, so that infrared is sharpest at %3 m"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 gives no stream that is recorded or viewed as it asks, and is judged on its "
                      "captured pixels."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): an exposure of %3 leaves %4 % of the ripple of lamps on the mains at %5 Hz"),
    QT_TRANSLATE_NOOP("sentences", "%1 leaves none."),
    QT_TRANSLATE_NOOP("sentences", "only %1 and whole multiples of it leave none, which smears what moves"),
    QT_TRANSLATE_NOOP("sentences", "else take luminaires whose drivers do not pulse."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: at %2 m/s and %3 px/m a target smears over %4 px while %5 exposes for %6; %7 "
                      "keeps it to %8 px."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: nobody sees infrared lamps burn: keep eyes away from them at close range (IEC "
                      "62471); their intensity is not stated, so that no distance can be given. The "
                      "maker's safety sheet comes first."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: nobody sees infrared lamps burn: keep eyes away from them at close range (IEC "
                      "62471); they may be looked at lastingly from %2 m on. The maker's safety sheet "
                      "comes first."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: names no lights, so that every zone is taken to be lit well enough."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 (%2): %3 lx at %4 and %5 lx at %6 on its floor, %7: over the %8:1 that is still "
                      "marginal for a camera (UFC 4-021-02NF, table 4-3): what suits the light end is black "
                      "at the other. %9 lx where it is least would do"),
    QT_TRANSLATE_NOOP("sentences",
                      "or dim what is lightest, or take a camera with a stated range for it."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: the sun stands within %2 degrees of its picture %3 h a year (%4): a hood keeps "
                      "it off the lens."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: a lamp burns under the same cover as the lens: drops, dust and scratches on it "
                      "light up before the picture as a veil (common practice, no source). Keep it clean "
                      "and dry, or light from a lamp that stands apart."),
    QT_TRANSLATE_NOOP("sentences",
                      "IEC 62676-4:2014 (withdrawn in October 2025): the figures of detect, observe, "
                      "identify and inspect are from memory; check them against the standard"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 copper cables run outdoors: they need protection against lightning and surges."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 copper cables lead from a building to something in the open: where that has an "
                      "earth of its own (a pole, a fence, a container), two earths are joined. Take fibre, "
                      "or have isolation and protection designed by a licensed person."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: copper between two buildings joins two earths: their potentials may differ. "
                      "Take fibre, or have isolation and protection designed by a licensed person."),
    QT_TRANSLATE_NOOP("sentences", "%1: if it fails, %2 cameras reach nobody: %3."),
    QT_TRANSLATE_NOOP("sentences", "%1 has no link: nothing carries its pictures."),
    QT_TRANSLATE_NOOP("sentences",
                      "Mains, and any connection beyond extra-low voltage, are for licensed people."),
    QT_TRANSLATE_NOOP("sentences",
                      "The rates of %1 of %2 streams are estimates: measure a clip of each kind of scene "
                      "before disks are ordered."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: its model states neither what it draws nor a class, so that nothing is counted "
                      "for it."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: one failed disk loses recordings: its disks are joined without redundancy."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: hangs on %2, and its model does not say what it draws itself (idle_w): only "
                      "what it gives on is counted."),
    QT_TRANSLATE_NOOP("sentences",
                      "The heaviest camera, %1, puts %2 kg on its fixing: whether the ground carries it is "
                      "for a competent person on site."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: hangs %2 m up, within reach of hands, with %3 where %4 is asked for (practice; "
                      "codes of IEC 60529)."),
    QT_TRANSLATE_NOOP("sentences",
                      "What %1 cameras have to stand is not said (surroundings of their storey), so that "
                      "nothing of it is judged."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: its budget of %2 W covers what is drawn, but the classes of its devices claim "
                      "%3 W: a switch that allots by class leaves the last ones dark."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 m of twisted pair cable where %3 m may be laid at %4 C, cords of %5 m aside."),
    QT_TRANSLATE_NOOP("sentences", "%1: %2 m of twisted pair cable where %3 m may be laid."),
    QT_TRANSLATE_NOOP("sentences",
                      "The model %1 does not state %2: by its %3 V, %4 is taken (%5 of its cameras)."),
    QT_TRANSLATE_NOOP("sentences",
                      "The model %1 does not state %2, so that nothing is judged by it (%3 of its cameras)."),
    QT_TRANSLATE_NOOP("sentences", "what voltage it bears"),
    QT_TRANSLATE_NOOP("sentences", "from what voltage it works"),
    QT_TRANSLATE_NOOP("sentences", "from what voltage it works and what it bears"),
    QT_TRANSLATE_NOOP("sentences", "at most %1 V"),
    QT_TRANSLATE_NOOP("sentences",
                      "The model %1 states no corrosion class, and %2 is asked for (%3 of its cameras)."),
    QT_TRANSLATE_NOOP("sentences",
                      "The model %1 states no ingress protection, and %2 is asked for (%3 of its cameras)."),
    QT_TRANSLATE_NOOP("sentences",
                      "The model %1 states no impact protection, and %2 is asked for (%3 of its cameras)."),
    QT_TRANSLATE_NOOP("sentences",
                      "The model %1 states no temperature range, and %2 to %3 C is asked for (%4 of its "
                      "cameras)."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 TB (%3 TiB) may have to be kept and its disks hold %4 TB (%5 TiB) usable: %6 "
                      "days of the longest asked for, at the high end of the rates. %7"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 TB (%3 TiB) have to be kept and its disks hold %4 TB (%5 TiB) usable: %6 "
                      "days of the longest asked for, at the high end of the rates. %7"),
    QT_TRANSLATE_NOOP("sentences", "%1 such disks would do."),
    QT_TRANSLATE_NOOP("sentences",
                      "No number of such disks would do at this level: disks of %1 TB would, or %2 of "
                      "these at level %3."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: size of its recorded streams differs: %2 has %3 where %4 has %5."),
    QT_TRANSLATE_NOOP("sentences", "%1: %2 W are drawn (%3) where it gives %4 W."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 W are drawn (%3) where it gives %4 W; by day %5 W look as if it would do."),
    QT_TRANSLATE_NOOP("sentences", "cold night"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 h of standby on a cold night need %3 Ah, and it has no battery."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: %2 h of standby on a cold night need %3 Ah; its %4 Ah bridge %5 h."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: at %2 m/s (%3 Pa) the wind puts %4 N on it and %5 N on its pole, %6 N m about "
                      "the foot; poles and footings are for a structural engineer."),
    QT_TRANSLATE_NOOP("sentences", "%1 tilts no further than straight down"),
    QT_TRANSLATE_NOOP("sentences", "%1 tilts no further than straight up"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at its pan stop, %2 deg"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at its pan stop"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at its tilt stop, %2 deg"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at its tilt stop"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at its roll stop, %2 deg"),
    QT_TRANSLATE_NOOP("sentences", "%1 has a fixed lens"),
    QT_TRANSLATE_NOOP("sentences", "%1 has a fixed lens now"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at the end of its zoom, %2 deg across"),
    QT_TRANSLATE_NOOP("sentences", "%1 is at the end of its zoom, %2 mm"),
    QT_TRANSLATE_NOOP("sentences", "%1 states no such zoom"),
    QT_TRANSLATE_NOOP("sentences", "%1 cannot pass imager %2 on their ring"),
    QT_TRANSLATE_NOOP("sentences", "imagers of %1 were kept %2 deg apart on their ring"),
    QT_TRANSLATE_NOOP("sentences", "%1: %2 to %3 can be set"),
    QT_TRANSLATE_NOOP("sentences", "%1 has one aim, which stays"),
    QT_TRANSLATE_NOOP("sentences", "%1 hangs no higher on %2"),
    QT_TRANSLATE_NOOP("sentences", "%1 hangs no lower on %2"),
    QT_TRANSLATE_NOOP("sentences", "%1 is held on %2"),
    QT_TRANSLATE_NOOP("sentences", "%1: no tilt brings that point there"),
    QT_TRANSLATE_NOOP("sentences", "%1: no tilt brings that direction there"),
    QT_TRANSLATE_NOOP("sentences", "the point is at the lens"),
    QT_TRANSLATE_NOOP("sentences", "the lens shows nothing there"),
    QT_TRANSLATE_NOOP("sentences", "%1 does not see that point"),
    QT_TRANSLATE_NOOP("sentences", "%1 does not look %2 deg below the horizon"),
    QT_TRANSLATE_NOOP("sentences", "%1 deg are missing for %2 deg of overlap"),
    QT_TRANSLATE_NOOP("sentences", "%1 stays: it is locked"),
    QT_TRANSLATE_NOOP("sentences", "%1 stays: it has several aims"),
    QT_TRANSLATE_NOOP("sentences", "%1 does not hold its part of the wall"),
    QT_TRANSLATE_NOOP("sentences", "%1 finds nothing of the zone in its share"),
    QT_TRANSLATE_NOOP("sentences", "%1 does not hold its share of the zone at its widest"),
    QT_TRANSLATE_NOOP("sentences", "%1 gives %2 px/m at its farthest corner, %3 are asked for"),
    QT_TRANSLATE_NOOP("sentences", "stream %1 shrinks from %2 x %3 to %4 x %5"),
    QT_TRANSLATE_NOOP("sentences", "%1 goes: %2 has no such imager"),
    QT_TRANSLATE_NOOP("sentences", "the mount %1 of %2 is not made for %3"),
    QT_TRANSLATE_NOOP("sentences", "%1 cannot be a %2"),
    QT_TRANSLATE_NOOP("sentences", "the sun's year"),
    QT_TRANSLATE_NOOP("sentences", "blind zones"),
    QT_TRANSLATE_NOOP("sentences", "never in or near the picture"),
    QT_TRANSLATE_NOOP("sentences", "never behind the faces"),
    QT_TRANSLATE_NOOP("sentences", "%1 h hidden by what stands between"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 h in the picture and %2 h within %3 degrees of it (%4; most on %5, %6 h)"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 h in the picture and %2 h within %3 degrees of it (%4; most on %5, %6 h); %7 h "
                      "hidden by what stands between"),
    QT_TRANSLATE_NOOP("sentences", "%1 h behind the faces (%2; most on %3, %4 h)"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1 h behind the faces (%2; most on %3, %4 h); %5 h hidden by what stands between"),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: the sun stands in its picture about %2 h a year, and %3 h within %4 degrees of "
                      "it (%5; most on %6, %7 h); tilted %8 deg farther down it never has."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: the sun stands in its picture about %2 h a year, and %3 h within %4 degrees of "
                      "it (%5; most on %6, %7 h); no tilt within its limits keeps it out, so turn or shade "
                      "it."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: for %2 the sun stands behind the faces, at most %3 deg high, %4 h a year (%5; "
                      "most on %6, %7 h); look from the other side, or shade what lets it in."),
    QT_TRANSLATE_NOOP("sentences",
                      "%1: for %2 the sun stands behind the faces, at most %3 deg high, %4 h a year (%5; "
                      "most on %6, %7 h); for %8 only %9 h."),
    QT_TRANSLATE_NOOP("sentences", "longest %1 to %2, between %3 and %4"),
    QT_TRANSLATE_NOOP("sentences", "%1 to %2, between %3 and %4"),
};

struct Pattern {
  const char* english;
  QRegularExpression says;
  int places;
};

const std::vector<Pattern>& patterns() {
  static const std::vector<Pattern> all = [] {
    std::vector<Pattern> made;
    std::vector<const char*> known(std::begin(kKnown), std::end(kKnown));
    known.insert(known.end(), lightSentences().begin(), lightSentences().end());
    for (const char* english : known) {
      const QString words = QString::fromUtf8(english);
      QString expression;
      int places = 0;
      for (qsizetype i = 0; i < words.size(); ++i) {
        if (words[i] == '%' && i + 1 < words.size() && words[i + 1].isDigit()) {
          // In order: the first is %1. A value does not reach over a joint of sentences.
          expression += QStringLiteral("((?:(?!; ).)+?)");
          ++places;
          ++i;
        } else {
          expression += QRegularExpression::escape(words.mid(i, 1));
        }
      }
      made.push_back({english,
                      QRegularExpression(QRegularExpression::anchoredPattern(expression)), places});
    }
    // What says most by itself fits best: "%1 such disks would do." before "%1 %2".
    std::ranges::stable_sort(made, [](const Pattern& a, const Pattern& b) {
      return qstrlen(a.english) - 2 * static_cast<std::size_t>(a.places) >
             qstrlen(b.english) - 2 * static_cast<std::size_t>(b.places);
    });
    return made;
  }();
  return all;
}

// In the window's language, as far as it is known; `known` says whether all of it is.
QString said(const QString& english, bool& known) {
  static const QRegularExpression lamp(QStringLiteral("^(\\S+) lamp (\\d+)$"));
  if (const auto match = lamp.match(english); match.hasMatch()) {  // a lamp's name
    known = true;
    return QCoreApplication::translate("sentences", "%1 lamp %2").arg(match.captured(1), match.captured(2));
  }
  for (const Pattern& pattern : patterns()) {
    const QRegularExpressionMatch match = pattern.says.match(english);
    if (!match.hasMatch()) continue;
    QString words = QCoreApplication::translate("sentences", pattern.english);
    // All at once: a value may itself hold "%1".
    QString whole;
    for (qsizetype i = 0; i < words.size(); ++i) {
      if (words[i] == '%' && i + 1 < words.size() && words[i + 1].isDigit()) {
        bool of_value = false;  // mostly a name or a figure
        whole += said(match.captured(words[i + 1].digitValue()), of_value);
        ++i;
      } else {
        whole += words[i];
      }
    }
    known = true;
    return whole;
  }
  const qsizetype joint = english.indexOf(QStringLiteral("; "));
  known = false;
  if (joint < 0) return english;
  bool first_known = false, rest_known = false;
  const QString first = said(english.left(joint), first_known);
  const QString rest = said(english.mid(joint + 2), rest_known);
  known = first_known && rest_known;
  return known ? first + QStringLiteral("; ") + rest : english;
}

QString stringOf(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

}  // namespace

QString roomSentence(std::string_view english) {
  bool known = false;
  return said(stringOf(english), known);
}

bool isKnownSentence(std::string_view english) {
  bool known = false;
  said(stringOf(english), known);
  return known;
}

}  // namespace belvedere::desk
