// SPDX-License-Identifier: GPL-3.0-or-later
//
// Sentences that the rooms say in English (findings, demands, changes that would mend a spot), in the
// window's language: told by their pattern, the values in them kept. A sentence of a pattern that is not
// known here stays English.
#pragma once

#include <QString>

#include <span>
#include <string_view>

namespace belvedere::desk {

QString roomSentence(std::string_view english);
// Whether its pattern is known; for tests.
bool isKnownSentence(std::string_view english);
// Patterns that stand in a file of their own, with places %1 ... for what is put in (light_sentences.cpp).
std::span<const char* const> lightSentences();

}  // namespace belvedere::desk
