// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a requirement may ask, as choices: value and words; and what was found of it.
#pragma once

#include <QString>

#include <utility>
#include <vector>

#include "design/design.h"
#include "requirements/requirements.h"

namespace belvedere::desk {

using Choices = std::vector<std::pair<QString, QString>>;

Choices taskChoices(const design::Design& design);  // by the design's table: "identify, 250 px/m"
Choices targetChoices();                            // value: the enumerator's number
Choices judgedOnChoices();
QString targetWord(design::TargetKind kind);
QString situationTitle(const design::Design& design, const design::SituationId& id);
QString askedWord(requirements::Asks asks);
// "met: runs on C1.3"
QString demandWords(const requirements::Demand& demand);

}  // namespace belvedere::desk
